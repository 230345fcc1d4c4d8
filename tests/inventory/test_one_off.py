"""The maker's own change to one order: signed, dated, and in kit, marks and drawing of that order alone."""

import re
from datetime import date
from html import unescape
from uuid import uuid4

import pytest
from django.db import DatabaseError, transaction
from django.urls import reverse

from inventory.actions.orders import LineSpec, confirm_order, in_place_of, one_off, specs_of
from inventory.actions.picking import record_pick
from inventory.models import OneOff, Part, PutBack
from structures.frame import drawing
from structures.frame.family import OneOff as FrameOneOff
from structures.queries.designs import document_for
from structures.refusals import Refuse
from tests.inventory.selling import a_confirmed, a_draft, a_family, a_structure, stock
from tests.pages import value_of, words

pytestmark = pytest.mark.django_db
WITHOUT = FrameOneOff("leave out", "B1-R-side:brace:1", "Runa Holt", "a door stands there", "2026-03-03")
FORM = {
    "line": "1", "act": "leave out", "target": "B1-R-side:brace:1", "target_2": "", "part": "", "by": "", "who": "Runa Holt",
    "why": "a door stands there", "on": "2026-03-03",
}


def sign(client, order, key=None, **said):
    url = reverse("inventory:order-one-off-sign", args=[order.label])
    return client.post(url, {"request_key": str(key or uuid4()), **FORM, **said})


def document(order):
    line = order.version.lines.get()
    return line.design.read() if line.design else None


def test_it_flows_into_kit_marks_and_drawing(olive):
    order = a_confirmed(by=olive)
    before = document(order)
    version = one_off(order, 1, WITHOUT, by=olive)
    after = document(order)
    assert (len(before.braces), len(after.braces)) == (16, 15)
    assert {"part": "SB26", "name": "Side brace, 26 ft", "was": 8, "now": 7} in version.changes["parts"]
    assert sum(mark.kind == "band" for mark in after.marks) != 0
    assert after.marks != before.marks
    assert drawing.render(after, "side-right", "wide") != drawing.render(before, "side-right", "wide")


def test_it_is_signed_and_dated(olive):
    order = a_confirmed(by=olive)
    one_off(order, 1, WITHOUT, by=olive)
    row = OneOff.objects.get()
    assert (row.who, row.why, row.on, row.recorded_by, row.version.number) == (
        "Runa Holt", "a door stands there", date(2026, 3, 3), olive, 2,
    )


def test_other_orders_of_the_same_size_stay_as_they_are(olive):
    other = a_confirmed(by=olive)
    one_off(a_confirmed(by=olive), 1, WITHOUT, by=olive)
    assert len(document(other).braces) == 16


def test_what_was_picked_of_it_is_put_back(olive, wes):
    order = a_confirmed(by=olive)
    line = order.pick.lines.get(part__number="SB26")
    stock(line.part, 8, by=wes)
    record_pick(line, 8, key=uuid4(), by=wes)
    one_off(order, 1, WITHOUT, by=olive)
    assert (PutBack.objects.get().count, PutBack.objects.get().line.part.number) == (1, "SB26")


def test_a_draft_takes_it_into_its_line(olive):
    order = a_draft(by=olive)
    one_off(order, 1, WITHOUT, by=olive)
    assert (order.versions.count(), order.version.lines.get().configuration["one_offs"][0]["who"]) == (1, "Runa Holt")
    confirm_order(order, by=olive)
    assert len(document(order).braces) == 15


def test_another_size_of_the_line_keeps_it(olive):
    order = a_draft(by=olive)
    one_off(order, 1, WITHOUT, by=olive)
    bigger = a_structure(feet=72)
    specs = in_place_of(type(bigger)(bigger.family_revision, bigger.configuration, ordinal=1), specs_of(order.version))
    frame = document_for(specs[0].family_revision, specs[0].configuration)
    assert (frame.measures.hoops, len(frame.braces)) == (19, 15)


