"""The only writer of stock.

`post` stores movements; the database keeps each holding equal to the sum of its movements and refuses less than zero.
Everything here runs in one transaction and is answered once for each key, so a double tap or a retry changes nothing.

Order of locks: whatever the caller locks first (an order, then its pick lines), then the holdings by part, bin and lot.
On SQLite the immediate transaction is the one lock; on PostgreSQL each holding's row is locked.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from inventory.models import UNKNOWN_LOT, Bin, Holding, Movement, Part
from structures.models import User
from structures.refusals import Conflict, Refuse

Kind = Movement.Kind
_Place = tuple[int, int, str]
_LOCKED_AT_ONCE = 500  # a database takes only so many values in one question


@dataclass(frozen=True, slots=True)
class Entry:
    """So many pieces of a part into a bin (positive) or out of it (negative). `lot` "unknown" is a value."""

    part: Part
    bin: Bin
    quantity: int
    lot: str = UNKNOWN_LOT
    reverses: Movement | None = None
    counted: int | None = None
    book: int | None = None
    cause: str = ""

    @property
    def place(self) -> _Place:
        """What the entry's holding is known by."""
        return (self.part.pk, self.bin.pk, self.lot)


@dataclass(frozen=True, slots=True)
class Counted:
    """So many of a part and lot lie in a bin, whatever the books say."""

    part: Part
    bin: Bin
    lot: str
    counted: int


class NotThere(Refuse):
    """More was asked from a bin than lies in it. Nothing was changed."""

    def __init__(self, entry: Entry, there: int, asked: int):
        self.entry, self.there, self.asked = entry, there, asked
        super().__init__(
            f"Bin {entry.bin.code} holds {there:,} of {entry.part.number}, lot {entry.lot}, and {asked:,} were asked: "
            f"{_would_do(there)}"
        )


def _would_do(there: int) -> str:
    return f"{there:,} or fewer would do." if there else "take them from another bin or lot, or count this bin again."


def post(entries: Iterable[Entry], *, key: UUID | str, by: User, kind: str, reference: str = "") -> list[Movement]:
    """Store these entries, all or none, and return their movements in order.

    The same key with the same entries, kind and reference returns what was stored the first time; with anything else
    it raises `Conflict`. Raises `NotThere` when a bin would go below zero, `Refuse` when an entry moves nothing.
    """
    body = _read_entries(entries, kind)
    posting = str(key)
    with transaction.atomic():
        if stored := _stored(posting):
            return _same(stored, body, kind, reference)
        holdings = _lock({entry.place for entry in body})
        # Whoever held these rows may have been the same request: PostgreSQL lets both past the first look.
        if stored := _stored(posting):
            return _same(stored, body, kind, reference)
        _refuse_below_zero(body, {place: holding.quantity for place, holding in holdings.items()})
        try:
            with transaction.atomic():
                return _insert(body, posting, by, kind, reference)
        except IntegrityError:
            # The same key with other holdings takes other locks, so the unique key is what notices it.
            if stored := _stored(posting):
                return _same(stored, body, kind, reference)
            raise


def reverse(movement: Movement, *, key: UUID | str, by: User, cause: str) -> Movement:
    """Take one entry back with its opposite, once. Raises `Refuse` when it was reversed already or is itself a reversal."""
    with transaction.atomic():
        # Two who reverse one entry wait for each other here; the second then sees what the first has done.
        _lock({(movement.part_id, movement.bin_id, movement.lot)})
        done = _stored(str(key))
        if not done and movement.kind == Kind.REVERSED:
            raise Refuse(f"Movement {movement.pk} is itself a reversal: enter what really happened as a new movement.")
        if not done and movement.quantity == 0:
            raise Refuse(f"Movement {movement.pk} is a count that changed nothing, so there is nothing to reverse.")
        if not done and Movement.objects.filter(reverses=movement).exists():
            raise Refuse(f"Movement {movement.pk} was reversed before: look at the movements of {movement.part.number}.")
        entry = Entry(movement.part, movement.bin, -movement.quantity, movement.lot, reverses=movement, cause=cause)
        return post([entry], key=key, by=by, kind=Kind.REVERSED, reference=f"movement {movement.pk}")[0]


