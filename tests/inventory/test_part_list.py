"""The list of parts: what lies in the bins, what is spoken for, what of it is free to sell."""

from datetime import date

import pytest
from django.urls import reverse

from inventory.actions.parts import keep_part
from inventory.actions.supply import expect
from inventory.models import Part
from inventory.queries.parts import parts_with_stock, stock_words
from tests.inventory.selling import a_confirmed, a_structure
from tests.inventory.stock import make_bin, make_part, stocked

pytestmark = pytest.mark.django_db
URL = "inventory:part-list"


def figures(number):
    part = parts_with_stock().get(number=number)
    return (part.on_hand, part.spoken_for, part.free, part.held_back, part.on_order)


def kept(part, **values):
    fields = {"reorder_point": None, "lead_weeks": None, "lead_weeks_spring": None, "note": ""}
    return keep_part(part, {**fields, **values}, by=values.pop("by"))


def test_figures_come_from_holdings_orders_and_what_is_on_order(wes):
    # 48 ft of the 26 ft family: 8 side braces.
    a_confirmed(a_structure(feet=48), by=wes)
    part, _ = stocked(wes, "SB26", "C-14", 5, lot="P-304")
    stocked(wes, "SB26", "C-30", 4, lot="P-309")
    make_bin("Q-01", held_back=True)
    stocked(wes, "SB26", "Q-01", 7, lot="P-300")
    expect({"part": part, "quantity": 20, "supplier": "own press", "due_on": date(2026, 3, 20), "reference": ""}, by=wes)
    assert figures("SB26") == (9, 8, 1, 7, 20)


def test_an_order_that_is_only_a_draft_speaks_for_nothing(wes):
    part = make_part("SB99")
    assert figures(part.number) == (0, 0, 0, 0, 0)


def test_short_is_said_in_a_sentence(wes):
    a_confirmed(a_structure(feet=48), by=wes)
    part, _ = stocked(wes, "SB26", "C-14", 5)
    assert stock_words(parts_with_stock().get(number="SB26")) == "3 short: 8 are spoken for and 5 lie in the bins."
    expect({"part": part, "quantity": 20, "supplier": "own press", "due_on": date(2026, 3, 20), "reference": ""}, by=wes)
    assert stock_words(parts_with_stock().get(number="SB26")) == (
        "3 short: 8 are spoken for and 5 lie in the bins; 20 more are on order."
    )


def test_under_the_reorder_point_is_said_in_a_sentence(wes):
    part, _ = stocked(wes, "BC190", "D-05", 900)
    kept(part, reorder_point=1200, by=wes)
    assert stock_words(parts_with_stock().get(number="BC190")) == "900 are free to sell, under the reorder point of 1,200."
    kept(part, reorder_point=900, by=wes)
    assert stock_words(parts_with_stock().get(number="BC190")) == ""


@pytest.mark.parametrize(("who", "status"), [("wes", 200), ("sue", 200), ("olive", 200), ("ada", 404)])
def test_who_sees_the_list(who, status, client_for, request):
    assert client_for(request.getfixturevalue(who)).get(reverse(URL)).status_code == status


def numbers(response):
    return [row.record.number for row in response.context["table"].page.object_list]


@pytest.fixture
def shelf(wes):
    stocked(wes, "SB20", "C-15", 128, name="Side brace, 20 ft", length_in=48.4375)
    stocked(wes, "SB26", "C-14", 44, name="Side brace, 26 ft", length_in=49.375)
    make_part("BC190", name="Band clamp 1.90", role="band", kind="fitting", tube="", ends="")


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ("", ["BC190", "SB20", "SB26"]),
        ("?named=26", ["SB26"]),
        ("?named=1.315", ["SB20", "SB26"]),
        ("?role=band", ["BC190"]),
        ("?stock=there", ["SB20", "SB26"]),
        ("?stock=short", []),
        ("?sort=-free", ["SB20", "SB26", "BC190"]),
        ("?sort=length_in", ["SB20", "SB26"]),
        ("?per_page=-5", ["BC190"]),
        ("?per_page=1&page=2", ["SB20"]),
        ("?per_page=100000&page=0", ["BC190", "SB20", "SB26"]),
        ("?per_page=x&page=x&sort=nothing", ["BC190", "SB20", "SB26"]),
        ("?role=zebra", []),
    ],
)
def test_narrowing_sorting_and_paging(wes, client_for, shelf, query, expected):
    found = numbers(client_for(wes).get(reverse(URL) + query))
    assert [number for number in found if number != "BC190" or "length" not in query] == expected


def test_the_family_narrows_to_what_any_revision_uses_and_shows_it_once(wes, client_for):
    a_confirmed(a_structure(feet=48), by=wes)
    make_part("SB99")
    found = numbers(client_for(wes).get(reverse(URL) + "?family=G26&per_page=100"))
    assert sorted(found) == sorted(Part.objects.exclude(number="SB99").values_list("number", flat=True))


def test_the_list_is_taken_away_as_csv(sue, client_for, shelf):
    taken = client_for(sue).get(reverse(URL) + "?export=csv")
    assert taken.content.decode().splitlines() == [
        "Part,Name,Length,On hand,Spoken for,Free to sell,Held back,What stands out",
        "BC190,Band clamp 1.90,,0,0,0,0,",
        'SB20,"Side brace, 20 ft",4-0 7/16,128,0,128,0,',
        'SB26,"Side brace, 26 ft",4-1 3/8,44,0,44,0,',
    ]


def test_metric_people_see_millimetres(wes, client_for, shelf):
    wes.units = "metric"
    wes.save()
    assert "1254 mm" in client_for(wes).get(reverse(URL)).content.decode()


def test_queries_are_equal_at_one_row_and_at_three(wes, client_for, django_assert_num_queries):
    client = client_for(wes)
    stocked(wes, "SB20", "C-15", 128)
    # session, person, short, how many, not taken up, how many rows, rows, roles, families
    for _ in range(2):
        with django_assert_num_queries(9):
            client.get(reverse(URL))
        stocked(wes, "SB26", "C-14", 44)
        stocked(wes, "SB30", "C-16", 96)
