"""Bins: the list in walking order, one bin, making and changing one."""

from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.models import Bin
from structures.models import Event
from tests.inventory.stock import errors, make_bin, said, send, stocked

pytestmark = pytest.mark.django_db
TYPED = {"code": "c-14", "walk": "140", "zone": "brace shelf"}


def codes(response):
    return [row.record.code for row in response.context["table"].page.object_list]


@pytest.fixture
def shelves(wes):
    make_bin("C-15", walk=20)
    make_bin("C-14", walk=10, zone="brace shelf")
    make_bin("Q-01", walk=30, held_back=True)
    stocked(wes, "SB26", "C-14", 44, lot="P-304")
    stocked(wes, "SB26", "C-14", 6, lot="P-309")
    stocked(wes, "SB20", "C-14", 2)


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ("", ["C-14", "C-15", "Q-01"]),
        ("?sort=-code", ["Q-01", "C-15", "C-14"]),
        ("?named=brace", ["C-14"]),
        ("?held_back=True", ["Q-01"]),
        ("?per_page=1&page=3", ["Q-01"]),
        ("?per_page=-5&page=0", ["C-14"]),
        ("?page=x&per_page=100000", ["C-14", "C-15", "Q-01"]),
    ],
)
def test_bins_stand_in_walking_order_and_can_be_narrowed(sue, client_for, shelves, query, expected):
    assert codes(client_for(sue).get(reverse("inventory:bin-list") + query)) == expected


def test_the_list_says_how_much_lies_in_each(wes, client_for, shelves):
    taken = client_for(wes).get(reverse("inventory:bin-list") + "?export=csv").content.decode().splitlines()
    assert taken == [
        "Bin,Where,Turn,Parts,Pieces,To sell or not",
        "C-14,brace shelf,10,2,52,free to sell",
        "C-15,,20,0,0,free to sell",
        "Q-01,,30,0,0,held back",
    ]


def test_a_bins_page_says_what_lies_there_by_part_and_lot(sue, client_for, shelves):
    page = client_for(sue).get(reverse("inventory:bin-detail", kwargs={"code": "c-14"}))
    rows = [(row.record.part.number, row.record.lot, row.record.quantity) for row in page.context["table"].page.object_list]
    assert rows == [("SB20", "unknown", 2), ("SB26", "P-304", 44), ("SB26", "P-309", 6)]
    assert "Change this bin" not in page.content.decode()


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_a_bin_is_made(who, client_for, request):
    person = request.getfixturevalue(who)
    done = send(client_for(person), "inventory:bin-make", TYPED)
    assert (done.status_code, done.headers["Location"]) == (302, reverse("inventory:bin-detail", kwargs={"code": "C-14"}))
    assert said(done) == ["Bin C-14 is made."]
    made = Bin.objects.get()
    assert (made.code, made.walk, made.zone, made.held_back) == ("C-14", 140, "brace shelf", False)
    assert Event.objects.get(verb="made").who == person


def test_the_next_turn_is_offered(wes, client_for):
    make_bin("C-14", walk=140)
    assert client_for(wes).get(reverse("inventory:bin-new")).context["form"]["walk"].value() == 150


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"code": ""}, "code", "The code is missing: write it like C-14."),
        ({"code": "C 14"}, "code", "C 14 is no code for a bin: use letters, figures and - only, like C-14."),
        ({"code": "q-01"}, "code", "Bin Q-01 is there already: choose another code."),
        ({"walk": ""}, "walk", "The turn in walking order is missing: write a whole number, like 140."),
        ({"walk": "last"}, "walk", "last is no whole number: write it like 44."),
    ],
)
def test_a_bin_that_can_not_be_is_refused_and_what_was_typed_stays(wes, client_for, typed, field, sentence):
    make_bin("Q-01")
    refused = send(client_for(wes), "inventory:bin-make", {**TYPED, **typed})
    assert refused.status_code == 422
    assert errors(refused) == {field: [sentence]}
    assert refused.context["form"]["zone"].value() == "brace shelf"
    assert refused.context["form"][field].value() == typed[field]
    assert list(Bin.objects.values_list("code", flat=True)) == ["Q-01"]


def test_made_twice_with_one_key_it_is_made_once(wes, client_for):
    client, key = client_for(wes), uuid4()
    assert [send(client, "inventory:bin-make", TYPED, key=key).status_code for _ in range(2)] == [302, 302]
    assert send(client, "inventory:bin-make", {**TYPED, "code": "C-15"}, key=key).status_code == 409
    assert Bin.objects.count() == 1


def test_a_bin_is_changed_and_keeps_its_code(wes, client_for):
    make_bin("C-14", walk=140)
    done = send(client_for(wes), "inventory:bin-keep", {"walk": "15", "zone": "cage", "held_back": "on", "code": "X"}, code="C-14")
    assert said(done) == ["Kept: bin C-14."]
    changed = Bin.objects.get()
    assert (changed.code, changed.walk, changed.zone, changed.held_back) == ("C-14", 15, "cage", True)
    event = Event.objects.get(verb="changed", about="bin C-14")
    assert (event.before["walk"], event.after["walk"]) == (140, 15)


def test_a_change_that_can_not_be_is_refused_on_the_bins_page(wes, client_for):
    make_bin("C-14", walk=140)
    refused = send(client_for(wes), "inventory:bin-keep", {"walk": "", "zone": "cage"}, code="C-14")
    assert (refused.status_code, refused.context["form"]["zone"].value()) == (422, "cage")
    assert Bin.objects.get().zone == ""


@pytest.mark.parametrize(("who", "status"), [("sue", 403), ("ada", 404)])
def test_others_change_no_bin(who, status, client_for, request):
    make_bin("C-14")
    client = client_for(request.getfixturevalue(who))
    assert send(client, "inventory:bin-make", TYPED).status_code == status
    assert send(client, "inventory:bin-keep", TYPED, code="C-14").status_code == status
    assert client.get(reverse("inventory:bin-new")).status_code == status


def test_wrong_ways_in(wes, client_for):
    client = client_for(wes)
    assert client.get(reverse("inventory:bin-make")).status_code == 405
    assert client.get(reverse("inventory:bin-detail", kwargs={"code": "C-99"})).status_code == 404
    assert client.post(reverse("inventory:bin-make"), TYPED).status_code == 400


def test_queries_are_equal_at_one_row_and_at_three(wes, client_for, django_assert_num_queries):
    client = client_for(wes)
    stocked(wes, "SB26", "C-14", 44)
    for _ in range(2):
        with django_assert_num_queries(4):   # session, person, how many, bins
            client.get(reverse("inventory:bin-list"))
        with django_assert_num_queries(5):   # session, person, bin, how many, what lies there
            client.get(reverse("inventory:bin-detail", kwargs={"code": "C-14"}))
        stocked(wes, "SB26", "C-15", 44)
        stocked(wes, "SB20", "C-14", 44)
