"""The ledger: the only writer of stock."""

from uuid import uuid4

import pytest
from django.db.models import Sum

from inventory import ledger
from inventory.ledger import Entry
from inventory.models import Holding, Movement
from structures.refusals import Conflict, Refuse
from tests.inventory.stock import make_bin, make_part, stocked

pytestmark = pytest.mark.django_db
RECEIVED, PICKED = Movement.Kind.RECEIVED, Movement.Kind.PICKED


def quantity(part, bin, lot="unknown"):
    return Holding.objects.get(part=part, bin=bin, lot=lot).quantity


def test_a_posting_moves_the_holding_by_its_entries(wes):
    part, bin = make_part("SB26"), make_bin("C-14")
    stored = ledger.post([Entry(part, bin, 44, "P-304")], key=uuid4(), by=wes, kind=RECEIVED, reference="receipt 9")
    assert [(m.part, m.bin, m.lot, m.quantity, m.kind, m.reference, m.who) for m in stored] == [
        (part, bin, "P-304", 44, "received", "receipt 9", wes)
    ]
    ledger.post([Entry(part, bin, -8, "P-304")], key=uuid4(), by=wes, kind=PICKED, reference="order 1214")
    assert quantity(part, bin, "P-304") == 36


def test_lots_of_one_part_in_one_bin_are_held_apart(wes):
    part, bin = make_part("BC190"), make_bin("D-05")
    entries = [Entry(part, bin, 900, "C-0421"), Entry(part, bin, 460, "C-0417")]
    ledger.post(entries, key=uuid4(), by=wes, kind=RECEIVED)
    assert dict(Holding.objects.values_list("lot", "quantity")) == {"C-0421": 900, "C-0417": 460}


def test_the_same_key_with_the_same_entries_gives_the_stored_movements(wes):
    part, bin, key = make_part("SB26"), make_bin("C-14"), uuid4()
    first = ledger.post([Entry(part, bin, 44)], key=key, by=wes, kind=RECEIVED)
    again = ledger.post([Entry(part, bin, 44)], key=key, by=wes, kind=RECEIVED)
    assert again == first
    assert (Movement.objects.count(), quantity(part, bin)) == (1, 44)


@pytest.mark.parametrize("other", ["quantity", "lot", "bin", "kind", "reference", "more"])
def test_the_same_key_with_anything_else_is_a_conflict(wes, other):
    part, bin, key = make_part("SB26"), make_bin("C-14"), uuid4()
    ledger.post([Entry(part, bin, 44)], key=key, by=wes, kind=RECEIVED, reference="receipt 9")
    entries = {
        "quantity": [Entry(part, bin, 45)],
        "lot": [Entry(part, bin, 44, "P-304")],
        "bin": [Entry(part, make_bin("C-15"), 44)],
        "more": [Entry(part, bin, 44), Entry(part, bin, 1)],
    }.get(other, [Entry(part, bin, 44)])
    kind = Movement.Kind.RETURNED if other == "kind" else RECEIVED
    reference = "receipt 10" if other == "reference" else "receipt 9"
    with pytest.raises(Conflict) as refused:
        ledger.post(entries, key=key, by=wes, kind=kind, reference=reference)
    assert refused.value.sentence == (
        "This entry was stored before with other figures, so nothing was changed now: look at the movements, then enter "
        "what is missing as a new one."
    )
    assert (Movement.objects.count(), quantity(part, bin)) == (1, 44)


def test_a_bin_never_goes_below_zero_and_the_sentence_names_everything(wes):
    part, bin = stocked(wes, "RL26-R", "C-22", 9, lot="T-2207")
    with pytest.raises(ledger.NotThere) as refused:
        ledger.post([Entry(part, bin, -18, "T-2207")], key=uuid4(), by=wes, kind=PICKED)
    assert refused.value.sentence == (
        "Bin C-22 holds 9 of RL26-R, lot T-2207, and 18 were asked: 9 or fewer would do."
    )
    assert quantity(part, bin, "T-2207") == 9


