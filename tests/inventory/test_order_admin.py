"""What the admin shows of orders, and what it lets nobody change."""

from datetime import date

import pytest
from django.contrib import admin
from django.urls import reverse

from inventory.actions.shipments import ship
from inventory.models import Customer, Order, PackageLine, PickEntry, StoredPaper
from tests.inventory.selling import a_confirmed, a_draft, a_paper_order, pick_all, stock_for

pytestmark = pytest.mark.django_db
SHOWN = [model for model, found in admin.site._registry.items() if type(found).__module__ == "inventory.admin.orders"]


@pytest.fixture
def keeper(olive, client_for):
    olive.is_staff = olive.is_superuser = True
    olive.save()
    return client_for(olive)


@pytest.fixture
def order(sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    ship(order, by=wes, shipped_on=date(2026, 3, 9))
    a_draft(by=sue)
    a_paper_order(by=sue, photo=True)
    return order


def address(model, what, *args):
    return reverse(f"admin:inventory_{model._meta.model_name}_{what}", args=args)


def test_every_kind_of_row_can_be_looked_at(keeper, order):
    assert len(SHOWN) == 14
    for model in SHOWN:
        assert keeper.get(address(model, "changelist")).status_code == 200
        row = model.objects.first()
        if row is not None:
            assert keeper.get(address(model, "change", row.pk)).status_code == 200


@pytest.mark.parametrize("model", [PickEntry, PackageLine, StoredPaper])
def test_what_was_done_has_no_form(model, keeper, order):
    row = model.objects.first()
    assert keeper.get(address(model, "add")).status_code == 403
    assert keeper.post(address(model, "change", row.pk), {}).status_code == 403
    assert keeper.post(address(model, "delete", row.pk), {"post": "yes"}).status_code == 403


def test_a_confirmed_order_has_no_form_and_a_draft_has(keeper, order):
    assert keeper.post(address(Order, "change", order.pk), {"note": "x"}).status_code == 403
    assert keeper.get(address(Order, "add")).status_code == 403
    draft = Order.objects.get(status="draft")
    assert b'name="promised_on"' in keeper.get(address(Order, "change", draft.pk)).content
    assert b'name="number"' not in keeper.get(address(Order, "change", draft.pk)).content


def test_a_customer_may_be_put_right_and_is_found_by_it(keeper, order):
    customer = order.customer
    said = {"name": "Ada Quill", "farm": "Quillmere Croft", "town": "Quillmere", "phone": "207 555 0188", "note": ""}
    assert keeper.post(address(Customer, "change", customer.pk), said).status_code == 302
    customer.refresh_from_db()
    assert (customer.phone_digits, customer.folded) == ("12075550188", "adaquill quillmerecroft quillmere")
    assert keeper.post(address(Customer, "delete", customer.pk), {"post": "yes"}).status_code == 403


def test_the_bytes_of_a_paper_are_not_put_on_a_page(keeper, order):
    paper = StoredPaper.objects.get()
    page = keeper.get(address(StoredPaper, "change", paper.pk)).content.decode()
    assert paper.sha256 in page
    assert "%PDF" not in page
