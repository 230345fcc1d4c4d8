"""What is on order."""

from datetime import date, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from inventory.actions.supply import expect
from inventory.models import ExpectedReceipt
from inventory.queries.parts import supplies_of
from structures.models import Event
from tests.inventory.stock import errors, make_part, said, send

pytestmark = pytest.mark.django_db
GOOD = {"part": "BC190", "quantity": "2000", "supplier": "Ostvik Clamps", "due_on": "2026-05-20", "reference": "P-2226"}


@pytest.fixture
def part():
    return make_part("BC190")


def ordered(part, by, due_on=date(2026, 5, 20), quantity=2000):
    return expect({"part": part, "quantity": quantity, "supplier": "Ostvik Clamps", "due_on": due_on, "reference": ""}, by=by)


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_a_part_on_order_is_noted(who, client_for, request, part):
    person = request.getfixturevalue(who)
    done = send(client_for(person), "inventory:expected-add", GOOD)
    assert (done.status_code, said(done)) == (302, ["2,000 of BC190 are expected on 20 May 2026."])
    made = ExpectedReceipt.objects.get()
    assert (made.part, made.quantity, made.supplier, made.due_on, made.reference) == (
        part, 2000, "Ostvik Clamps", date(2026, 5, 20), "P-2226",
    )
    assert Event.objects.get(verb="expects").who == person


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ({"part": "BC199"}, {"part": ["Part BC199 is not here: BC190 is the nearest."]}),
        ({"quantity": "0"}, {"quantity": ["0 is less than 1: 1 or more would do."]}),
        ({"supplier": ""}, {"supplier": ["From whom is missing: write the supplier's name."]}),
        ({"due_on": "spring"}, {"due_on": ["spring is no day: write it like 2026-03-12."]}),
    ],
)
def test_what_can_not_be_read_is_refused_on_the_list(wes, client_for, part, typed, expected):
    refused = send(client_for(wes), "inventory:expected-add", {**GOOD, **typed})
    assert (refused.status_code, errors(refused)) == (422, expected)
    assert refused.context["form"]["reference"].value() == "P-2226"
    assert ExpectedReceipt.objects.count() == 0


def test_nothing_more_is_expected_once_it_is_closed(wes, client_for, part):
    expected = ordered(part, wes)
    for _ in range(2):
        done = send(client_for(wes), "inventory:expected-close", pk=expected.pk)
        assert said(done) == ["Nothing more of BC190 is expected from Ostvik Clamps."]
    expected.refresh_from_db()
    assert expected.closed_on == timezone.localdate()
    assert Event.objects.filter(verb="expects no more").count() == 1
    assert client_for(wes).get(reverse("inventory:expected-list")).context["table"].paginator.count == 0


def test_what_is_late_says_so(sue, wes, client_for, part):
    today = timezone.localdate()
    ordered(part, wes, due_on=today - timedelta(days=1))
    ordered(part, wes, due_on=today)
    assert [supply.late for supply in supplies_of(part)] == [True, False]
    page = client_for(sue).get(reverse("inventory:expected-list"))
    late = [str(row.get_cell("due_on")) for row in page.context["table"].page.object_list]
    yesterday = today - timedelta(days=1)
    assert late == [f'<span class="late">{yesterday:%-d %b %Y}, late</span>', f"{today:%-d %b %Y}"]
    assert "Close it" not in page.content.decode()


@pytest.mark.parametrize(("who", "status"), [("sue", 403), ("ada", 404)])
def test_others_order_nothing(who, status, wes, client_for, request, part):
    client = client_for(request.getfixturevalue(who))
    assert send(client, "inventory:expected-add", GOOD).status_code == status
    assert send(client, "inventory:expected-close", pk=ordered(part, wes).pk).status_code == status


def test_wrong_ways_in(wes, client_for):
    client = client_for(wes)
    assert client.get(reverse("inventory:expected-add")).status_code == 405
    assert send(client, "inventory:expected-close", pk=99).status_code == 404


def test_queries_are_equal_at_one_row_and_at_three(wes, client_for, part, django_assert_num_queries):
    client = client_for(wes)
    ordered(part, wes)
    for _ in range(2):
        with django_assert_num_queries(6):   # session, person, numbers, codes, how many, rows
            client.get(reverse("inventory:expected-list"))
        ordered(part, wes)
        ordered(make_part("BC166"), wes)