def test_an_empty_bin_names_another_way_on(wes):
    with pytest.raises(ledger.NotThere) as refused:
        ledger.post([Entry(make_part("RL26-R"), make_bin("C-22"), -1)], key=uuid4(), by=wes, kind=PICKED)
    assert refused.value.sentence == (
        "Bin C-22 holds 0 of RL26-R, lot unknown, and 1 were asked: take them from another bin or lot, or count this bin "
        "again."
    )


def test_what_is_asked_twice_in_one_posting_is_added_up(wes):
    part, bin = stocked(wes, "SB26", "C-14", 10)
    with pytest.raises(ledger.NotThere) as refused:
        ledger.post([Entry(part, bin, -6), Entry(part, bin, -6)], key=uuid4(), by=wes, kind=PICKED)
    assert (refused.value.there, refused.value.asked) == (10, 12)
    assert quantity(part, bin) == 10


def test_what_comes_in_may_go_out_in_the_same_posting_in_any_order(wes):
    part, bin, key = make_part("SB26"), make_bin("C-14"), uuid4()
    entries = [Entry(part, bin, -2), Entry(part, bin, 5), Entry(part, bin, -1)]
    stored = ledger.post(entries, key=key, by=wes, kind=RECEIVED)
    assert [m.quantity for m in stored] == [-2, 5, -1]
    assert ledger.post(entries, key=key, by=wes, kind=RECEIVED) == stored
    assert quantity(part, bin) == 2


def test_all_entries_of_a_posting_stand_or_none(wes):
    part, bin = stocked(wes, "SB26", "C-14", 10)
    other = make_part("SB20")
    with pytest.raises(ledger.NotThere):
        ledger.post([Entry(part, bin, -6), Entry(other, bin, -1)], key=uuid4(), by=wes, kind=PICKED)
    assert quantity(part, bin) == 10


@pytest.mark.parametrize(
    ("entries", "sentence"),
    [
        (lambda part, bin: [], "Nothing was entered: name at least one part, its bin and how many."),
        (lambda part, bin: [Entry(part, bin, 0)], "0 of SB26 moves nothing: 1 or more would do."),
        (lambda part, bin: [Entry(part, bin, 3, "")], "The lot of SB26 is empty: give it, or say unknown."),
    ],
)
def test_what_moves_nothing_is_refused(wes, entries, sentence):
    part, bin = make_part("SB26"), make_bin("C-14")
    with pytest.raises(Refuse) as refused:
        ledger.post(entries(part, bin), key=uuid4(), by=wes, kind=RECEIVED)
    assert refused.value.sentence == sentence
    assert Movement.objects.count() == 0


def test_an_entry_is_reversed_once(wes, olive):
    part, bin = stocked(wes, "SB26", "C-14", 44, lot="P-304")
    entry = Movement.objects.get()
    back = ledger.reverse(entry, key=uuid4(), by=olive, cause="entered for the wrong bin")
    assert (back.quantity, back.kind, back.reverses, back.cause) == (-44, "reversed", entry, "entered for the wrong bin")
    assert quantity(part, bin, "P-304") == 0
    with pytest.raises(Refuse) as refused:
        ledger.reverse(entry, key=uuid4(), by=olive, cause="again")
    assert refused.value.sentence == (
        f"Movement {entry.pk} was reversed before: look at the movements of SB26."
    )
    with pytest.raises(Refuse) as refused:
        ledger.reverse(back, key=uuid4(), by=olive, cause="again")
    assert refused.value.sentence == (
        f"Movement {back.pk} is itself a reversal: enter what really happened as a new movement."
    )


def test_reversing_twice_with_one_key_reverses_once(wes):
    part, bin = stocked(wes, "SB26", "C-14", 44)
    entry, key = Movement.objects.get(), uuid4()
    first = ledger.reverse(entry, key=key, by=wes, cause="wrong bin")
    assert ledger.reverse(entry, key=key, by=wes, cause="wrong bin") == first
    assert quantity(part, bin) == 0


def test_what_was_taken_since_stops_a_reversal(wes):
    part, bin = stocked(wes, "SB26", "C-14", 44)
    ledger.post([Entry(part, bin, -40)], key=uuid4(), by=wes, kind=PICKED)
    with pytest.raises(ledger.NotThere) as refused:
        ledger.reverse(Movement.objects.get(kind="received"), key=uuid4(), by=wes, cause="wrong bin")
    assert refused.value.sentence == "Bin C-14 holds 4 of SB26, lot unknown, and 44 were asked: 4 or fewer would do."


