"""Taking pieces for an order: by count, by a typed or scanned code, undone, said short, put back.

A key is answered once: the same key again gives the entries that it made the first time. Order of locks: the order, the
pick line, then holdings through the ledger. So of two pickers on one line the second one sees what the first one took.
"""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID, uuid5

from django.db import transaction
from django.utils import timezone

from inventory import ledger
from inventory.models import UNKNOWN_LOT, Bin, Holding, Movement, Order, OrderStatus, PackageLine, Part, PickEntry, PickLine, PutBack
from inventory.queries.pick_lines import last_taken, line_number, twin_words
from structures.events import record
from structures.models import User
from structures.refusals import Conflict, Refuse

How = PickEntry.How


@dataclass(frozen=True, slots=True)
class From:
    """Which bin and lot to take from; what is left out is the first bin as one walks, and its lots in turn."""

    bin: Bin | None = None
    lot: str = ""


def record_pick(
    line: PickLine, count: int, *, key: UUID, by: User, taken_from: From = From(), how: str = How.COUNT, why: str = ""
) -> list[PickEntry]:
    """Take `count` pieces for this line out of the bins. Returns the accepted entries, one for each bin and lot.

    Raises `Refuse` when the order is not open, the line would get too many, or the bins have too few; then nothing is
    taken. The same key again returns what it took the first time.
    """
    with transaction.atomic():
        order = _locked_order(line)
        if taken := _answered(line, key, count):
            return taken
        line = _locked(line)
        _refuse_unless_picking(order)
        _refuse_count(line, count)
        entries = _take(line, count, key=key, by=by, taken_from=taken_from, how=how, why=why)
        _begin(order)
        record(
            "picked", f"order {order.label}", who=by, before={"part": line.part.number, "picked": line.picked - count},
            after={"part": line.part.number, "picked": line.picked, "of": [(e.count, e.bin.code, e.lot) for e in entries]},
        )
        return entries


def record_code(
    line: PickLine, code: str, *, key: UUID, by: User, count: int = 1, taken_from: From = From()
) -> list[PickEntry]:
    """Take pieces by the code on their label, typed or scanned: the part's number, with or without "/lot".

    Raises `Refuse` when it is another part's code, saying which, and how it differs from what is wanted.
    """
    number, lot = read_code(code)
    if number.casefold() != line.part.number.casefold():
        raise Refuse(_wrong_part(line, number), field="code")
    return record_pick(
        line, count, key=key, by=by, taken_from=From(taken_from.bin, lot or taken_from.lot), how=How.CODE
    )


def undo_pick(line: PickLine, *, key: UUID, by: User) -> PickEntry:
    """Take back the last count on this line with an entry of its own; the pieces lie in their bin again."""
    with transaction.atomic():
        order = _locked_order(line)
        if done := PickEntry.objects.filter(key=key).first():
            return done
        line = _locked(line)
        last = last_taken(line)
        if last is None:
            raise Refuse(f"Nothing was taken on line {line_number(line)} that could be undone.")
        if line.picked - last.count < _shipped(line):
            raise Refuse(f"The last {last.count:,} on line {line_number(line)} were shipped: they can't be undone here.")
        if line.to_put_back:
            raise Refuse(f"{line.to_put_back:,} of these wait on the put-back list: put them back there.")
        for movement in Movement.objects.filter(posting=str(last.key)).select_related("part", "bin"):
            ledger.reverse(movement, key=key, by=by, cause="pick undone")
        entry = PickEntry.objects.create(
            line=line, count=-last.count, how=How.UNDO, bin=last.bin, lot=last.lot, who=by, at=timezone.now(), key=key,
            reverses=last,
        )
        _add(line, -last.count)
        record(
            "pick undone", f"order {order.label}", who=by,
            before={"part": line.part.number, "picked": line.picked + last.count},
            after={"part": line.part.number, "picked": line.picked},
        )
        return entry


def say_short(line: PickLine, *, by: User) -> PickLine:
    """Say that the bins have no more for this line. It stays open; what is missing is still spoken for."""
    with transaction.atomic():
        order = _locked_order(line)
        line = _locked(line)
        _refuse_unless_picking(order)
        if not line.still_to_pick:
            raise Refuse(f"Line {line_number(line)} is complete with {line.picked:,}: nothing is short.")
        line.short_at, line.short_by = timezone.now(), by
        line.save(update_fields=["short_at", "short_by"])
        _begin(order)
        record(
            "said short", f"order {order.label}", who=by,
            after={"part": line.part.number, "short": line.still_to_pick, "picked": line.picked},
        )
        return line


def put_back(row: PutBack, *, key: UUID, by: User) -> PutBack:
    """Put pieces back that a change made too many: once, into the bin and lot that they came from."""
    with transaction.atomic():
        order = _locked_order(row.line)
        row = PutBack.objects.select_for_update(of=("self",)).select_related("bin").get(pk=row.pk)
        if row.done_at is not None:
            return row
        line = _locked(row.line)
        ledger.post(
            [ledger.Entry(line.part, row.bin, row.count, row.lot)], key=key, by=by, kind=Movement.Kind.PUT_BACK,
            reference=f"order {order.label}",
        )
        PickEntry.objects.create(
            line=line, count=-row.count, how=How.PUT_BACK, bin=row.bin, lot=row.lot, who=by, at=timezone.now(), key=key
        )
        line.to_put_back -= row.count
        line.picked -= row.count
        line.save(update_fields=["picked", "to_put_back"])
        row.done_at, row.done_by = timezone.now(), by
        row.save(update_fields=["done_at", "done_by"])
        record(
            "put back", f"order {order.label}", who=by,
            after={"part": line.part.number, "count": row.count, "bin": row.bin.code, "lot": row.lot},
        )
        return row


