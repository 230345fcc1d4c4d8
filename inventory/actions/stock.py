"""Bins, and what people do with stock: move, hold back, release, count again, take an entry back."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from inventory import ledger
from inventory.actions.supply import recount_expected
from inventory.models import Bin, Movement, Part, ReceiptLine
from structures.events import record
from structures.models import User
from structures.refusals import Refuse

BIN_FIELDS = ("code", "walk", "zone", "held_back")


@transaction.atomic
def make_bin(values: dict[str, Any], *, by: User) -> Bin:
    """Make a bin. The form has looked whether its code is free."""
    made = Bin.objects.create(**{name: values[name] for name in BIN_FIELDS})
    record("made", f"bin {made.code}", who=by, after=_shown(made))
    return made


@transaction.atomic
def change_bin(bin: Bin, values: dict[str, Any], *, by: User) -> Bin:
    """Change a bin's turn in walking order, its zone, and whether what lies in it is held back. Its code stays."""
    bin = Bin.objects.select_for_update().get(pk=bin.pk)
    before = _shown(bin)
    for name in BIN_FIELDS[1:]:
        setattr(bin, name, values[name])
    if _shown(bin) != before:
        bin.save(update_fields=BIN_FIELDS[1:])
        record("changed", f"bin {bin.code}", who=by, before=before, after=_shown(bin))
    return bin


@transaction.atomic
def move_stock(
    part: Part, *, lot: str, quantity: int, from_bin: Bin, to_bin: Bin, why: str, key: UUID | str, by: User
) -> list[Movement]:
    """Move pieces of one lot from a bin to another. Raises `Refuse`."""
    if from_bin.held_back != to_bin.held_back:
        raise Refuse(
            f"Bin {to_bin.code} {'is' if to_bin.held_back else 'is not'} a held-back bin and {from_bin.code} "
            f"{'is' if from_bin.held_back else 'is not'}: use “hold back” or “release” for that, so that it says why.",
            field="to_bin",
        )
    stored = ledger.move(part, lot=lot, quantity=quantity, from_bin=from_bin, to_bin=to_bin, key=key, by=by, cause=why)
    _record_move("moved", stored, by)
    return stored


@transaction.atomic
def hold_back(part: Part, *, lot: str, to_bin: Bin, why: str, key: UUID | str, by: User) -> list[Movement]:
    """Move all that lies free of a part and lot into a held-back bin. Raises `Refuse`."""
    if not to_bin.held_back:
        raise Refuse(
            f"Bin {to_bin.code} is not a held-back bin, so its pieces would still be free to sell: name one that is.",
            field="to_bin",
        )
    return _shift(part, lot, to_bin, kind=ledger.Kind.HELD_BACK, why=why, key=key, by=by)


@transaction.atomic
def release(part: Part, *, lot: str, to_bin: Bin, why: str, key: UUID | str, by: User) -> list[Movement]:
    """Move all that is held back of a part and lot into a bin that it may be sold from. Raises `Refuse`."""
    if to_bin.held_back:
        raise Refuse(
            f"Bin {to_bin.code} is a held-back bin, so its pieces would not be free to sell: name one that is not.",
            field="to_bin",
        )
    return _shift(part, lot, to_bin, kind=ledger.Kind.RELEASED, why=why, key=key, by=by)


@transaction.atomic
def count_again(part: Part, *, bin: Bin, lot: str, counted: int, cause: str, key: UUID | str, by: User) -> Movement:
    """Store a count. Raises `Refuse` when it differs from the books and no cause is given."""
    entry = ledger.count(part, bin=bin, lot=lot, counted=counted, cause=cause, key=key, by=by)
    record(
        "counted", f"part {part.number}", who=by, before={"bin": bin.code, "lot": lot, "books": entry.book},
        after={"bin": bin.code, "lot": lot, "counted": counted, "cause": cause},
    )
    return entry


@transaction.atomic
def reverse_movement(movement: Movement, *, cause: str, key: UUID | str, by: User) -> Movement:
    """Take an entry back with its opposite. Raises `Refuse`."""
    if movement.kind in (ledger.Kind.PICKED, ledger.Kind.PUT_BACK):
        raise Refuse(
            f"Movement {movement.pk} belongs to {movement.reference or 'a pick'}: undo it there, so that its pick line knows.",
            field="cause",
        )
    if movement.kind in (ledger.Kind.MOVED, ledger.Kind.HELD_BACK, ledger.Kind.RELEASED):
        raise Refuse(
            f"Movement {movement.pk} is one half of a move, and its pieces lie in the other bin: move them back instead.",
            field="cause",
        )
    back = ledger.reverse(movement, key=key, by=by, cause=cause)
    if line := ReceiptLine.objects.filter(movement=movement, answers__isnull=False).first():
        recount_expected(line.answers_id, on=timezone.localdate(), by=by)
    record(
        "reversed", f"movement {movement.pk}", who=by, before={"quantity": movement.quantity, "kind": movement.kind},
        after={"movement": back.pk, "cause": cause},
    )
    return back


def _shift(part: Part, lot: str, to_bin: Bin, *, kind: str, why: str, key: UUID | str, by: User) -> list[Movement]:
    """Move every holding of a lot that lies on the other side of being held back into one bin, in one posting."""
    stored = list(Movement.objects.filter(posting=str(key)).select_related("bin"))
    if not stored:
        entries = []
        for holding in ledger.lock_lot(part, lot, with_bin=to_bin):
            if not holding.quantity or holding.bin.held_back == to_bin.held_back:
                continue
            entries.append(ledger.Entry(part, holding.bin, -holding.quantity, lot, cause=why))
            entries.append(ledger.Entry(part, to_bin, holding.quantity, lot, cause=why))
        if not entries:
            where = "is held back" if kind == ledger.Kind.RELEASED else "lies in a bin that is not held back"
            raise Refuse(f"Nothing of {part.number}, lot {lot}, {where}: look where it is on the part's page.", field="lot")
        stored = ledger.post(entries, key=key, by=by, kind=kind)
        _record_move(str(ledger.Kind(kind).label), stored, by)
    return stored


def _record_move(verb: str, stored: list[Movement], by: User) -> None:
    first = stored[0]
    record(
        verb, f"part {first.part.number}", who=by,
        after={
            "lot": first.lot, "why": first.cause, "entries": [{"bin": m.bin.code, "quantity": m.quantity} for m in stored],
        },
    )


def _shown(bin: Bin) -> dict[str, Any]:
    return {name: getattr(bin, name) for name in BIN_FIELDS}
