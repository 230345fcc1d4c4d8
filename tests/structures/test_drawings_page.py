"""The page of drawings: one drawing large, the kit beside it, all of it in the address; and who may open it."""

import json
import re
from pathlib import Path

import pytest
from django.urls import reverse

from structures.frame import drawing
from structures.models import Design
from tests.factories import design, structure
from tests.pages import queries, words

pytestmark = pytest.mark.django_db
SCHEMA_1 = (Path(__file__).parent / "documents" / "schema-1-gothic-48.json").read_text()


@pytest.fixture
def mine(ada):
    return structure(belongs_to=ada)


@pytest.fixture
def look(client_for, mine, sue):
    def get(user=None, **query):
        return client_for(user or sue).get(reverse("structures:structure-drawings", args=[mine.tag]), query)

    return get


def html(response) -> str:
    return response.content.decode()


def drawn(response) -> str:
    """The figure of the page."""
    return re.search(r'<figure id="drawing".*?</figure>', html(response), re.S)[0]


def pressed(response) -> list[str]:
    return re.findall(r'data-part="([^"]+)"[^>]*aria-pressed="true"', re.sub(r"<svg.*?</svg>", "", html(response), flags=re.S))


@pytest.mark.parametrize("who", ["sue", "wes", "ada", "olive"])
def test_it_shows_one_drawing_for_both_widths(who, request, look):
    page = look(request.getfixturevalue(who))
    assert page.status_code == 200
    assert drawn(page).count("<svg") == 2
    assert "You stand outside the tag end, looking in" in words(page)


def test_a_grower_to_whom_it_does_not_belong_finds_nothing(gil, mine, client_for):
    assert client_for(gil).get(reverse("structures:structure-drawings", args=[mine.tag])).status_code == 404


def test_a_structure_known_from_nothing_but_a_tag_has_no_drawings(sue, client_for):
    structure("T-0007", design=None, finished_on=None, unchecked=True)
    assert client_for(sue).get(reverse("structures:structure-drawings", args=["T-0007"])).status_code == 404


@pytest.mark.parametrize("who", ["sue", "wes"])
def test_a_frozen_design_has_them_too(who, request, client_for):
    page = client_for(request.getfixturevalue(who)).get(reverse("structures:design-drawings", args=[design().pk]))
    assert "as it was frozen" in words(page)
    assert drawn(page).count("<svg") == 2


def test_every_view_and_every_joint_can_be_asked_for(look, mine):
    document = mine.design.read()
    for view in drawing.views_of(document):
        page = look(view=view)
        assert f'aria-labelledby="{view}-desk-t' in drawn(page)
    for kind in drawing.joint_kinds(document):
        page = look(view=f"joint:{kind.fitting}:{kind.role}")
        assert drawn(page).count("<svg") == 2
        assert kind.title.lower() in words(page).lower()
        assert "What the letters name" in words(page)


def test_one_list_offers_all_of_them_in_words_that_tell_them_apart(look, mine):
    document = mine.design.read()
    select = re.search(r'<select id="view".*?</select>', html(look(view="inside-tag-left")), re.S)[0]
    options = re.findall(r'<option value="([^"]+)"( selected)?>([^<]+)</option>', select)
    assert [value for value, selected, _ in options if selected] == ["inside-tag-left"]
    assert {value for value, _, _ in options} == {
        *drawing.views_of(document), *(f"joint:{kind.fitting}:{kind.role}" for kind in drawing.joint_kinds(document)),
    }
    assert len({said for _, _, said in options}) == len(options)


def test_the_same_in_words_follows_the_drawing_and_the_drawing_its_name(look):
    page = html(look())
    for before, after in (("<h1>", 'class="view-name"'), ('class="view-name"', 'id="drawing"'), ('id="drawing"', 'id="ends"')):
        assert page.index(before) < page.index(after)


@pytest.mark.parametrize("was", [None, "inside-tag-left"])
def test_of_a_view_and_a_place_that_do_not_fit_the_one_that_was_changed_is_shown(was, look):
    """The form sends both: from the inside of a corner, a side is asked for, or from that side the corner's place."""
    asked = {"view": "side-left", "standing": "inside facing tag left"}
    page = look(**asked, **({"was": was} if was else {"was": "side-left"}))
    shown, stands = ("side-left", "outside left") if was else ("inside-tag-left", "inside facing tag left")
    assert f'aria-labelledby="{shown}-desk-t' in drawn(page)
    assert f'<option value="{stands}" selected>' in html(page)


def test_a_line_of_the_kit_lights_its_pieces(look):
    page = look(lit="SB26")
    assert pressed(page) == ["SB26"]
    assert "Side brace, SB26: 8 of 4-1 3/8, at B1-L-side, " in words(page).replace("B2-L-side, B1-L-side", "B1-L-side")
    assert 'class="lit' in drawn(page)
    assert 'class="lit' not in drawn(look())


def test_a_piece_lights_alone_and_presses_its_line(look):
    one, all_of_them = look(lit="B1-L-side:brace:1"), look(lit="SB26")
    assert pressed(one) == ["SB26"]
    assert 0 < drawn(one).count('class="lit') < drawn(all_of_them).count('class="lit')


def test_what_is_counted_by_a_measure_says_so(look, mine):
    part = next(line.part for line in mine.design.read().lines if not any(because.where for because in line.because))
    assert "counted by a measure: no place in the drawing is theirs alone." in words(look(lit=part))


def test_every_part_of_the_kit_has_its_line_and_its_count(look, mine):
    found = dict(re.findall(r'data-part="([^"]+)" data-places.*?class="kit-count">([^<]+)<', html(look()), re.S))
    assert {part: int(count.replace(",", "")) for part, count in found.items()} == {
        line.part: line.quantity for line in mine.design.read().lines
    }


