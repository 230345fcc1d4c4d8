"""Taking pieces: by count and by code, too many, the wrong part, twice, undone, short."""

from uuid import uuid4

import pytest
from django.db import DatabaseError, IntegrityError, transaction

from inventory.actions.parts import sync_parts
from inventory.actions.picking import From, record_code, record_pick, say_short, undo_pick
from inventory.models import Bin, Holding, Movement, Order, PickEntry, PickLine
from structures.models import Event
from structures.refusals import Conflict, Refuse
from tests.inventory.selling import a_confirmed, a_family, stock

pytestmark = pytest.mark.django_db


@pytest.fixture
def line(sue):
    """The eight side braces of a G26 x 48, in no bin yet."""
    return a_confirmed(by=sue).pick.lines.get(part__number="SB26")


def take(line, count, by, **how):
    return record_pick(line, count, key=uuid4(), by=by, **how)


def picked(line):
    return PickLine.objects.get(pk=line.pk).picked


def on_hand(line):
    return sum(Holding.objects.filter(part=line.part).values_list("quantity", flat=True))


def test_pieces_leave_their_bin_with_their_lot(line, wes):
    stock(line.part, 44, by=wes, bin="C-14", lot="P-304")
    entry, = take(line, 6, wes)
    assert (entry.count, entry.bin.code, entry.lot, entry.who, entry.how) == (6, "C-14", "P-304", wes, "count")
    movement = Movement.objects.get(kind="picked")
    assert (movement.quantity, movement.lot, movement.reference) == (-6, "P-304", f"order {line.pick.order.label}")
    assert (picked(line), on_hand(line)) == (6, 38)
    assert Order.objects.get().status == "picking"
    assert Event.objects.get(verb="picked").after["picked"] == 6


def test_the_bins_are_emptied_in_walking_order(line, wes):
    stock(line.part, 5, by=wes, bin="C-15", walk=20, lot="P-311")
    stock(line.part, 3, by=wes, bin="B-02", walk=10, lot="P-304")
    assert [(e.count, e.bin.code, e.lot) for e in take(line, 8, wes)] == [(3, "B-02", "P-304"), (5, "C-15", "P-311")]
    assert (picked(line), on_hand(line)) == (8, 0)


def test_another_bin_or_lot_may_be_named(line, wes):
    stock(line.part, 5, by=wes, bin="B-02", walk=10, lot="P-304")
    far = stock(line.part, 5, by=wes, bin="C-15", walk=20, lot="P-311")
    assert take(line, 2, wes, taken_from=From(far))[0].bin == far
    assert take(line, 2, wes, taken_from=From(lot="P-311"))[0].lot == "P-311"


def test_a_torn_label_is_an_unknown_lot_and_said_so(line, wes):
    stock(line.part, 5, by=wes, lot="P-304")
    assert take(line, 2, wes, taken_from=From(lot="unknown"))[0].lot == "unknown"
    assert on_hand(line) == 3


def test_what_is_held_back_is_not_picked(line, wes):
    stock(line.part, 8, by=wes, bin="Q-01")
    Bin.objects.filter(code="Q-01").update(held_back=True)
    with pytest.raises(Refuse, match="The bins hold 0 of SB26, and 8 were to be taken: say it short, or take another bin or lot"):
        take(line, 8, wes)


@pytest.mark.parametrize(("before", "count", "sentence"), [
    (0, 9, "0 of 8 are taken: 9 more would be 1 too many. 8 would do."),
    (6, 3, "6 of 8 are taken, the last 6 by wes at .*: 3 more would be 1 too many. 2 would do."),
    (8, 1, "8 of 8 are taken, the last 8 by wes at .*, so nothing was added: undo first if one was counted twice."),
    (0, 0, "0 is no number of pieces to take: 1 or more would do."),
    (0, -2, "-2 is no number of pieces to take: 1 or more would do."),
])
def test_too_many_or_none_is_one_sentence_and_nothing_moves(before, count, sentence, line, wes):
    stock(line.part, 44, by=wes)
    if before:
        take(line, before, wes)
    with pytest.raises(Refuse, match=sentence):
        take(line, count, wes)
    assert (picked(line), on_hand(line)) == (before, 44 - before)


def test_too_few_in_the_bins_is_one_sentence_and_nothing_moves(line, wes):
    stock(line.part, 6, by=wes)
    with pytest.raises(Refuse, match="The bins hold 6 of SB26, and 8 were to be taken: take 6 and say the rest short"):
        take(line, 8, wes)
    assert (picked(line), on_hand(line), PickEntry.objects.count()) == (0, 6, 0)


def test_the_same_key_takes_once(line, wes):
    stock(line.part, 44, by=wes)
    key = uuid4()
    first = record_pick(line, 3, key=key, by=wes)
    assert record_pick(line, 3, key=key, by=wes) == first
    assert (picked(line), on_hand(line)) == (3, 41)


def test_the_same_key_over_two_bins_takes_once(line, wes):
    stock(line.part, 3, by=wes, bin="B-02", walk=10)
    stock(line.part, 5, by=wes, bin="C-15", walk=20)
    key = uuid4()
    first = record_pick(line, 8, key=key, by=wes)
    assert [entry.pk for entry in record_pick(line, 8, key=key, by=wes)] == [entry.pk for entry in first]
    assert (picked(line), on_hand(line)) == (8, 0)