def test_a_move_leaves_the_sum_as_it_was(wes):
    part, bin = stocked(wes, "SB26", "C-14", 44, lot="P-304")
    other = make_bin("C-30")
    ledger.move(part, lot="P-304", quantity=20, from_bin=bin, to_bin=other, key=uuid4(), by=wes)
    assert (quantity(part, bin, "P-304"), quantity(part, other, "P-304")) == (24, 20)
    assert Movement.objects.filter(part=part).aggregate(all=Sum("quantity"))["all"] == 44


@pytest.mark.parametrize(
    ("to", "how_many", "sentence"),
    [
        ("C-14", 4, "Bin C-14 is where they lie already: name another bin to move to."),
        ("C-30", 0, "0 is no number of pieces to move: 1 or more would do."),
        ("C-30", -4, "-4 is no number of pieces to move: 1 or more would do."),
        ("C-30", 45, "Bin C-14 holds 44 of SB26, lot unknown, and 45 were asked: 44 or fewer would do."),
    ],
)
def test_a_move_that_can_not_be_is_refused(wes, to, how_many, sentence):
    part, bin = stocked(wes, "SB26", "C-14", 44)
    with pytest.raises(Refuse) as refused:
        ledger.move(part, lot="unknown", quantity=how_many, from_bin=bin, to_bin=make_bin(to), key=uuid4(), by=wes)
    assert refused.value.sentence == sentence
    assert quantity(part, bin) == 44


def test_a_count_stores_what_was_counted_and_the_difference(wes):
    part, bin = stocked(wes, "NT516", "E-09", 5950)
    entry = ledger.count(part, bin=bin, lot="unknown", counted=5948, cause="bag two short", key=uuid4(), by=wes)
    assert (entry.quantity, entry.counted, entry.book, entry.cause, entry.kind) == (
        -2, 5948, 5950, "bag two short", "counted",
    )
    assert quantity(part, bin) == 5948


def test_a_count_that_agrees_is_stored_and_changes_nothing(wes):
    part, bin = stocked(wes, "NT516", "E-09", 5950)
    entry = ledger.count(part, bin=bin, lot="unknown", counted=5950, cause="", key=uuid4(), by=wes)
    assert (entry.quantity, entry.counted) == (0, 5950)
    assert quantity(part, bin) == 5950


def test_a_difference_without_a_cause_is_refused(wes):
    part, bin = stocked(wes, "NT516", "E-09", 5950)
    with pytest.raises(Refuse) as refused:
        ledger.count(part, bin=bin, lot="unknown", counted=5700, cause="", key=uuid4(), by=wes)
    assert refused.value.sentence == (
        "5,700 were counted where the books say 5,950: look for the cause first, then say it."
    )


def test_a_count_sent_twice_after_a_pick_in_between_still_counts_once(wes):
    part, bin = stocked(wes, "NT516", "E-09", 100)
    key = uuid4()
    first = ledger.count(part, bin=bin, lot="unknown", counted=98, cause="two short", key=key, by=wes)
    ledger.post([Entry(part, bin, -10)], key=uuid4(), by=wes, kind=PICKED)
    assert ledger.count(part, bin=bin, lot="unknown", counted=98, cause="two short", key=key, by=wes) == first
    assert quantity(part, bin) == 88
    with pytest.raises(Conflict):
        ledger.count(part, bin=bin, lot="unknown", counted=97, cause="two short", key=key, by=wes)


def test_queries_do_not_grow_with_the_entries(wes, django_assert_num_queries):
    bin = make_bin("C-14")
    parts = [make_part(f"P{n}") for n in range(40)]
    # savepoint, stored?, which are there, make them, their numbers, lock, stored?, savepoint, insert, two releases
    for some in (parts[:1], parts[1:40]):
        with django_assert_num_queries(11):
            ledger.post([Entry(part, bin, 5) for part in some], key=uuid4(), by=wes, kind=RECEIVED)