def test_the_owner_signs_it_on_its_page(client_for, olive):
    order = a_confirmed(by=olive)
    assert sign(client_for(olive), order).status_code == 302
    said = words(client_for(olive).get(reverse("inventory:order-answer", args=[order.label])))
    assert "One-off on this order: leave out B1-R-side:brace:1. Why: a door stands there. Signed Runa Holt, 3 Mar 2026." in said
    assert "15 corner brace pieces: 7 side and 8 roof" in said


@pytest.mark.parametrize(("said", "field", "sentence"), [
    ({"target": "B9-X"}, "target", "B9-X"),
    ({"who": ""}, "who", "A one-off is signed: whose decision is it?"),
    ({"why": ""}, "why", "A one-off needs its reason."),
    ({"on": "soon"}, "on", "soon is no day: write it like 2026-03-12."),
    ({"by": "a bit"}, "by", "'a bit' is no length"),
    ({"act": "add", "target": "H5", "part": "SB99"}, "part", "SB99"),
])
def test_what_can_t_be_is_one_sentence_and_stays_typed(said, field, sentence, client_for, olive):
    order = a_confirmed(by=olive)
    page = sign(client_for(olive), order, **said)
    assert page.status_code == 422
    assert sentence in words(page)
    assert value_of(page, field) == said[field]
    assert (order.versions.count(), OneOff.objects.count()) == (1, 0)


def test_a_tie_may_be_added(client_for, olive):
    order = a_confirmed(by=olive)
    assert sign(client_for(olive), order, act="add", target="H5", part="TI26", why="hangs tomatoes").status_code == 302
    assert sorted(tie.hoop for tie in document(order).ties) == [2, 4, 5, 6, 8, 10, 12]
    assert order.pick.lines.get(part__number="TI26").to_pick == 7


def test_a_brace_may_be_moved_along_its_tube(client_for, olive):
    order = a_confirmed(by=olive)
    before = {brace.id: brace.landing_from.from_foot_in for brace in document(order).braces}
    done = sign(client_for(olive), order, act="move", target="B2-R-side:brace:1", by="-2 in", why="a pipe is there")
    assert done.status_code == 302
    after = {brace.id: brace.landing_from.from_foot_in for brace in document(order).braces}
    assert before.keys() == after.keys()
    assert before != after


def test_a_move_onto_another_band_is_refused_with_what_would_do(client_for, olive):
    order = a_confirmed(by=olive)
    page = sign(client_for(olive), order, act="move", target="B2-R-side:brace:1", by="1 in")
    assert page.status_code == 422
    assert "The brace band at H2-R-mid and the brace band at H2-R-mid overlap by 1 in." in words(page)
    assert order.versions.count() == 1


def choose(client, order, **chosen):
    return client.get(reverse("inventory:order-one-off", args=[order.label]), chosen)


def options(page, name):
    field = re.search(rf'<select name="{name}".*?</select>', page.content.decode(), re.S)[0]
    return {unescape(words): value for value, words in re.findall(r'<option value="([^"]*)"[^>]*>([^<]*)</option>', field)}


def chosen_in(page, name):
    field = re.search(rf'<select name="{name}".*?</select>', page.content.decode(), re.S)[0]
    return re.search(r'<option value="([^"]*)" selected', field)[1]


def lit_in(page):
    """The pieces that are lit, in the drawing for a desk."""
    first = re.search(r'<svg class="dw[^"]*".*?</svg>', page.content.decode(), re.S)[0]
    return [ident for ident, lines in re.findall(r'<g class="pc" data-id="([^"]+)"[^>]*>(.*?)</g>', first, re.S) if 'class="lit' in lines]


def test_its_own_pieces_and_fittings_are_there_to_choose_from_in_words(client_for, olive):
    order = a_confirmed(by=olive)
    found = options(choose(client_for(olive), order), "piece")
    assert found["B1-L-side, side brace SB26, hoops 1 to 2, left"] == "B1-L-side:brace:1"
    assert found["H4-tie, collar tie TI26, hoop 4"] == "H4-tie:tie:1"
    assert found["H3-L-purlin, cross connector, hoop and purlin"] == "H3-L-purlin:connector:1"
    frame = document(order)
    shown = set(found.values()) - {""}
    assert shown == {one.id for one in (*frame.braces, *frame.ties, *frame.joints)}
    moves = options(choose(client_for(olive), order, act="move"), "piece")
    assert set(moves.values()) - {""} == {one.id for one in (*frame.braces, *frame.ties)}