def move(
    part: Part, *, lot: str, quantity: int, from_bin: Bin, to_bin: Bin, key: UUID | str, by: User,
    kind: str = Kind.MOVED, reference: str = "", cause: str = "",
) -> list[Movement]:
    """Move pieces of one lot from a bin to another."""
    if from_bin.pk == to_bin.pk:
        raise Refuse(f"Bin {from_bin.code} is where they lie already: name another bin to move to.", field="to_bin")
    if quantity <= 0:
        raise Refuse(f"{quantity:,} is no number of pieces to move: 1 or more would do.", field="quantity")
    entries = [
        Entry(part, from_bin, -quantity, lot, cause=cause),
        Entry(part, to_bin, quantity, lot, cause=cause),
    ]
    return post(entries, key=key, by=by, kind=kind, reference=reference)


def count(
    part: Part, *, bin: Bin, lot: str, counted: int, cause: str, key: UUID | str, by: User, reference: str = ""
) -> Movement:
    """Store what was counted, and the difference from the books as the movement's quantity.

    A count that agrees is stored too. Raises `Refuse` when it differs and no cause was given, so that a cause is looked
    for before the books follow.
    """
    with transaction.atomic():
        if stored := _stored(str(key)):
            return _same_counts(stored, [Counted(part, bin, lot, counted)], cause)[0]
        book = _lock({(part.pk, bin.pk, lot)})[(part.pk, bin.pk, lot)].quantity
        if counted != book and not cause:
            raise Refuse(
                f"{counted:,} were counted where the books say {book:,}: look for the cause first, then say it.",
                field="cause",
            )
        entry = Entry(part, bin, counted - book, lot, counted=counted, book=book, cause=cause)
        return post([entry], key=key, by=by, kind=Kind.COUNTED, reference=reference)[0]


def count_all(lines: Sequence[Counted], *, cause: str, key: UUID | str, by: User, reference: str = "") -> list[Movement]:
    """Store many counts at once and return the movements of those that differ from the books; the rest is left alone.

    Raises `Refuse` when all of them agree, since then there is nothing to store.
    """
    with transaction.atomic():
        if stored := _stored(str(key)):
            return _same_counts(stored, lines, cause)
        books = _lock({(line.part.pk, line.bin.pk, line.lot) for line in lines})
        entries = []
        for line in lines:
            book = books[(line.part.pk, line.bin.pk, line.lot)].quantity
            if line.counted != book:
                change = line.counted - book
                entries.append(Entry(line.part, line.bin, change, line.lot, counted=line.counted, book=book, cause=cause))
        if not entries:
            raise Refuse("The books say the same on every line, so there is nothing to change.")
        return post(entries, key=key, by=by, kind=Kind.COUNTED, reference=reference)


def lock_lot(part: Part, lot: str, *, with_bin: Bin) -> list[Holding]:
    """Lock every holding of a part and lot, and the one in `with_bin` that may be made, and return what they hold now.

    For an act that moves whatever lies there: what it reads stands until its transaction ends. In walking order.
    """
    bins = set(Holding.objects.filter(part=part, lot=lot).values_list("bin_id", flat=True)) | {with_bin.pk}
    locked = _lock({(part.pk, bin, lot) for bin in bins})
    return list(Holding.objects.filter(pk__in=[row.pk for row in locked.values()]).select_related("bin").in_walking_order())


def _read_entries(entries: Iterable[Entry], kind: str) -> list[Entry]:
    body = list(entries)
    if not body:
        raise Refuse("Nothing was entered: name at least one part, its bin and how many.")
    for entry in body:
        if not entry.lot:
            raise Refuse(f"The lot of {entry.part.number} is empty: give it, or say unknown.", field="lot")
        if entry.quantity == 0 and kind != Kind.COUNTED:
            raise Refuse(f"0 of {entry.part.number} moves nothing: 1 or more would do.", field="quantity")
    return body


