"""From a draft to a shipment, and what each step leaves behind."""

from datetime import date

import pytest

from inventory.actions.shipments import ship
from inventory.models import StoredPaper
from structures.models import Structure
from tests.inventory.selling import a_confirmed, pick_all, stock_for

pytestmark = pytest.mark.django_db


def test_a_confirmed_order_is_picked_and_shipped_with_its_tag(olive):
    order = a_confirmed(by=olive)
    stock_for(order, by=olive)
    pick_all(order, by=olive)
    ship(order, by=olive, shipped_on=date(2026, 3, 9))
    order.refresh_from_db()
    assert order.status == "shipped"
    assert [line.picked for line in order.pick.lines.all()] == [line.to_pick for line in order.pick.lines.all()]
    structure = Structure.objects.get()
    assert (structure.order_number, structure.tag, structure.town) == (order.label, "T-0001", "Quillmere")
    assert structure.design == order.version.lines.get().design
    assert StoredPaper.objects.get().is_as_kept
