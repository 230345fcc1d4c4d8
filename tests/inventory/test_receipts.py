"""Taking in what came: several lines and lots in one form, once."""

from datetime import date
from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.actions.stock import reverse_movement
from inventory.actions.supply import Arrived, close_expected, expect, take_in
from inventory.models import ExpectedReceipt, Movement, Receipt
from inventory.queries.parts import parts_with_stock
from structures.models import Event
from structures.refusals import Conflict, Refuse
from tests.inventory.stock import errors, make_bin, make_part, quantities, said, send
from tests.pages import words

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
    for said_there in ("Ostvik Clamps", "C-0428", "1,000", "one bag torn"):
        assert said_there in text


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


@pytest.fixture
def on_order(shelves, wes):
    """2,000 clamps from Ostvik and 500 more from Brade, and 40 braces."""
    clamps, braces, *_ = shelves
    rows = ((clamps, 2000, "Ostvik Clamps", 20), (clamps, 500, "Brade", 24), (braces, 40, "Nidd Tube", 22))
    return [
        expect({"part": part, "quantity": many, "supplier": who, "due_on": date(2026, 5, day), "reference": f"P-{day}"}, by=wes)
        for part, many, who, day in rows
    ]


def of_clamps(answers, quantity="2000", lot="C-0428", number=1):
    return {**line(number, "BC190", lot, quantity, "D-05"), f"line-{number}-answers": str(answers)}


def stands(expected):
    expected.refresh_from_db()
    return expected.came, expected.closed_on


def test_a_line_closes_what_was_on_order_and_it_answers(wes, client_for, shelves, on_order):
    done = take(client_for(wes), {**HEAD, **of_clamps(on_order[0].pk)})
    assert done.status_code == 302
    assert [stands(one) for one in on_order] == [(2000, date(2026, 3, 2)), (0, None), (0, None)]
    assert Receipt.objects.get().lines.get().answers == on_order[0]
    event = Event.objects.get(verb="expects no more")
    assert (event.about, event.before, event.after) == ("part BC190", {"came": 0}, {"came": 2000, "of": 2000})
    page = words(client_for(wes).get(done.headers["Location"]))
    assert "2,000 D-05 2,000 due 20 May 2026, closed" in page


def test_a_part_of_it_leaves_the_rest_on_order(wes, client_for, shelves, on_order):
    client = client_for(wes)
    done = take(client, {**HEAD, **of_clamps(on_order[0].pk, "1,500")})
    assert stands(on_order[0]) == (1500, None)
    assert "2,000 due 20 May 2026, 500 still to come" in words(client.get(done.headers["Location"]))
    assert parts_with_stock().get(number="BC190").on_order == 1000  # 500 of Ostvik's, 500 of Brade's
    assert "BC190 Part BC190 500 2,000 20 May 2026" in words(client.get(reverse("inventory:expected-list")))
    assert "500 of 2,000 on order from Ostvik Clamps" in words(client.get(reverse("inventory:part-detail", args=["BC190"])))
    assert "BC190: 500 of 2,000 from Ostvik Clamps, due 20 May 2026, our order P-20" in words(client.get(reverse("inventory:receipt-new")))
    take(client, {**HEAD, **of_clamps(on_order[0].pk, "500")})
    assert stands(on_order[0]) == (2000, date(2026, 3, 2))


def test_two_lots_answer_one_order_and_more_than_was_ordered_closes_it_too(wes, client_for, on_order):
    take(client_for(wes), {**HEAD, **of_clamps(on_order[0].pk, "1500", "C-1"), **of_clamps(on_order[0].pk, "600", "C-2", 2)})
    assert stands(on_order[0]) == (2100, date(2026, 3, 2))
    assert on_order[0].still == 0


def test_what_answers_nothing_leaves_everything_on_order(wes, client_for, on_order):
    assert take(client_for(wes), {**HEAD, **of_clamps("none")}).status_code == 302
    assert [stands(one) for one in on_order] == [(0, None)] * 3