def test_the_chosen_piece_is_lit_beside_what_leaving_it_out_does(client_for, olive):
    order = a_confirmed(by=olive)
    page = choose(client_for(olive), order, act="leave out", piece="B1-R-side:brace:1")
    assert lit_in(page) == ["B1-R-side:brace:1"]
    said = words(page)
    assert "B1-R-side, side brace SB26, hoops 1 to 2, right. Side brace, 26 ft (SB26): 1 fewer;" in said
    assert "Band clamp 1.90 (BC190): 2 fewer" in said
    assert [value_of(page, name) for name in ("target", "act", "who")] == ["B1-R-side:brace:1", "leave out", olive.called]
    assert (order.versions.count(), OneOff.objects.count()) == (1, 0)


def test_a_fitting_lights_what_it_holds(client_for, olive):
    order, client = a_confirmed(by=olive), client_for(olive)
    page = choose(client, order, piece="H3-L-foot:band:1")
    assert "H3-L-foot, side brace, foot: one band." in words(page)
    assert lit_in(page) == ["B2-L-side:brace:1"]
    page = choose(client, order, piece="H3-L-purlin:connector:1")
    assert "From outside the left side" in words(page)
    assert "It lies where the lit pieces meet." in words(page)
    assert lit_in(page) == ["H3-L-foot:section:1"]     # beside the run, which is drawn as one line


def test_a_new_tie_is_asked_for_its_hoop_alone_and_lit_where_it_will_be(client_for, olive):
    order, client = a_confirmed(by=olive), client_for(olive)
    parts = options(choose(client, order, act="add"), "part")
    assert parts["TI26, Collar tie"] == "TI26"
    assert "BC190" not in parts.values()
    # Half way from the foot's 0-8 to the hip's 4-6 less 3 in.: (8 + 51) / 2 = 29.5 in.
    assert options(choose(client, order, act="add", part="SB26"), "station")["mid, 2-5 1/2 from the foot"] == "mid"
    page = choose(client, order, act="add", part="TI26")
    assert 'name="station"' not in page.content.decode()
    page = choose(client, order, act="add", part="TI26", hoop="5")
    assert "Collar tie, 26 ft (TI26): 1 more" in words(page)
    assert "H5-L-tie to H5-R-tie is lit." in words(page)
    assert sign(client, order, act="add", target=value_of(page, "target"), part="TI26", why="hangs tomatoes").status_code == 302
    assert 5 in {tie.hoop for tie in document(order).ties}


def test_a_new_brace_is_asked_for_the_stations_at_both_ends(client_for, olive):
    order, client = a_confirmed(a_structure(a_family("r14-a"), 40), by=olive), client_for(olive)
    before = len(document(order).braces)
    page = choose(client, order, act="add", part="SB14")
    assert "brace-hip" in options(page, "station").values()
    assert options(page, "hoop")["hoop 1, tag end"] == "1"
    assert "Choose what is changed first" in words(page)
    page = choose(client, order, act="add", part="SB14", side="L", hoop="6", station="mid", hoop_2="5", station_2="brace-hip")
    assert (value_of(page, "target"), value_of(page, "target_2")) == ("H6-L-mid", "H5-L-brace-hip")
    assert "(SB14): 1 more" in words(page)
    assert "H6-L-mid to H5-L-brace-hip is lit." in words(page)
    done = sign(client, order, act="add", target="H6-L-mid", target_2="H5-L-brace-hip", part="SB14", why="a crane stands there")
    assert done.status_code == 302
    assert len(document(order).braces) == before + 1


def test_what_can_t_be_built_is_said_before_anybody_signs(client_for, olive):
    order = a_confirmed(by=olive)
    page = choose(client_for(olive), order, act="move", piece="B2-R-side:brace:1", by="1 in")
    assert page.status_code == 200
    assert "The brace band at H2-R-mid and the brace band at H2-R-mid overlap by 1 in." in words(page)
    assert "Choose what is changed first" in words(page)
    assert (chosen_in(page, "piece"), value_of(page, "by")) == ("B2-R-side:brace:1", "1 in")
    assert lit_in(page) == ["B2-R-side:brace:1"]


