"""One part: what it is, where it lies, what could be taken for it, what came and went."""

from datetime import date

import pytest
from django.urls import reverse

from inventory.actions.parts import sync_parts
from structures.models import Event
from tests.factories import family_revision
from tests.inventory.selling import a_confirmed, a_structure
from tests.inventory.stock import errors, make_bin, make_part, said, send, stocked
from tests.pages import words as read

pytestmark = pytest.mark.django_db


def page(client, number="SB26", query=""):
    return client.get(reverse("inventory:part-detail", kwargs={"number": number}) + query)


def test_the_page_says_what_a_part_is(wes, client_for):
    sync_parts(family_revision("G26", "D"), by=None)
    text = page(client_for(wes), "RL26-R").content.decode()
    for words in ('6-7<span class="fr">3/16</span>', "right twist", "5.5 degrees", "1.315 x .058 in., galvanised", "5.27 lb each"):
        assert words in text
    assert "G26, revision D" in text
    assert "RL26-L" in text
    assert "6-7 3/16, left twist, this one right twist" in text


def test_look_alikes_are_listed_with_what_tells_them_apart(wes, client_for):
    make_part("SB26", length_in=49.375)
    make_part("SB20", length_in=48.4375)
    make_part("SB30", length_in=50.75)
    response = page(client_for(wes))
    assert [twin.piece.number for twin in response.context["twins"]] == ["SB20", "SB30"]
    text = response.content.decode()
    assert "4-0 7/16, 15/16 in. shorter" in text
    assert "4-2 3/4, 1 3/8 in. longer" in text


def test_where_it_lies_is_said_by_bin_and_lot_as_one_walks(wes, client_for):
    make_bin("C-14", held_back=False)
    make_bin("Q-01", held_back=True)
    stocked(wes, "SB26", "Q-01", 7, lot="P-300")
    stocked(wes, "SB26", "C-14", 20, lot="P-309")
    stocked(wes, "SB26", "C-14", 24, lot="P-304")
    rows = page(client_for(wes)).context["holdings"]
    assert [(row.bin.code, row.lot, row.quantity) for row in rows] == [("C-14", "P-304", 24), ("C-14", "P-309", 20), ("Q-01", "P-300", 7)]


def test_movements_are_paged_newest_first(wes, client_for):
    for count in (1, 2, 3):
        stocked(wes, "SB26", "C-14", count)
    response = page(client_for(wes), query="?per_page=2")
    assert [row.record.quantity for row in response.context["table"].page.object_list] == [3, 2]
    assert response.context["counted"] == "3 movements, 1 to 2."


def test_who_it_is_spoken_for_by_takes_from_the_bins_in_order_of_promise(wes, client_for):
    later = a_confirmed(a_structure(feet=48), by=wes, promised_on=date(2026, 4, 1))
    sooner = a_confirmed(a_structure(feet=48), by=wes, promised_on=date(2026, 3, 1))
    last = a_confirmed(a_structure(feet=48), by=wes, promised_on=date(2026, 5, 1))
    stocked(wes, "SB26", "C-14", 11)
    response = page(client_for(wes))
    promises = response.context["promises"]
    assert [(p.line.pick.order, p.wanted, p.short) for p in promises] == [(sooner, 8, 0), (later, 8, 5), (last, 8, 8)]
    text = read(response)
    for said_so in ("1 Mar 2026 8 in the bins", "1 Apr 2026 8 5 short", "1 May 2026 8 none left"):
        assert said_so in text


def test_nobody_waits_for_it(wes, client_for):
    make_part("SB26")
    assert "No open order wants SB26." in read(page(client_for(wes)))


def test_support_reads_and_changes_nothing(sue, wes, client_for):
    stocked(wes, "SB26", "C-14", 44)
    client = client_for(sue)
    text = page(client).content.decode()
    assert "C-14" in text
    assert "Hold back" not in text
    assert "<form" not in text.split("<main", 1)[1].split("</main>", 1)[0]
    assert send(client, "inventory:part-keep", number="SB26").status_code == 403


@pytest.mark.parametrize(
    ("who", "number", "status"), [("wes", "sb26", 200), ("wes", "SB27", 404), ("ada", "SB26", 404), ("olive", "SB26", 200)]
)
def test_who_finds_which_part(who, number, status, client_for, request):
    make_part("SB26")
    assert page(client_for(request.getfixturevalue(who)), number).status_code == status


def test_keeping_when_to_make_more(wes, client_for):
    part = make_part("SB26")
    data = {"reorder_point": "40", "lead_weeks": "6", "lead_weeks_spring": "10", "note": "press, 110 braces a day"}
    done = send(client_for(wes), "inventory:part-keep", data, number="SB26")
    assert (done.status_code, said(done)) == (302, ["Kept: when to make or buy more of SB26."])
    part.refresh_from_db()
    assert (part.reorder_point, part.lead_weeks, part.lead_weeks_spring, part.note) == (40, 6, 10, "press, 110 braces a day")
    event = Event.objects.get(verb="changed", about="part SB26")
    assert (event.before["reorder_point"], event.after["reorder_point"], event.who) == (None, 40, wes)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("four", "four is no whole number: write it like 44."),
        ("-1", "-1 is less than 0: 0 or more would do."),
        ("99999999", "99,999,999 is more than 1,000,000: look whether a figure slipped in."),
        ("9" * 30, "Ensure this value has at most 20 characters (it has 30)."),
    ],
)
def test_a_figure_that_can_not_be_read_is_refused_and_kept_in_its_field(wes, client_for, typed, sentence):
    part = make_part("SB26")
    refused = send(client_for(wes), "inventory:part-keep", {"reorder_point": typed, "note": "press"}, number="SB26")
    assert refused.status_code == 422
    assert errors(refused) == {"reorder_point": [sentence]}
    assert refused.context["form"]["reorder_point"].value() == typed
    part.refresh_from_db()
    assert (part.reorder_point, part.note) == (None, "")


def test_a_part_that_was_looked_at_by_get_is_not_kept(wes, client_for):
    make_part("SB26")
    assert client_for(wes).get(reverse("inventory:part-keep", kwargs={"number": "SB26"})).status_code == 405


def test_queries_are_equal_with_one_movement_and_with_three(wes, client_for, django_assert_num_queries):
    client = client_for(wes)
    stocked(wes, "SB26", "C-14", 1)
    # session, person, part, its figures, promises, twins, families, on order, how many movements, movements, holdings
    for _ in range(2):
        with django_assert_num_queries(11):
            page(client)
        stocked(wes, "SB26", "C-30", 2, lot="P-304")
        stocked(wes, "SB26", "C-31", 3, lot="P-309")
