"""The list of movements, one movement, and taking one back."""

from uuid import uuid4

import pytest
from django.urls import reverse

from inventory import ledger
from inventory.models import Movement
from structures.models import Event
from tests.inventory.stock import errors, make_bin, quantities, said, send, stocked

pytestmark = pytest.mark.django_db


def listed(response):
    return [row.record.pk for row in response.context["table"].page.object_list]


def reverse_it(client, movement, cause="entered for the wrong bin", key=None):
    return send(client, "inventory:movement-reverse", {"cause": cause}, key=key, pk=movement.pk)


@pytest.fixture
def entry(wes):
    part, bin = stocked(wes, "SB26", "C-14", 44, lot="P-304")
    return Movement.objects.get(part=part, bin=bin)


@pytest.mark.parametrize(
    ("query", "count"),
    [
        ("", 3), ("?part=sb2", 3), ("?part=SB20", 1), ("?bin=c-14", 2), ("?lot=p-304", 1), ("?kind=picked", 1), ("?kind=zebra", 0),
        ("?since=2000-01-01", 3), ("?since=2999-01-01", 0), ("?since=monday", 0), ("?per_page=-5", 3), ("?page=0&per_page=x", 3),
    ],
)
def test_movements_can_be_narrowed(sue, wes, client_for, entry, query, count):
    stocked(wes, "SB20", "C-15", 10)
    ledger.post([ledger.Entry(entry.part, entry.bin, -1, "P-304")], key=uuid4(), by=wes, kind="picked", reference="order 1214")
    if query == "?lot=p-304":
        count = 2
    page = client_for(sue).get(reverse("inventory:movement-list") + query)
    assert page.context["table"].paginator.count == count


def test_a_day_that_can_not_be_read_says_how_to_write_one(wes, client_for, entry):
    page = client_for(wes).get(reverse("inventory:movement-list") + "?since=monday")
    assert page.context["filter"].form.errors == {"since": ["monday is no day: write it like 2026-03-12."]}


def test_newest_first(wes, client_for, entry):
    stocked(wes, "SB20", "C-15", 10)
    assert listed(client_for(wes).get(reverse("inventory:movement-list"))) == [entry.pk + 1, entry.pk]


def test_one_movement_says_everything_about_itself(sue, wes, client_for, entry):
    part = entry.part
    ledger.count(part, bin=entry.bin, lot="P-304", counted=42, cause="two bent", key=uuid4(), by=wes)
    counted = Movement.objects.get(kind="counted")
    text = client_for(sue).get(reverse("inventory:movement-detail", kwargs={"pk": counted.pk})).content.decode()
    for words in ("-2 of SB26", "counted again", "42, where the books said 44", "two bent", "P-304"):
        assert words in text
    assert "Take it back" not in text


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_an_entry_is_taken_back(who, client_for, request, entry):
    person = request.getfixturevalue(who)
    done = reverse_it(client_for(person), entry)
    back = Movement.objects.get(kind="reversed")
    assert (done.status_code, said(done)) == (302, [f"Movement {entry.pk} is taken back by movement {back.pk}."])
    assert (back.quantity, back.reverses, back.cause, back.who) == (-44, entry, "entered for the wrong bin", person)
    assert quantities() == {}
    assert Event.objects.get(verb="reversed").after == {"movement": back.pk, "cause": "entered for the wrong bin"}
    page = client_for(person).get(reverse("inventory:movement-detail", kwargs={"pk": entry.pk})).content.decode()
    assert f"movement {back.pk}" in page
    assert "Take movement" not in page


def test_sent_twice_it_is_taken_back_once(wes, client_for, entry):
    client, key = client_for(wes), uuid4()
    assert [reverse_it(client, entry, key=key).status_code for _ in range(2)] == [302, 302]
    again = reverse_it(client, entry)
    assert errors(again) == {"cause": [f"Movement {entry.pk} was reversed before: look at the movements of SB26."]}
    assert Movement.objects.count() == 2


def test_without_a_reason_nothing_is_taken_back(wes, client_for, entry):
    refused = reverse_it(client_for(wes), entry, cause="")
    assert (refused.status_code, errors(refused)) == (422, {"cause": ["Why is missing: say what was entered wrong."]})
    assert Movement.objects.count() == 1


def test_what_left_since_stops_it(wes, client_for, entry):
    ledger.post([ledger.Entry(entry.part, entry.bin, -40, "P-304")], key=uuid4(), by=wes, kind="scrapped")
    refused = reverse_it(client_for(wes), entry)
    assert errors(refused) == {"cause": ["Bin C-14 holds 4 of SB26, lot P-304, and 44 were asked: 4 or fewer would do."]}
    assert refused.context["form"]["cause"].value() == "entered for the wrong bin"


def test_what_a_pick_took_is_undone_at_the_pick(wes, client_for, entry):
    key = uuid4()
    ledger.post([ledger.Entry(entry.part, entry.bin, -4, "P-304")], key=key, by=wes, kind="picked", reference="order 1214")
    picked = Movement.objects.get(kind="picked")
    refused = reverse_it(client_for(wes), picked)
    assert errors(refused) == {"cause": [f"Movement {picked.pk} belongs to order 1214: undo it there, so that its pick line knows."]}


def test_one_half_of_a_move_is_not_taken_back_alone(wes, client_for, entry):
    ledger.move(entry.part, lot="P-304", quantity=4, from_bin=entry.bin, to_bin=make_bin("C-30"), key=uuid4(), by=wes)
    half = Movement.objects.filter(kind="moved").first()
    refused = reverse_it(client_for(wes), half)
    assert errors(refused) == {
        "cause": [f"Movement {half.pk} is one half of a move, and its pieces lie in the other bin: move them back instead."]
    }
    assert quantities() == {("SB26", "C-14", "P-304"): 40, ("SB26", "C-30", "P-304"): 4}


@pytest.mark.parametrize(("who", "status"), [("sue", 403), ("ada", 404)])
def test_others_take_nothing_back(who, status, client_for, request, entry):
    assert reverse_it(client_for(request.getfixturevalue(who)), entry).status_code == status


def test_wrong_ways_in(wes, client_for, entry):
    client = client_for(wes)
    assert client.get(reverse("inventory:movement-reverse", kwargs={"pk": entry.pk})).status_code == 405
    assert client.get(reverse("inventory:movement-detail", kwargs={"pk": 0})).status_code == 404


def test_queries_are_equal_at_one_row_and_at_three(wes, client_for, entry, django_assert_num_queries):
    client = client_for(wes)
    for _ in range(2):
        with django_assert_num_queries(4):   # session, person, how many, movements
            client.get(reverse("inventory:movement-list"))
        stocked(wes, "SB20", "C-15", 10)
        stocked(wes, "SB30", "C-16", 10)