def test_layers_that_are_not_ticked_are_hidden_and_the_rest_is_not(look):
    page = look(chosen="1", layer=["marks", "places"])
    assert 'class="layered no-hardware no-names' in html(page)
    assert re.findall(r'name="layer" value="(\w+)" checked', html(page)) == ["marks", "places"]
    assert 'class="layered no-hardware no-places' in html(look())
    assert "layered no-" not in html(look(view="inside-tag-left"))


def test_every_layer_is_in_the_drawing_so_that_ticking_needs_no_other_one(look):
    assert drawn(look(chosen="1", view="section")) == drawn(look(chosen="1", view="section", layer="marks")).replace(
        "layered no-hardware", "layered no-marks no-hardware"
    )


@pytest.mark.parametrize("view", ["frame", "section"])
def test_where_one_stands_turns_the_picture_and_the_words_and_no_code(view, look):
    from_tag, from_far = look(view=view), look(view=view, standing="outside far end")
    assert drawn(from_tag) != drawn(from_far)
    assert "places with R are on your left" in words(from_far)
    assert "places with L are on your left" in words(from_tag)
    codes = set(re.findall(r"\bH\d+-[LR]-[a-z-]+", words(from_tag)))
    assert codes
    assert codes == set(re.findall(r"\bH\d+-[LR]-[a-z-]+", words(from_far)))


@pytest.mark.parametrize(
    ("standing", "view"), [("outside left", "side-left"), ("inside facing tag right", "inside-tag-right"),
                           ("outside facing far left", "corner-far-left")],
)
def test_who_says_where_they_stand_is_shown_what_is_seen_from_there(standing, view, look):
    page = look(view="frame", standing=standing)
    assert f'aria-labelledby="{view}-desk-t' in drawn(page)
    assert f'<option value="{standing}" selected>' in html(page)


def test_a_view_that_is_asked_for_says_where_one_stands(look):
    assert '<option value="outside right" selected>' in html(look(view="side-right"))


def test_a_corner_says_the_same_in_words(look, mine):
    rows = drawing.corner_rows(mine.design.read(), "tag-right")
    said = words(look(view="inside-tag-right"))
    assert rows
    for row in rows:
        assert f"{row.number} {row.what}" in said
        assert row.from_foot in said


def test_a_side_names_the_pieces_of_that_side_only(look):
    said = html(look(view="side-left"))
    table = re.search(r'<section id="ends">.*?</section>', said, re.S)[0]
    assert "B1-L-side" in table
    assert "B1-R-side" not in table


def test_what_differs_on_the_standing_structure_is_said(look, mine, sue):
    from structures.actions.structures import append_change

    append_change(mine, act="moved", place="H4-tie", words="8 in. down both legs.", seen_on="2026-03-02", by=sue)
    assert "As it stands: H4-tie moved, seen 2 Mar 2026. 8 in. down both legs." in words(look())


def test_where_one_stands_is_offered_by_what_people_call_the_ends(look, mine, sue):
    from structures.actions.structures import name_ends

    name_ends(mine, tag_end="road end", far_end="", by=sue)
    places = re.search(r'<select id="standing".*?</select>', html(look()), re.S)[0]
    assert '<option value="outside tag end" selected>Outside tag end (road end)</option>' in places
    assert '<option value="outside far end">Outside far end</option>' in places


JUNK = ("", "no-such", "../../etc", "%00", "<b>", "9" * 500)


@pytest.mark.parametrize("junk", JUNK)
def test_an_address_that_means_nothing_shows_the_usual_drawing(junk, look):
    page = look(view=junk, was=junk, lit=junk, standing=junk, layer=junk, chosen=junk)
    assert page.status_code == 200
    assert 'aria-labelledby="frame-desk-t' in drawn(page)
    assert pressed(page) == []


def test_an_order_of_an_older_schema_says_what_was_not_kept(sue, client_for):
    made = design()
    data = json.loads(SCHEMA_1)
    old = Design.objects.create(
        input_hash="0" * 64, family=made.family, configuration=data["configuration"], document=SCHEMA_1, schema=1,
        engine=data["engine"], family_sha256=data["family_sha256"], family_text="old",
    )
    page = client_for(sue).get(reverse("structures:design-drawings", args=[old.pk]))
    assert "were kept, so its drawings are without them. Pieces, places and marks are as they were sold." in words(page)
    assert 'value="joint:' not in html(page)
    for view in drawing.views_of(old.read()):
        seen = client_for(sue).get(reverse("structures:design-drawings", args=[old.pk]), {"view": view, "lit": "SB26"})
        assert seen.status_code == 200


def test_an_order_of_today_keeps_silent_about_it(look):
    assert "were kept, so its drawings are without them" not in words(look())


def test_a_longer_structure_takes_no_more_queries(sue, client_for, mine):
    long = structure("T-0900", design=design(length_in=1152.0))
    client = client_for(sue)
    short_url, long_url = (reverse("structures:structure-drawings", args=[one.tag]) for one in (mine, long))
    queries(client, short_url)
    assert queries(client, short_url) == queries(client, long_url)


def test_the_pages_about_it_lead_there(look, mine, sue, client_for):
    to = reverse("structures:structure-drawings", args=[mine.tag])
    client = client_for(sue)
    for name in ("structure-detail", "structure-made-of"):
        assert f'href="{to}"' in html(client.get(reverse(f"structures:{name}", args=[mine.tag])))
    at_design = client.get(reverse("structures:design-detail", args=[mine.design.pk]))
    assert f'href="{reverse("structures:design-drawings", args=[mine.design.pk])}"' in html(at_design)
