"""Taking in what came: several lines and lots in one form, once."""

from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.actions.supply import Arrived, take_in
from inventory.models import Movement, Receipt
from structures.models import Event
from structures.refusals import Conflict
from tests.inventory.stock import errors, make_bin, make_part, quantities, said, send

pytestmark = pytest.mark.django_db
HEAD = {"supplier": "Ostvik Clamps", "received_on": "2026-03-02", "paper": "S-731", "note": "one bag torn", "lines": "6"}


@pytest.fixture
def shelves():
    return [make_part("BC190"), make_part("SB26"), make_bin("D-05"), make_bin("C-14")]


OTHER_SIGNS = "Lot 'C#1' has other signs than letters, figures, blanks, . / and -: write it like C-0417, or say unknown."


def line(number, part="", lot="", quantity="", bin=""):
    return {f"line-{number}-{name}": value for name, value in (("part", part), ("lot", lot), ("quantity", quantity), ("bin", bin))}


GOOD = {**HEAD, **line(1, "bc190", "c-0428", "1,000", "d-05"), **line(3, "SB26", "unknown", "12", "C-14")}


def take(client, data, key=None):
    return send(client, "inventory:receipt-take-in", data, key=key)


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_a_receipt_of_two_lines_is_taken_in(who, client_for, request, shelves):
    person = request.getfixturevalue(who)
    done = take(client_for(person), GOOD)
    receipt = Receipt.objects.get()
    assert (done.status_code, done.headers["Location"]) == (302, reverse("inventory:receipt-detail", kwargs={"pk": receipt.pk}))
    assert said(done) == [f"Receipt {receipt.pk} is taken in."]
    assert (receipt.supplier, receipt.paper, str(receipt.received_on), receipt.note, receipt.by) == (
        "Ostvik Clamps", "S-731", "2026-03-02", "one bag torn", person,
    )
    assert quantities() == {("BC190", "D-05", "C-0428"): 1000, ("SB26", "C-14", "unknown"): 12}
    assert set(Movement.objects.values_list("kind", "reference")) == {("received", f"receipt {receipt.pk}")}
    event = Event.objects.get(verb="took in")
    assert event.after["lines"] == [["BC190", "D-05", "C-0428", 1000], ["SB26", "C-14", "unknown", 12]]


def test_sent_twice_it_is_taken_in_once(wes, client_for, shelves):
    client, key = client_for(wes), uuid4()
    assert [take(client, GOOD, key).status_code for _ in range(2)] == [302, 302]
    assert take(client, {**GOOD, "line-1-quantity": "2000"}, key).status_code == 409
    assert quantities()[("BC190", "D-05", "C-0428")] == 1000
    assert Receipt.objects.count() == 1


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"line-1-part": "BC191"}, "part", "Part BC191 is not here: BC190 is the nearest."),
        ({"line-1-part": ""}, "part", "The part is missing: write its number."),
        ({"line-1-lot": ""}, "lot", "The lot is missing: write it as it stands on the tag, or say unknown."),
        ({"line-1-lot": "C#1"}, "lot", OTHER_SIGNS),
        ({"line-1-quantity": ""}, "quantity", "How many is missing: write a whole number, 1 or more."),
        ({"line-1-quantity": "0"}, "quantity", "0 is less than 1: 1 or more would do."),
        ({"line-1-quantity": "ten"}, "quantity", "ten is no whole number: write it like 44."),
        ({"line-1-bin": "D-06"}, "bin", "Bin D-06 is not here: D-05 is the nearest."),
        ({"line-1-bin": ""}, "bin", "The bin is missing: write its code."),
    ],
)
def test_a_line_that_can_not_be_read_stores_nothing_and_keeps_what_was_typed(wes, client_for, shelves, typed, field, sentence):
    refused = take(client_for(wes), {**GOOD, **typed})
    assert refused.status_code == 422
    lines = refused.context["lines"]
    assert [(number, dict(lines.forms[number - 1].errors)) for number in lines.unread] == [(1, {field: [sentence]})]
    assert lines.forms[0][field].value() == next(iter(typed.values()))
    assert lines.forms[2]["quantity"].value() == "12"
    assert "Nothing was taken in: line 1 can’t be read." in refused.content.decode()
    assert (Receipt.objects.count(), quantities()) == (0, {})


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ({"supplier": ""}, {"supplier": ["From whom is missing: write the name on their paper."]}),
        ({"received_on": ""}, {"received_on": ["Day it came is missing: give a day, like 2026-03-12."]}),
        ({"received_on": "monday"}, {"received_on": ["monday is no day: write it like 2026-03-12."]}),
    ],
)
def test_a_heading_that_can_not_be_read_is_refused(wes, client_for, shelves, typed, expected):
    refused = take(client_for(wes), {**GOOD, **typed})
    assert (refused.status_code, errors(refused)) == (422, expected)
    assert refused.context["form"]["paper"].value() == "S-731"


