"""Who may come to what: the roles of the rooms, and the one door to each kind of thing."""

from __future__ import annotations

from typing import TypeVar

from django.http import Http404

from inventory.models import (
    Bin,
    Customer,
    ExpectedReceipt,
    InvoicePhoto,
    Movement,
    Order,
    Part,
    Pick,
    PickLine,
    PickSheet,
    Receipt,
    StoredPaper,
)
from structures.models import User

T = TypeVar("T")

# Whoever works with stock may change it; support reads it while somebody is on the telephone.
STOCK = ("warehouse",)
STOCK_READERS = ("warehouse", "support")


def part_for(number: str) -> Part:
    """The part with this number, capitals or not. Raises `Http404`."""
    return _found(Part.objects.filter(number=number.upper()).first())


def bin_for(code: str) -> Bin:
    """The bin with this code, capitals or not. Raises `Http404`."""
    return _found(Bin.objects.filter(code=code.upper()).first())


def movement_for(pk: int) -> Movement:
    """The movement with this number. Raises `Http404`."""
    return _found(Movement.objects.select_related("part", "bin", "who", "reverses", "reversed_by").filter(pk=pk).first())


def receipt_for(pk: int) -> Receipt:
    """The receipt with this number. Raises `Http404`."""
    return _found(Receipt.objects.select_related("by").filter(pk=pk).first())


def expected_for(pk: int) -> ExpectedReceipt:
    """The expected receipt with this number. Raises `Http404`."""
    return _found(ExpectedReceipt.objects.select_related("part").filter(pk=pk).first())


def order_for(user: User, number: str | int) -> Order:
    """The order of this label ("1207", "P-0093"). A grower has no order's page, so for them there is none."""
    rows = Order.objects.labelled(number).select_related("customer")
    return _found(rows.first() if user.is_staff_role else None)


def pick_for(user: User, number: int) -> Pick:
    """The pick of this number, with its order and customer."""
    rows = Pick.objects.select_related("order__customer").filter(number=number)
    return _found(rows.first() if user.is_staff_role else None)


def pick_line_for(user: User, number: int, pk: int) -> PickLine:
    """One line of a pick."""
    lines = pick_for(user, number).lines.select_related(
        "part", "order_line__family_revision", "order_line__design", "order_line__part", "pick__order__customer"
    )
    return _found(lines.filter(pk=pk).first())


def sheet_for(user: User, pick_number: int, number: int) -> PickSheet:
    """A printed sheet of a pick."""
    sheets = pick_for(user, pick_number).sheets.select_related("printed_by", "entered_by", "version", "pick__order__customer")
    return _found(sheets.filter(number=number).first())


def paper_for(user: User, pk: int) -> StoredPaper:
    """A kept paper."""
    return _found(StoredPaper.objects.filter(pk=pk).first() if user.is_staff_role else None)


def photo_for(user: User, pk: int) -> InvoicePhoto:
    """A photo of the paper that an order is known from."""
    rows = InvoicePhoto.objects.select_related("order").filter(pk=pk)
    return _found(rows.first() if user.is_staff_role else None)


def customer_for(user: User, pk: int) -> Customer:
    """Somebody who ordered."""
    return _found(Customer.objects.filter(pk=pk).first() if user.is_staff_role else None)


def _found(thing: T | None) -> T:
    if thing is None:
        raise Http404
    return thing