def test_a_tie_is_moved_to_a_hoop_and_a_brace_along_its_tube(client_for, olive):
    order, client = a_confirmed(by=olive), client_for(olive)
    page = choose(client, order, act="move", piece="H4-tie:tie:1", hoop="5")
    assert "The kit stays as it is." in words(page)
    assert value_of(page, "target_2") == "H5"
    page = choose(client, order, act="move", piece="B2-R-side:brace:1", by="-2 in")
    assert value_of(page, "by") == "-2 in"
    assert lit_in(page) == ["B2-R-side:brace:1"]


def test_a_refused_signature_keeps_what_was_chosen_and_what_was_typed(client_for, olive):
    order, client = a_confirmed(by=olive), client_for(olive)
    page = sign(client, order, act="add", target="H6-L-mid", target_2="H5-L-brace-hip", part="SB26", why="", who="Runa Holt")
    assert page.status_code == 422
    kept = {"part": "SB26", "side": "L", "hoop": "6", "station": "mid", "hoop_2": "5", "station_2": "brace-hip"}
    assert {name: chosen_in(page, name) for name in kept} == kept
    assert value_of(page, "who") == "Runa Holt"
    page = sign(client, order, target="B1-R-side:brace:1", why="")
    assert (chosen_in(page, "piece"), lit_in(page)) == ("B1-R-side:brace:1", ["B1-R-side:brace:1"])


def test_nothing_chosen_is_nothing_to_sign(client_for, olive):
    page = sign(client_for(olive), a_confirmed(by=olive), target="")
    assert (page.status_code, "Nothing was chosen to be changed: choose it first." in words(page)) == (422, True)


@pytest.mark.parametrize("asked", [
    {"line": "x"}, {"line": "99"}, {"act": "burn"}, {"piece": "../x"}, {"act": "move", "piece": "B1-L-side:brace:1", "by": "x"},
    {"act": "move", "piece": "H4-tie:tie:1", "hoop": "x"},
    {"act": "add", "part": "SB99", "hoop": "99"}, {"act": "add", "part": "TI26", "hoop": "99"},
])
def test_whatever_the_address_says_the_page_stands_and_nothing_is_to_sign(asked, client_for, olive):
    page = choose(client_for(olive), a_confirmed(by=olive), **asked)
    assert page.status_code == 200
    assert 'name="why"' not in page.content.decode()


def test_an_order_of_loose_parts_says_that_it_has_no_structure(client_for, olive):
    a_confirmed(by=olive)
    order = a_draft(LineSpec(part=Part.objects.get(number="SB26"), quantity=3), by=olive)
    assert "has no structure that can be built" in words(choose(client_for(olive), order))


def test_unsigned_it_is_refused_by_the_action_too(olive):
    order = a_confirmed(by=olive)
    with pytest.raises(Refuse, match="A one-off change is signed and dated: its reason is missing"):
        one_off(order, 1, FrameOneOff("leave out", "B1-R-side:brace:1", "Runa Holt", " ", "2026-03-03"), by=olive)
    with pytest.raises(Refuse, match=r"Line 7 of order .* is no structure"):
        one_off(order, 7, WITHOUT, by=olive)


def test_sent_twice_it_is_signed_once(client_for, olive):
    order, client, key = a_confirmed(by=olive), client_for(olive), uuid4()
    assert [sign(client, order, key).status_code for _ in range(2)] == [302, 302]
    assert (order.versions.count(), OneOff.objects.count()) == (2, 1)


def test_only_the_owner_may(client_for, olive, sue, wes, ada):
    order = a_confirmed(by=olive)
    assert [sign(client_for(who), order).status_code for who in (sue, wes, ada, None)] == [403, 403, 404, 302]
    assert not OneOff.objects.exists()


def test_the_database_itself_refuses_to_change_it(olive):
    one_off(a_confirmed(by=olive), 1, WITHOUT, by=olive)
    with pytest.raises(DatabaseError), transaction.atomic():
        OneOff.objects.update(why="another reason")