def test_a_receipt_without_lines_is_refused(wes, client_for, shelves):
    refused = take(client_for(wes), HEAD)
    assert errors(refused) == {"__all__": ["The receipt has no lines: give at least one part, its lot, its bin and how many."]}


def test_more_lines_can_be_had_but_not_without_end(wes, client_for, shelves):
    client = client_for(wes)
    for query, count in (("", 6), ("?lines=16", 16), ("?lines=100000", 60), ("?lines=-5", 1), ("?lines=x", 6)):
        assert len(client.get(reverse("inventory:receipt-new") + query).context["lines"].forms) == count


def test_the_receipt_can_be_looked_up_by_lot(wes, sue, client_for, shelves):
    take(client_for(wes), GOOD)
    client = client_for(sue)
    for query, count in (("?lot=c-0428", 1), ("?lot=C-0417", 0), ("?part=sb26", 1), ("?named=ostvik", 1), ("?named=brade", 0)):
        assert client.get(reverse("inventory:receipt-list") + query).context["table"].paginator.count == count, query
    text = client.get(reverse("inventory:receipt-detail", kwargs={"pk": Receipt.objects.get().pk})).content.decode()
    for words in ("Ostvik Clamps", "C-0428", "1,000", "one bag torn"):
        assert words in text


@pytest.mark.parametrize(("who", "status"), [("sue", 403), ("ada", 404)])
def test_others_take_nothing_in(who, status, client_for, request, shelves):
    client = client_for(request.getfixturevalue(who))
    assert take(client, GOOD).status_code == status
    assert client.get(reverse("inventory:receipt-new")).status_code == status


def test_wrong_ways_in(wes, client_for):
    client = client_for(wes)
    assert client.get(reverse("inventory:receipt-take-in")).status_code == 405
    assert client.get(reverse("inventory:receipt-detail", kwargs={"pk": 99})).status_code == 404


def test_the_action_gives_the_stored_receipt_and_refuses_another_with_its_key(wes, shelves):
    part, _, bin, _ = shelves
    facts = {"supplier": "Ostvik Clamps", "paper": "", "received_on": "2026-03-02", "note": ""}
    first = take_in([Arrived(part, bin, "C-1", 5)], **facts, key="r-1", by=wes)
    first.refresh_from_db()
    again = take_in([Arrived(part, bin, "C-1", 5)], **{**facts, "received_on": first.received_on}, key="r-1", by=wes)
    assert again == first
    with pytest.raises(Conflict) as refused:
        take_in([Arrived(part, bin, "C-1", 6)], **{**facts, "received_on": first.received_on}, key="r-1", by=wes)
    assert refused.value.sentence == f"This receipt was stored before with other lines, as receipt {first.pk}: look at it first."
    assert quantities() == {("BC190", "D-05", "C-1"): 5}


def test_queries_are_equal_at_one_row_and_at_three(wes, client_for, shelves, django_assert_num_queries):
    client = client_for(wes)
    take(client, GOOD)
    for _ in range(2):
        with django_assert_num_queries(4):   # session, person, how many, receipts with their sums
            client.get(reverse("inventory:receipt-list"))
        for number in (1, 2):
            take(client, {**GOOD, "paper": f"S-{number}"})