def _stored(posting: str) -> list[Movement]:
    return sorted(Movement.objects.filter(posting=posting).select_related("part", "bin"), key=_position)


def _position(movement: Movement) -> int:
    return int(movement.key.rpartition("/")[2])


def _same(stored: Sequence[Movement], body: Sequence[Entry], kind: str, reference: str) -> list[Movement]:
    was = [(m.part_id, m.bin_id, m.lot, m.quantity, m.reverses_id, m.counted, m.cause, m.kind, m.reference) for m in stored]
    now = [
        (*e.place, e.quantity, e.reverses.pk if e.reverses else None, e.counted, e.cause, kind, reference) for e in body
    ]
    if was != now:
        raise _conflict()
    return list(stored)


def _same_counts(stored: Sequence[Movement], lines: Sequence[Counted], cause: str) -> list[Movement]:
    # The books have moved since, so a repeated count is compared by what was counted and not by the difference.
    said = {(line.part.pk, line.bin.pk, line.lot, line.counted, cause) for line in lines}
    was = {(m.part_id, m.bin_id, m.lot, m.counted, m.cause) for m in stored}
    if not was <= said:
        raise _conflict()
    return list(stored)


def _conflict() -> Conflict:
    return Conflict(
        "This entry was stored before with other figures, so nothing was changed now: look at the movements, then enter "
        "what is missing as a new one."
    )


def _lock(places: Iterable[_Place]) -> dict[_Place, Holding]:
    """Lock the holdings in their fixed order, making those that are not there yet. Queries don't grow with the places."""
    ordered = sorted(places)
    numbers = _numbers(ordered)
    if absent := [place for place in ordered if place not in numbers]:
        # Somebody may be making the same one: then theirs stands, and the lock below waits for them.
        Holding.objects.bulk_create(
            [Holding(part_id=part, bin_id=bin, lot=lot, quantity=0) for part, bin, lot in absent], ignore_conflicts=True
        )
        numbers = _numbers(ordered)
    wanted = [numbers[place] for place in ordered]
    locked: dict[_Place, Holding] = {}
    for start in range(0, len(wanted), _LOCKED_AT_ONCE):
        rows = Holding.objects.select_for_update().filter(pk__in=wanted[start : start + _LOCKED_AT_ONCE])
        for holding in rows.order_by("part_id", "bin_id", "lot"):
            locked[(holding.part_id, holding.bin_id, holding.lot)] = holding
    return locked


def _numbers(places: Sequence[_Place]) -> dict[_Place, int]:
    wanted = set(places)
    rows = Holding.objects.filter(
        part_id__in={part for part, _, _ in wanted}, bin_id__in={bin for _, bin, _ in wanted}
    ).values_list("part_id", "bin_id", "lot", "pk")
    return {(part, bin, lot): pk for part, bin, lot, pk in rows if (part, bin, lot) in wanted}


def _refuse_below_zero(body: Sequence[Entry], there: dict[_Place, int]) -> None:
    left = dict(there)
    for entry in body:
        left[entry.place] += entry.quantity
    for entry in body:
        if left[entry.place] < 0:
            asked = there[entry.place] - left[entry.place]
            raise NotThere(entry, there[entry.place], asked)


def _insert(body: Sequence[Entry], posting: str, by: User, kind: str, reference: str) -> list[Movement]:
    at = timezone.now()
    rows = [
        Movement(
            part=entry.part, bin=entry.bin, lot=entry.lot, quantity=entry.quantity, kind=kind, reference=reference,
            who=by, at=at, posting=posting, key=f"{posting}/{position}", reverses=entry.reverses,
            counted=entry.counted, book=entry.book, cause=entry.cause,
        )
        for position, entry in enumerate(body, start=1)
    ]
    # What comes in goes first, so that no holding dips below zero on the way to a sum that is none the less right.
    Movement.objects.bulk_create(sorted(rows, key=lambda row: row.quantity < 0))
    return rows
