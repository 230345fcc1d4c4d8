"""Taking in what comes, and saying what is expected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from inventory import ledger
from inventory.models import Bin, ExpectedReceipt, Movement, Part, Receipt, ReceiptLine
from structures.events import record
from structures.models import User
from structures.refusals import Conflict, Refuse


@dataclass(frozen=True, slots=True)
class Arrived:
    """So many of a part and lot, and the bin that they went into."""

    part: Part
    bin: Bin
    lot: str
    quantity: int


@transaction.atomic
def take_in(
    lines: Sequence[Arrived], *, supplier: str, paper: str, received_on: date, note: str, key: UUID | str, by: User
) -> Receipt:
    """Keep a receipt and put its lines into their bins. The same key again gives the receipt that is there.

    Raises `Refuse` for a receipt without lines, `Conflict` when the key was used for another one.
    """
    if not lines:
        raise Refuse("The receipt has no lines: give at least one part, its lot, its bin and how many.")
    about = {"supplier": supplier, "paper": paper, "received_on": received_on, "note": note}
    if there := Receipt.objects.filter(key=str(key)).first():
        return _same(there, lines, about)
    try:
        with transaction.atomic():
            receipt = Receipt.objects.create(by=by, at=timezone.now(), key=str(key), **about)
    except IntegrityError:
        # PostgreSQL lets two with one key past the first look; the second waited here until the first had ended.
        return _same(Receipt.objects.get(key=str(key)), lines, about)
    stored = ledger.post(
        [ledger.Entry(line.part, line.bin, line.quantity, line.lot) for line in lines],
        key=key, by=by, kind=Movement.Kind.RECEIVED, reference=f"receipt {receipt.pk}",
    )
    ReceiptLine.objects.bulk_create(
        ReceiptLine(
            receipt=receipt, position=position, part=line.part, bin=line.bin, lot=line.lot, quantity=line.quantity,
            movement=movement,
        )
        for position, (line, movement) in enumerate(zip(lines, stored, strict=True), start=1)
    )
    record(
        "took in", f"receipt {receipt.pk}", who=by,
        after={
            "supplier": supplier, "paper": paper,
            "lines": [[line.part.number, line.bin.code, line.lot, line.quantity] for line in lines],
        },
    )
    return receipt


@transaction.atomic
def expect(values: dict[str, Any], *, by: User) -> ExpectedReceipt:
    """Note that a part is on order: `part`, `quantity`, `supplier`, `due_on`, `reference`."""
    made = ExpectedReceipt.objects.create(**values)
    record(
        "expects", f"part {made.part.number}", who=by,
        after={"quantity": made.quantity, "supplier": made.supplier, "due_on": str(made.due_on)},
    )
    return made


@transaction.atomic
def close_expected(expected: ExpectedReceipt, *, on: date, by: User) -> ExpectedReceipt:
    """Nothing more is expected of it. Closed already is no error and changes nothing."""
    expected = ExpectedReceipt.objects.select_for_update().select_related("part").get(pk=expected.pk)
    if expected.closed_on is None:
        expected.closed_on = on
        expected.save(update_fields=["closed_on"])
        record(
            "expects no more", f"part {expected.part.number}", who=by,
            before={"quantity": expected.quantity, "due_on": str(expected.due_on)}, after={"closed_on": str(on)},
        )
    return expected


def _same(there: Receipt, lines: Sequence[Arrived], about: dict[str, Any]) -> Receipt:
    was = list(there.lines.order_by("position").values_list("part_id", "bin_id", "lot", "quantity"))
    now = [(line.part.pk, line.bin.pk, line.lot, line.quantity) for line in lines]
    if was != now or any(getattr(there, name) != value for name, value in about.items()):
        raise Conflict(f"This receipt was stored before with other lines, as receipt {there.pk}: look at it first.")
    return there
