"""Taking in what comes, and saying what is expected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from django.db import IntegrityError, transaction
from django.db.models import Sum
from django.utils import timezone

from inventory import ledger
from inventory.models import Bin, ExpectedReceipt, Movement, Part, Receipt, ReceiptLine
from structures.events import record
from structures.models import User
from structures.refusals import Conflict, Refuse


@dataclass(frozen=True, slots=True)
class Arrived:
    """So many of a part and lot, the bin that they went into, and what was on order that they answer."""

    part: Part
    bin: Bin
    lot: str
    quantity: int
    answers: ExpectedReceipt | None = None


@transaction.atomic
def take_in(
    lines: Sequence[Arrived], *, supplier: str, paper: str, received_on: date, note: str, key: UUID | str, by: User
) -> Receipt:
    """Keep a receipt and put its lines into their bins. The same key again gives the receipt that is there.

    What a line answers is closed once all of it came, else the rest stays on order. Raises `Refuse` for a receipt without
    lines and for a line that answers another part or what is closed, `Conflict` when the key was used for another one.
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
            movement=movement, answers=line.answers,
        )
        for position, (line, movement) in enumerate(zip(lines, stored, strict=True), start=1)
    )
    _answer(lines, on=received_on, by=by)
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


@transaction.atomic
def recount_expected(pk: int, *, on: date, by: User) -> ExpectedReceipt:
    """Count anew what came of something on order: all of it closes it, and what was taken back opens it again."""
    expected = ExpectedReceipt.objects.select_for_update().select_related("part").get(pk=pk)
    lines = expected.answered_by.filter(movement__reversed_by__isnull=True)
    was, came = expected.came, lines.aggregate(pieces=Sum("quantity"))["pieces"] or 0
    if came == was:
        return expected
    expected.came = came
    if came >= expected.quantity:
        expected.closed_on = expected.closed_on or on
    elif was >= expected.quantity:
        # What came had closed it. What a person closed, with less than all of it there, stays closed.
        expected.closed_on = None
    expected.save(update_fields=["came", "closed_on"])
    record(
        "expects no more" if expected.closed_on else "expects the rest", f"part {expected.part.number}", who=by,
        before={"came": was}, after={"came": came, "of": expected.quantity},
    )
    return expected


def _answer(lines: Sequence[Arrived], *, on: date, by: User) -> None:
    ids = {line.answers.pk for line in lines if line.answers}
    # Locked after the holdings, here and where a movement is taken back, so that two never wait for each other.
    rows = ExpectedReceipt.objects.select_for_update().filter(pk__in=ids).select_related("part").order_by("pk")
    there = {expected.pk: expected for expected in rows}
    for line in lines:
        if line.answers is None:
            continue
        expected = there[line.answers.pk]
        if expected.closed_on is not None:
            raise Refuse(
                f"The {expected.quantity:,} of {expected.part.number} from {expected.supplier} are closed since: choose another, or none."
            )
        if expected.part_id != line.part.pk:
            raise Refuse(f"{expected.part.number} is what was on order, and the line is {line.part.number}: choose another, or none.")
    for pk in there:
        recount_expected(pk, on=on, by=by)


def _same(there: Receipt, lines: Sequence[Arrived], about: dict[str, Any]) -> Receipt:
    was = list(there.lines.order_by("position").values_list("part_id", "bin_id", "lot", "quantity", "answers_id"))
    now = [(line.part.pk, line.bin.pk, line.lot, line.quantity, line.answers and line.answers.pk) for line in lines]
    if was != now or any(getattr(there, name) != value for name, value in about.items()):
        raise Conflict(f"This receipt was stored before with other lines, as receipt {there.pk}: look at it first.")
    return there
