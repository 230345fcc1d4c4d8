"""The orders of the demo add up to the invented maker's own table, and a second run changes nothing."""

from datetime import date

import pytest

import structures.demo_data
from inventory import demo_orders
from inventory.models import Holding, Order, Package, PackageLine, PickEntry, StoredPaper
from inventory.queries.parts import parts_with_stock
from structures.models import Structure

pytestmark = pytest.mark.django_db

# Spoken for, by part: what 5 R14 x 40, 10 G20 x 48, 9 G26 x 72 with film, 4 G30 x 96, 14 snow packs and 5 re-covers want.
SPOKEN_FOR = {
    "SB14": 40, "SB20": 80, "SB26": 72, "SB30": 64, "RU26": 36, "RL26-L": 18, "RL26-R": 18, "BC166": 660, "BC190": 1238,
    "CC190-131": 919, "PE131-10": 164, "FR44-100": 14, "CH10": 558,
}


def test_they_add_up_and_are_made_once():
    said = []
    structures.demo_data.load(said.append)
    demo_orders.load(said.append)
    _promises_add_up()
    _adas_order_is_as_told()
    _history_left_nothing_in_the_bins()
    counts = (Order.objects.count(), PickEntry.objects.count(), StoredPaper.objects.count())
    demo_orders.load(said.append)
    assert (Order.objects.count(), PickEntry.objects.count(), StoredPaper.objects.count()) == counts


def _promises_add_up():
    wanted = {part.number: part.spoken_for for part in parts_with_stock().filter(number__in=SPOKEN_FOR)}
    assert wanted == SPOKEN_FOR
    assert Order.objects.promised().count() == 28 + 14 + 5 + 1


def _adas_order_is_as_told():
    order = Order.objects.get(number=1207)
    structure = Structure.objects.get(tag="T-0412")
    assert (order.customer.said, order.status, structure.order_number) == ("Ada Quill, Quillmere Croft", "shipped", "1207")
    first, second = order.shipments.order_by("part")
    assert (first.shipped_on, second.shipped_on) == (date(2024, 3, 12), date(2024, 4, 4))
    braces = PackageLine.objects.get(package__shipment=first, part__number="SB26")
    assert (braces.count, braces.lot, braces.package.number) == (8, "P-304", 6)
    assert sorted(Package.objects.filter(shipment=second).values_list("kind", flat=True)) == ["carton", "roll"]
    assert all(paper.is_as_kept for paper in order.papers.all())


def _history_left_nothing_in_the_bins():
    assert not Holding.objects.there().exists()
