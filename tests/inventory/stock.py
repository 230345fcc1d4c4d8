"""Parts, bins and stock for tests, each as plain as it can be."""

from uuid import uuid4

from inventory import ledger
from inventory.ledger import Entry
from inventory.models import Bin, Movement, Part


def make_part(number, **fields):
    """A part; one that is there already is given back."""
    made = {"name": f"Part {number}", "role": "side brace", "kind": "tube", "tube": "1.315 x .058", "ends": "flat both ends"}
    return Part.objects.get_or_create(number=number, defaults={**made, **fields})[0]


def make_bin(code, **fields):
    """A bin, in walking order of being made."""
    return Bin.objects.get_or_create(code=code, defaults={"walk": Bin.objects.count() + 1, **fields})[0]


def stocked(who, number, code, quantity, lot="unknown", **fields):
    """A part with so many in a bin, through the ledger."""
    part, bin = make_part(number, **fields), make_bin(code)
    ledger.post([Entry(part, bin, quantity, lot)], key=uuid4(), by=who, kind=Movement.Kind.RECEIVED)
    return part, bin
