"""Two at a time on one order: nothing is lost, nothing is doubled."""

from concurrent.futures import ThreadPoolExecutor
from datetime import date
from threading import Barrier
from uuid import uuid4

import pytest
from django.db import connections
from django.db.models import Sum

from inventory.actions.orders import cancel_order, confirm_order
from inventory.actions.pick_sheets import enter_sheet, print_sheet
from inventory.actions.picking import record_pick
from inventory.actions.shipments import ship
from inventory.models import Holding, Order, PickEntry, PickLine, Shipment, StoredPaper
from structures.refusals import Refuse
from tests.inventory.selling import a_confirmed, a_draft, pick_all, stock, stock_for

pytestmark = pytest.mark.django_db(transaction=True)


def at_once(*acts):
    """Start every act at the same moment in a thread of its own; give results and refusals in the acts' order."""
    gate = Barrier(len(acts))

    def run(act):
        try:
            gate.wait(timeout=30)
            return act()
        except Refuse as refusal:
            return refusal
        finally:
            connections.close_all()

    with ThreadPoolExecutor(len(acts)) as pool:
        return list(pool.map(run, acts))


def refused(results):
    return [result.sentence for result in results if isinstance(result, Refuse)]


def on_hand(part):
    return Holding.objects.filter(part=part).aggregate(n=Sum("quantity"))["n"]


@pytest.fixture
def line(sue, wes):
    line = a_confirmed(by=sue).pick.lines.get(part__number="SB26")
    stock(line.part, 44, by=wes)
    return line


def test_two_pickers_with_all_of_a_line_take_it_once(line, wes, olive):
    results = at_once(*(lambda who=who: record_pick(line, 8, key=uuid4(), by=who) for who in (wes, olive)))
    sentence, = refused(results)
    assert sentence.startswith("8 of 8 are taken, the last 8 by ")
    line.refresh_from_db()
    assert (line.picked, on_hand(line.part), PickEntry.objects.count()) == (8, 36, 1)


def test_two_pickers_with_half_of_a_line_each_fill_it(line, wes, olive):
    results = at_once(*(lambda who=who: record_pick(line, 4, key=uuid4(), by=who) for who in (wes, olive)))
    assert refused(results) == []
    line.refresh_from_db()
    assert (line.picked, on_hand(line.part)) == (8, 36)


def test_a_double_tap_takes_once(line, wes):
    key = uuid4()
    results = at_once(*(lambda: record_pick(line, 3, key=key, by=wes) for _ in range(4)))
    assert {entry.pk for entries in results for entry in entries} == {PickEntry.objects.get().pk}
    line.refresh_from_db()
    assert (line.picked, on_hand(line.part)) == (3, 41)


def test_eight_pieces_and_twelve_hands(line, wes):
    results = at_once(*(lambda: record_pick(line, 1, key=uuid4(), by=wes) for _ in range(12)))
    line.refresh_from_db()
    assert (line.picked, len(refused(results)), on_hand(line.part)) == (8, 4, 36)


def test_two_orders_share_what_is_there_and_no_more(sue, wes):
    lines = [a_confirmed(by=sue).pick.lines.get(part__number="SB26") for _ in range(2)]
    stock(lines[0].part, 10, by=wes)
    results = at_once(*(lambda line=line: record_pick(line, 8, key=uuid4(), by=wes) for line in lines))
    sentence, = refused(results)
    # Whoever looked before the other took is told by the ledger; whoever looked afterwards, by the pick.
    assert sentence in {
        "The bins hold 2 of SB26, and 8 were to be taken: take 2 and say the rest short.",
        "Bin C-14 holds 2 of SB26, lot P-304, and 8 were asked: 2 or fewer would do.",
    }
    assert on_hand(lines[0].part) == 2


def test_a_pick_and_a_cancellation_agree_in_the_end(line, sue, wes):
    at_once(
        lambda: record_pick(line, 8, key=uuid4(), by=wes), lambda: cancel_order(line.pick.order, by=sue, why="another year")
    )
    line = PickLine.objects.get(pk=line.pk)
    # Either the pick came first and all of it goes back, or it found the order cancelled.
    assert (line.picked, line.to_put_back) in {(8, 8), (0, 0)}
    assert on_hand(line.part) == 44 - line.picked


def test_a_sheet_is_entered_once(sue, wes, olive):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    sheet = print_sheet(order.pick, by=wes)
    results = at_once(
        *(lambda who=who: enter_sheet(sheet, {}, picked_by="Piet", key=uuid4(), by=who) for who in (wes, olive))
    )
    sentence, = refused(results)
    assert sentence.endswith("all as printed: a sheet is entered once.")
    assert all(line.picked == line.to_pick for line in order.pick.lines.all())


def test_an_order_is_confirmed_once(sue, olive):
    order = a_draft(by=sue)
    results = at_once(*(lambda who=who: confirm_order(order, by=who) for who in (sue, olive)))
    assert len(refused(results)) == 1
    assert Order.objects.get().pick.lines.count() == len(order.version.lines.get().design.read().lines)


def test_a_load_is_sent_once(sue, wes, olive):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    results = at_once(*(lambda who=who: ship(order, by=who, shipped_on=date(2026, 3, 9)) for who in (wes, olive)))
    assert len(refused(results)) == 1
    assert (Shipment.objects.count(), StoredPaper.objects.count()) == (1, 1)