def read_code(code: str) -> tuple[str, str]:
    """A label's text read apart: "SB26/P-304" is part SB26, lot P-304."""
    number, _, lot = code.strip().partition("/")
    return number.strip(), lot.strip()


def _answered(line: PickLine, key: UUID, count: int) -> list[PickEntry]:
    """The entries that this key made before; raises `Conflict` when it was used for something else."""
    first = PickEntry.objects.filter(key=key).select_related("bin").first()
    if first is None:
        return []
    if first.line_id != line.pk:
        raise Conflict("This count was already sent for another line, so nothing was taken now: open the line again.")
    entries = [first]
    while more := PickEntry.objects.filter(key=_nth_key(key, len(entries))).select_related("bin").first():
        entries.append(more)
    if sum(entry.count for entry in entries) != count:
        raise Conflict("This count was already sent with another figure, so nothing was taken now: open the line again.")
    return entries


def _nth_key(key: UUID, n: int) -> UUID:
    """One request may empty several bins: its first entry has its own key, each further one a key made from it."""
    return key if n == 0 else uuid5(key, str(n))


def _refuse_count(line: PickLine, count: int) -> None:
    if count < 1:
        raise Refuse(f"{count} is no number of pieces to take: 1 or more would do.", field="count")
    left = line.still_to_pick
    if count <= left:
        return
    so_far = f"{line.picked:,} of {line.to_pick:,} are taken{_last_said(line)}"
    if left:
        raise Refuse(f"{so_far}: {count:,} more would be {count - left:,} too many. {left:,} would do.", field="count")
    raise Refuse(f"{so_far}, so nothing was added: undo first if one was counted twice.", field="count")


def _last_said(line: PickLine) -> str:
    last = last_taken(line)
    if last is None or last.who is None:
        return ""
    return f", the last {last.count:,} by {last.who.called} at {timezone.localtime(last.at):%H:%M}"


def _wrong_part(line: PickLine, number: str) -> str:
    wanted = f"line {line_number(line)} wants {line.part.number}"
    if not number:
        return f"No code was given: {wanted}."
    other = Part.objects.filter(number__iexact=number).first()
    if other is None:
        return f"{number} is no part number of ours: {wanted}. Read the label again."
    return f"That is {other.number}, {other.name}, and {wanted}{twin_words(line.part, other)}. Nothing was taken."


def _take(
    line: PickLine, count: int, *, key: UUID, by: User, taken_from: From, how: str, why: str = ""
) -> list[PickEntry]:
    shares = _shares(line, count, taken_from)
    # A torn-off label is said as it is, whatever lot the books take the piece from.
    said = UNKNOWN_LOT if taken_from.lot == UNKNOWN_LOT else ""
    entries = []
    for n, (holding, taken) in enumerate(shares):
        its_key = _nth_key(key, n)
        ledger.post(
            [ledger.Entry(line.part, holding.bin, -taken, holding.lot)], key=its_key, by=by, kind=Movement.Kind.PICKED,
            reference=f"order {line.pick.order.label}",
        )
        entries.append(PickEntry.objects.create(
            line=line, count=taken, how=how, bin=holding.bin, lot=said or holding.lot, who=by, at=timezone.now(), key=its_key, why=why
        ))
    _add(line, count)
    return entries


def _shares(line: PickLine, count: int, taken_from: From) -> list[tuple[Holding, int]]:
    """From which holdings the pieces come, in walking order. Raises `Refuse` when they have too few."""
    holdings = Holding.objects.free().filter(part=line.part).select_related("bin").in_walking_order()
    if taken_from.bin is not None:
        holdings = holdings.filter(bin=taken_from.bin)
    if taken_from.lot and taken_from.lot != UNKNOWN_LOT:
        holdings = holdings.filter(lot=taken_from.lot)
    shares, left = [], count
    for holding in holdings:
        taken = min(holding.quantity, left)
        shares.append((holding, taken))
        left -= taken
        if not left:
            return shares
    raise Refuse(_too_few(line, count, count - left, taken_from), field="count")


def _too_few(line: PickLine, count: int, there: int, taken_from: From) -> str:
    where = f"Bin {taken_from.bin.code} holds" if taken_from.bin else "The bins hold"
    lot = f", lot {taken_from.lot}" if taken_from.lot else ""
    would = f"take {there:,} and say the rest short" if there else "say it short, or take another bin or lot"
    return f"{where} {there:,} of {line.part.number}{lot}, and {count:,} were to be taken: {would}."


def _add(line: PickLine, count: int) -> None:
    line.picked += count
    line.save(update_fields=["picked"])


def _begin(order: Order) -> None:
    if order.status == OrderStatus.CONFIRMED:
        order.status = OrderStatus.PICKING
        order.save(update_fields=["status"])


def _locked_order(line: PickLine) -> Order:
    return Order.objects.select_for_update().get(pick=line.pick_id)


def _locked(line: PickLine) -> PickLine:
    rows = PickLine.objects.select_for_update(of=("self",)).select_related("part", "pick__order")
    return rows.get(pk=line.pk)


def _refuse_unless_picking(order: Order) -> None:
    if not order.is_open:
        raise Refuse(f"Order {order.label} is {order.get_status_display()}: nothing is picked for it.")


def _shipped(line: PickLine) -> int:
    return sum(PackageLine.objects.filter(pick_line=line).values_list("count", flat=True))