def test_the_same_key_with_another_figure_is_a_conflict(line, wes):
    stock(line.part, 44, by=wes)
    key = uuid4()
    record_pick(line, 3, key=key, by=wes)
    with pytest.raises(Conflict, match="was already sent with another figure"):
        record_pick(line, 4, key=key, by=wes)
    with pytest.raises(Conflict, match="was already sent for another line"):
        record_pick(line.pick.lines.get(part__number="RU26"), 3, key=key, by=wes)
    assert picked(line) == 3


@pytest.mark.parametrize("code", ["SB26", "sb26", " SB26 ", "SB26/P-304"])
def test_the_code_on_the_label_takes_one(code, line, wes):
    stock(line.part, 44, by=wes, lot="P-304")
    entry, = record_code(line, code, key=uuid4(), by=wes)
    assert (entry.count, entry.how, entry.lot) == (1, "code", "P-304")


def test_the_wrong_twin_is_named_with_its_difference(line, wes):
    sync_parts(a_family("g20-b"), by=wes)
    stock(line.part, 44, by=wes)
    with pytest.raises(Refuse) as refused:
        record_code(line, "SB20", key=uuid4(), by=wes)
    number = line.pick.lines.count()
    assert refused.value.sentence.startswith("That is SB20, Side brace, 20 ft, and line ")
    assert refused.value.sentence.endswith(" wants SB26: it is 15/16 in. shorter. Nothing was taken.")
    assert (picked(line), number > 1) == (0, True)


def test_the_other_hand_is_named(sue, wes):
    line = a_confirmed(by=sue).pick.lines.get(part__number="RL26-L")
    with pytest.raises(Refuse, match=r"wants RL26-L: it is turned to the right, not to the left\. Nothing was taken\."):
        record_code(line, "RL26-R", key=uuid4(), by=wes)


@pytest.mark.parametrize(("code", "sentence"), [
    ("XX99", "XX99 is no part number of ours: line .* wants SB26. Read the label again."),
    ("", "No code was given: line .* wants SB26."),
    ("/P-304", "No code was given: line .* wants SB26."),
])
def test_a_code_that_is_none_is_one_sentence(code, sentence, line, wes):
    with pytest.raises(Refuse, match=sentence):
        record_code(line, code, key=uuid4(), by=wes)


def test_an_undo_reverses_the_last_count_with_an_entry_of_its_own(line, wes):
    stock(line.part, 44, by=wes)
    take(line, 5, wes)
    take(line, 2, wes)
    undone = undo_pick(line, key=uuid4(), by=wes)
    assert (undone.count, undone.how, undone.reverses.count) == (-2, "undo", 2)
    assert (picked(line), on_hand(line)) == (5, 39)
    undo_pick(line, key=uuid4(), by=wes)
    assert (picked(line), on_hand(line), PickEntry.objects.count()) == (0, 44, 4)
    with pytest.raises(Refuse, match="Nothing was taken on line"):
        undo_pick(line, key=uuid4(), by=wes)


def test_an_undo_sent_twice_undoes_once(line, wes):
    stock(line.part, 44, by=wes)
    take(line, 5, wes)
    take(line, 2, wes)
    key = uuid4()
    assert undo_pick(line, key=key, by=wes) == undo_pick(line, key=key, by=wes)
    assert (picked(line), on_hand(line)) == (5, 39)


def test_a_short_line_stays_open_and_spoken_for(line, wes):
    stock(line.part, 6, by=wes)
    take(line, 6, wes)
    line = say_short(line, by=wes)
    assert (line.is_short, line.still_to_pick) == (True, 2)
    assert PickLine.objects.spoken_for().get(pk=line.pk).wanted == 2
    stock(line.part, 2, by=wes)
    take(line, 2, wes)
    assert not PickLine.objects.get(pk=line.pk).is_short


def test_a_full_line_is_not_short(line, wes):
    stock(line.part, 8, by=wes)
    take(line, 8, wes)
    with pytest.raises(Refuse, match="is complete with 8: nothing is short"):
        say_short(line, by=wes)


def test_nothing_is_picked_for_a_cancelled_order(line, wes):
    stock(line.part, 8, by=wes)
    Order.objects.update(status="cancelled")
    with pytest.raises(Refuse, match="is cancelled: nothing is picked for it"):
        take(line, 8, wes)


def test_a_lines_figure_is_the_sum_of_its_entries(line, wes):
    stock(line.part, 44, by=wes)
    for count in (3, 2, 1):
        take(line, count, wes)
    undo_pick(line, key=uuid4(), by=wes)
    assert picked(line) == sum(PickEntry.objects.filter(line=line).values_list("count", flat=True)) == 5


@pytest.mark.parametrize("change", [
    lambda: PickEntry.objects.update(count=1), lambda: PickEntry.objects.all().delete(),
])
def test_the_database_itself_refuses_to_change_an_accepted_count(change, line, wes):
    stock(line.part, 8, by=wes)
    take(line, 8, wes)
    with pytest.raises(DatabaseError), transaction.atomic():
        change()


def test_the_database_itself_refuses_an_over_pick(line):
    with pytest.raises(IntegrityError), transaction.atomic():
        PickLine.objects.filter(pk=line.pk).update(picked=9)
