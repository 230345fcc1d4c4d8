"""Changing a confirmed order: a new version, the difference in parts, and what goes back into the bins."""

from dataclasses import replace
from datetime import date
from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.actions.orders import LineSpec, cancel_order, change_order, specs_of
from inventory.actions.picking import put_back, record_pick
from inventory.actions.shipments import ship
from inventory.models import Holding, Part, PickLine, PutBack
from structures.frame.choose import choose
from structures.models import Event
from structures.queries.families import family_of
from structures.refusals import Refuse
from tests.inventory.selling import a_confirmed, a_family, a_structure, pick_all, stock_for

pytestmark = pytest.mark.django_db


@pytest.fixture
def order(sue):
    """G26 x 48 with the snow pack."""
    return a_confirmed(a_structure(with_=("snow-ties",)), by=sue)


def without_snow(order):
    spec, = specs_of(order.version)
    revision = a_family()
    return [replace(spec, configuration=choose(family_of(revision), length_in=576.0))]


def line(order, part):
    return PickLine.objects.get(pick__order=order, part__number=part)


def on_hand(part):
    return sum(Holding.objects.filter(part__number=part).values_list("quantity", flat=True))


def test_the_difference_is_kept_with_the_new_version(order, sue):
    version = change_order(order, without_snow(order), by=sue, why="snow pack taken off")
    changed = {row["part"]: (row["was"], row["now"]) for row in version.changes["parts"]}
    assert (changed["TI26"], changed["BC190"]) == ((11, 6), (66, 56))
    assert "SB26" not in changed
    assert (version.number, version.why, version.confirmed_at is not None) == (2, "snow pack taken off", True)
    assert line(order, "TI26").to_pick == 6


def test_the_version_before_stands_as_it_was(order, sue):
    before = order.version.lines.get().design
    change_order(order, without_snow(order), by=sue, why="less snow")
    assert order.versions.get(number=1).lines.get().design == before
    assert order.version.lines.get().design != before


def test_what_was_picked_too_much_is_put_back_where_it_came_from(order, sue, wes):
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    version = change_order(order, without_snow(order), by=sue, why="snow pack taken off")
    row = PutBack.objects.get(line__part__number="TI26")
    entry = row.line.entries.get()
    assert (row.count, row.bin, row.lot, row.why) == (5, entry.bin, entry.lot, "snow pack taken off")
    assert {"part": "TI26", "name": "Collar tie, 26 ft", "count": 5, "bin": row.bin.code, "lot": row.lot} in version.changes["put_back"]
    put_back(row, key=uuid4(), by=wes)
    tie = line(order, "TI26")
    assert (tie.picked, tie.to_pick, tie.to_put_back, on_hand("TI26")) == (6, 6, 0, 5)


def test_it_is_put_back_once(order, sue, wes, client_for):
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    change_order(order, without_snow(order), by=sue, why="snow pack taken off")
    row = PutBack.objects.get(line__part__number="TI26")
    url = reverse("inventory:pick-put-back", args=[order.pick.number, row.pk])
    client = client_for(wes)
    assert [client.post(url, {"request_key": str(uuid4())}).status_code for _ in range(2)] == [302, 302]
    assert (on_hand("TI26"), line(order, "TI26").picked) == (5, 6)


def test_a_second_change_that_wants_them_again_takes_them_off_the_list(order, sue, wes):
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    with_snow = specs_of(order.version)
    change_order(order, without_snow(order), by=sue, why="snow pack taken off")
    change_order(order, with_snow, by=sue, why="and on again")
    assert not PutBack.objects.exists()
    tie = line(order, "TI26")
    assert (tie.picked, tie.to_pick, tie.to_put_back) == (11, 11, 0)


def test_nothing_is_shipped_while_something_waits_to_be_put_back(order, sue, wes):
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    change_order(order, without_snow(order), by=sue, why="snow pack taken off")
    with pytest.raises(Refuse, match="are wanted no more and lie with the load: put them back first"):
        ship(order, by=wes, shipped_on=date(2026, 3, 9))


def test_less_than_was_shipped_is_refused(order, sue, wes):
    stock_for(order, by=wes)
    record_pick(line(order, "TI26"), 11, key=uuid4(), by=wes)
    ship(order, by=wes, shipped_on=date(2026, 3, 9))
    with pytest.raises(Refuse, match="11 of Collar tie, 26 ft were shipped already, and this would ask for 6: 11 or more would do"):
        change_order(order, without_snow(order), by=sue, why="snow pack taken off")
    assert order.versions.count() == 1


