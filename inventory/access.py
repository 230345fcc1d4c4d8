"""Who may come to what: the roles of the rooms, and the one door to each kind of thing."""

from __future__ import annotations

from typing import TypeVar

from django.http import Http404

from inventory.models import Bin, ExpectedReceipt, Movement, Part, Receipt

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


def _found(thing: T | None) -> T:
    if thing is None:
        raise Http404
    return thing
