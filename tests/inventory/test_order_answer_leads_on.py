"""From the answer about an order to its drawings and to what an add-on pack would need."""

from datetime import date

import pytest
from django.urls import reverse

from inventory.actions.shipments import Stands, ship
from tests.inventory.selling import a_confirmed, a_draft, pick_all, stock_for

pytestmark = pytest.mark.django_db


def answer(client, order) -> str:
    return client.get(reverse("inventory:order-answer", args=[order.label])).content.decode()


@pytest.mark.parametrize("who", ["sue", "wes"])
def test_a_shipped_order_leads_to_the_structure_it_became(who, request, client_for, sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    ship(order, by=wes, shipped_on=date(2024, 3, 12), structures={1: Stands(tag="T-0412", name="Long field")})
    client = client_for(request.getfixturevalue(who))
    html = answer(client, order)
    for name, query in (("structure-drawings", ""), ("structure-add-on", "?option=snow-ties")):
        url = reverse(f"structures:{name}", args=["T-0412"]) + query
        assert f'href="{url}"' in html
        assert client.get(url).status_code == 200


def test_a_confirmed_order_leads_to_its_design_and_to_no_pack(client_for, sue):
    order = a_confirmed(by=sue)
    html = answer(client_for(sue), order)
    line = order.version.lines.get(family_revision__isnull=False)
    assert f'href="{reverse("structures:design-drawings", args=[line.design_id])}"' in html
    assert "add-on" not in html


def test_a_draft_has_nothing_frozen_to_draw(client_for, sue):
    assert "All drawings" not in answer(client_for(sue), a_draft(by=sue))