def test_a_loose_part_more_leaves_the_structure_alone(order, sue):
    specs = [*specs_of(order.version), LineSpec(part=Part.objects.get(number="SB26"), quantity=2)]
    version = change_order(order, specs, by=sue, why="two to spare")
    assert version.changes["parts"] == [{"part": "SB26", "name": "Side brace, 26 ft", "was": 8, "now": 10}]
    assert [row.ordinal for row in version.lines.all()] == [1, 2]


def test_the_same_again_is_no_change(order, sue):
    with pytest.raises(Refuse, match="Nothing differs from version 1"):
        change_order(order, specs_of(order.version), by=sue, why="again")


def test_a_reason_is_asked_for(order, sue):
    with pytest.raises(Refuse, match="Say why the order is changed"):
        change_order(order, without_snow(order), by=sue, why="  ")


def test_another_promised_day_moves_what_is_spoken_for(order, sue, client_for):
    url = reverse("inventory:order-promise", args=[order.label])
    done = client_for(sue).post(url, {"request_key": str(uuid4()), "promised_on": "2026-05-01", "why": "road closed"})
    assert done.status_code == 302
    order.refresh_from_db()
    assert order.promised_on == date(2026, 5, 1)
    assert {row.promised_on for row in order.pick.lines.all()} == {date(2026, 5, 1)}


def test_a_line_is_taken_off_on_its_page(order, sue, client_for):
    specs = [*specs_of(order.version), LineSpec(part=Part.objects.get(number="SB26"), quantity=2)]
    change_order(order, specs, by=sue, why="two to spare")
    url = reverse("inventory:order-drop-line", args=[order.label, 2])
    assert client_for(sue).post(url, {"request_key": str(uuid4()), "why": "not wanted"}).status_code == 302
    assert order.version.number == 3
    assert [row.ordinal for row in order.version.lines.all()] == [1]


@pytest.mark.parametrize(("why", "sentence"), [("", "Say why: a few words are enough."), ("x" * 201, "at most 200 characters")])
def test_a_line_is_not_taken_off_without_a_reason(why, sentence, order, sue, client_for):
    specs = [*specs_of(order.version), LineSpec(part=Part.objects.get(number="SB26"), quantity=2)]
    change_order(order, specs, by=sue, why="two to spare")
    url = reverse("inventory:order-drop-line", args=[order.label, 2])
    page = client_for(sue).post(url, {"request_key": str(uuid4()), "why": why})
    assert page.status_code == 422
    assert sentence in page.content.decode()
    assert order.version.number == 2


def test_cancelling_puts_everything_back_and_speaks_for_nothing(order, sue, wes):
    stock_for(order, by=wes)
    record_pick(line(order, "SB26"), 8, key=uuid4(), by=wes)
    cancel_order(order, by=sue, why="another year")
    order.refresh_from_db()
    assert (order.status, PutBack.objects.get().count) == ("cancelled", 8)
    assert not PickLine.objects.spoken_for().exists()
    put_back(PutBack.objects.get(), key=uuid4(), by=wes)
    assert on_hand("SB26") == 8


def test_a_cancelled_order_is_not_cancelled_again(order, sue, client_for):
    cancel_order(order, by=sue, why="another year")
    url = reverse("inventory:order-cancel", args=[order.label])
    answer = client_for(sue).post(url, {"request_key": str(uuid4()), "why": "again"})
    assert answer.status_code == 422
    assert f"Order {order.label} is cancelled already." in answer.content.decode()
    assert Event.objects.filter(verb="order cancelled").count() == 1


def test_what_was_shipped_in_part_is_not_cancelled(order, sue, wes):
    stock_for(order, by=wes)
    record_pick(line(order, "SB26"), 8, key=uuid4(), by=wes)
    ship(order, by=wes, shipped_on=date(2026, 3, 9))
    with pytest.raises(Refuse, match="was shipped: change it to what was sent instead of cancelling it"):
        cancel_order(order, by=sue, why="another year")


def test_pieces_of_one_lot_from_one_bin_are_put_back_in_one_go(order, sue, wes):
    stock_for(order, by=wes)
    for count in (8, 3):
        record_pick(line(order, "TI26"), count, key=uuid4(), by=wes)
    change_order(order, without_snow(order), by=sue, why="snow pack taken off")
    assert PutBack.objects.get(line__part__number="TI26").count == 5