@pytest.mark.parametrize(
    ("choose", "sentence"),
    [
        (lambda on_order: "", "2,500 of BC190 are on order: say which order this answers, or that it answers none."),
        (lambda on_order: on_order[2].pk, "SB26 is what was on order, and this line is BC190: choose another, or none."),
        (lambda on_order: "99999", "What was chosen is not on order any more: look at the list again."),
        (lambda on_order: "x", "What was chosen is not on order any more: look at the list again."),
    ],
)
def test_a_line_whose_answer_can_not_be_read_takes_nothing_in_and_keeps_what_was_typed(choose, sentence, wes, client_for, on_order):
    refused = take(client_for(wes), {**HEAD, **of_clamps(choose(on_order))})
    form = refused.context["lines"].forms[0]
    assert (refused.status_code, form.errors) == (422, {"answers": [sentence]})
    assert (form["lot"].value(), form["answers"].value()) == ("C-0428", str(choose(on_order)))
    assert [stands(one) for one in on_order] == [(0, None)] * 3
    assert not Receipt.objects.exists()


def test_one_that_was_closed_meanwhile_takes_nothing_in(wes, shelves, on_order):
    facts = {"supplier": "Ostvik Clamps", "paper": "", "received_on": date(2026, 3, 2), "note": "", "by": wes}
    close_expected(on_order[0], on=date(2026, 3, 1), by=wes)
    with pytest.raises(Refuse, match="The 2,000 of BC190 from Ostvik Clamps are closed since: choose another, or none"):
        take_in([Arrived(shelves[0], shelves[2], "C-1", 5, on_order[0])], key="r-1", **facts)
    with pytest.raises(Refuse, match="SB26 is what was on order, and the line is BC190"):
        take_in([Arrived(shelves[0], shelves[2], "C-1", 5, on_order[2])], key="r-2", **facts)
    assert (quantities(), Receipt.objects.count()) == ({}, 0)


def test_the_same_key_with_another_answer_is_a_conflict(wes, shelves, on_order):
    facts = {"supplier": "Ostvik Clamps", "paper": "", "received_on": date(2026, 3, 2), "note": "", "by": wes, "key": "r-1"}
    first = take_in([Arrived(shelves[0], shelves[2], "C-1", 5, on_order[0])], **facts)
    assert take_in([Arrived(shelves[0], shelves[2], "C-1", 5, on_order[0])], **facts) == first
    assert stands(on_order[0]) == (5, None)
    with pytest.raises(Conflict):
        take_in([Arrived(shelves[0], shelves[2], "C-1", 5, on_order[1])], **facts)


def test_what_is_taken_back_is_on_order_again(wes, client_for, shelves, on_order):
    take(client_for(wes), {**HEAD, **of_clamps(on_order[0].pk)})
    for _ in range(2):
        reverse_movement(Receipt.objects.get().lines.get().movement, cause="the wrong bag", key="back", by=wes)
        assert stands(on_order[0]) == (0, None)
    assert Event.objects.get(verb="expects the rest").after == {"came": 0, "of": 2000}


def test_what_a_person_closed_stays_closed_when_a_part_of_it_is_taken_back(wes, client_for, shelves, on_order):
    take(client_for(wes), {**HEAD, **of_clamps(on_order[0].pk, "1500")})
    close_expected(on_order[0], on=date(2026, 3, 5), by=wes)
    reverse_movement(Receipt.objects.get().lines.get().movement, cause="the wrong bag", key="back", by=wes)
    assert stands(on_order[0]) == (0, date(2026, 3, 5))


def test_a_receipt_may_begin_from_what_is_on_order(wes, client_for, on_order):
    client = client_for(wes)
    take(client, {**HEAD, **of_clamps(on_order[0].pk, "1,500")})
    page = client.get(reverse("inventory:expected-list")).content.decode()
    url = f"{reverse('inventory:receipt-new')}?answers={on_order[0].pk}"
    assert url in page
    shown = client.get(url)
    first, second = shown.context["lines"].forms[:2]
    assert shown.context["form"]["supplier"].value() == "Ostvik Clamps"
    assert [first[name].value() for name in ("part", "quantity", "answers")] == ["BC190", 500, str(on_order[0].pk)]
    assert second["part"].value() is None
    for junk in ("x", "99999", "", "-1"):
        shown = client.get(f"{reverse('inventory:receipt-new')}?answers={junk}")
        assert (shown.status_code, shown.context["lines"].forms[0]["part"].value()) == (200, None)


def test_nothing_is_asked_where_nothing_is_on_order(wes, client_for, shelves):
    assert "Answers what was on order" not in words(client_for(wes).get(reverse("inventory:receipt-new")))
    assert not ExpectedReceipt.objects.exists()
