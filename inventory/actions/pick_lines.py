"""The lines of a pick follow the order: laid out when it is confirmed, laid out anew when it is changed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Max, Sum
from django.utils import timezone

from inventory.models import Order, OrderLine, OrderVersion, PackageLine, Part, Pick, PickEntry, PickLine, PutBack
from structures.models import User
from structures.refusals import Refuse

FIRST_PICK = 1001


@dataclass(slots=True)
class Change:
    """What differs: `parts` are {part, name, was, now}, `put_back` are {part, name, count, bin, lot}."""

    parts: list[dict[str, Any]] = field(default_factory=list)
    put_back: list[dict[str, Any]] = field(default_factory=list)


def lay_out_lines(order: Order, version: OrderVersion, lines: Sequence[OrderLine], *, by: User | None) -> Change:
    """Make the pick of this version: one line for each part of each order line.

    Runs inside the caller's transaction, with the order's row locked. Raises `Refuse` for a part that is not in the parts
    list, or when less is wanted than was shipped.
    """
    pick = Pick.objects.filter(order=order).first() or _new_pick(order)
    have = _have(pick)
    wanted = _wanted(lines)
    parts = _parts({number for _, number in wanted})
    was = _totals(line for line in have.values())
    by_ordinal = {line.ordinal: line for line in lines}
    fresh = [
        PickLine(pick=pick, order_line=by_ordinal[ordinal], part=parts[number], to_pick=count, promised_on=order.promised_on)
        for (ordinal, number), count in wanted.items()
        if (ordinal, number) not in have
    ]
    for (ordinal, number), line in have.items():
        line.to_pick = wanted.get((ordinal, number), 0)
        line.order_line = by_ordinal.get(ordinal, line.order_line)
        line.promised_on = order.promised_on
    _refuse_under_shipped(have.values())
    put_back = _write(pick, version, have.values(), version.why)
    PickLine.objects.bulk_create(fresh)
    now = _totals([*have.values(), *fresh])
    return Change(_difference(was, now, {line.part.number: line.part.name for line in [*have.values(), *fresh]}), put_back)


def cancel_lines(order: Order, *, by: User | None) -> Change:
    """Nothing is wanted any more: everything that was picked goes back."""
    pick = Pick.objects.filter(order=order).first()
    if pick is None:
        return Change()
    have = _have(pick)
    for line in have.values():
        line.to_pick = 0
    return Change(put_back=_write(pick, order.version, have.values(), "the order was cancelled"))


def _new_pick(order: Order) -> Pick:
    last = Pick.objects.aggregate(last=Max("number"))["last"]
    return Pick.objects.create(number=max(last or 0, FIRST_PICK - 1) + 1, order=order, made_at=timezone.now())


def _have(pick: Pick) -> dict[tuple[int, str], PickLine]:
    rows = pick.lines.select_for_update(of=("self",)).select_related("order_line", "part").order_by("pk")
    return {(line.order_line.ordinal, line.part.number): line for line in rows}


def _wanted(lines: Iterable[OrderLine]) -> dict[tuple[int, str], int]:
    """Pieces by order line and part number: of a structure by its frozen document, of loose parts as they are."""
    wanted: Counter[tuple[int, str]] = Counter()
    for line in lines:
        if line.design is not None:
            for kit_line in line.design.read().lines:
                wanted[(line.ordinal, kit_line.part)] += kit_line.quantity
        else:
            wanted[(line.ordinal, line.part.number)] += line.quantity
    return {key: count for key, count in wanted.items() if count}


def _parts(numbers: set[str]) -> dict[str, Part]:
    parts = {part.number: part for part in Part.objects.filter(number__in=numbers)}
    if missing := sorted(numbers - set(parts)):
        raise Refuse(
            f"Part {missing[0]} is not in the parts list{_and_more(missing)}: take up the parts of its family first."
        )
    return parts


def _and_more(missing: Sequence[str]) -> str:
    return f", nor are {len(missing) - 1} more" if len(missing) > 1 else ""


def _refuse_under_shipped(lines: Iterable[PickLine]) -> None:
    lines = list(lines)
    shipped = dict(
        PackageLine.objects.filter(pick_line__in=lines).values_list("pick_line").annotate(sent=Sum("count")).order_by()
    )
    for line in lines:
        sent = shipped.get(line.pk, 0)
        if line.to_pick < sent:
            raise Refuse(
                f"{sent:,} of {line.part.name} were shipped already, and this would ask for {line.to_pick:,}: "
                f"{sent:,} or more would do."
            )


def _write(pick: Pick, version: OrderVersion, lines: Iterable[PickLine], why: str) -> list[dict[str, Any]]:
    """Store the lines, with a put-back list made anew: what waits there from before may be wanted again."""
    PutBack.objects.filter(line__pick=pick, done_at__isnull=True).delete()
    rows = []
    for line in lines:
        line.to_put_back = max(line.picked - line.to_pick, 0)
        rows += [
            PutBack(line=line, version=version, count=count, bin=bin_, lot=lot, why=why[:200], made_at=timezone.now())
            for count, bin_, lot in _where_from(line)
        ]
        line.save(update_fields=["to_pick", "to_put_back", "order_line", "promised_on"])
    PutBack.objects.bulk_create(rows)
    return [
        {"part": row.line.part.number, "name": row.line.part.name, "count": row.count, "bin": row.bin.code, "lot": row.lot}
        for row in rows
    ]


def _where_from(line: PickLine) -> list[tuple[int, Any, str]]:
    """The bins and lots that the last `to_put_back` pieces came out of, each once however often it was gone to."""
    left, found = line.to_put_back, Counter[tuple[Any, str]]()
    if not left:
        return []
    for entry in _standing(line):
        take = min(entry.count, left)
        found[(entry.bin, entry.lot)] += take
        left -= take
        if not left:
            break
    return [(count, bin_, lot) for (bin_, lot), count in found.items()]


def _standing(line: PickLine) -> list[PickEntry]:
    """Accepted counts that were not undone, last first, less what was put back of their bin and lot."""
    rows = list(line.entries.select_related("bin").order_by("-pk"))
    undone = {row.reverses_id for row in rows if row.reverses_id}
    back: Counter[tuple[int, str]] = Counter()
    for row in rows:
        if row.how == PickEntry.How.PUT_BACK:
            back[(row.bin_id, row.lot)] -= row.count
    standing = []
    for row in rows:
        if row.count < 0 or row.pk in undone:
            continue
        gone = min(back[(row.bin_id, row.lot)], row.count)
        back[(row.bin_id, row.lot)] -= gone
        if row.count > gone:
            row.count -= gone   # this copy only says what still stands; it is never saved
            standing.append(row)
    return standing


def _totals(lines: Iterable[PickLine]) -> Counter[str]:
    totals: Counter[str] = Counter()
    for line in lines:
        totals[line.part.number] += line.to_pick
    return totals


def _difference(was: Counter[str], now: Counter[str], names: dict[str, str]) -> list[dict[str, Any]]:
    return [
        {"part": number, "name": names[number], "was": was[number], "now": now[number]}
        for number in sorted(set(was) | set(now))
        if was[number] != now[number]
    ]
