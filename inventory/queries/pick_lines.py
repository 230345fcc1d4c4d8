"""The lines of a pick as somebody walks them, and what was taken on each."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Q, QuerySet, Sum

from inventory.models import Holding, PackageLine, Part, Pick, PickEntry, PickLine
from structures.frame.lengths import feet_inches, inches_only, sixteenths


@dataclass(frozen=True, slots=True)
class Stand:
    """One line of a pick: `n` of the pick's lines in walking order; `bin` where the next piece lies, "" when nowhere.

    `there` counts the pieces in all bins that may be picked from; `lot` is the lot that comes next.
    """

    n: int
    of: int
    line: PickLine
    bin: str
    lot: str
    there: int
    before: int | None             # pk of the line before and after, as one walks
    after: int | None
    entries: tuple[PickEntry, ...] = ()

    @property
    def state(self) -> str:
        """ "taken", "short", "begun" or "open"; "put back" while only that is left to do."""
        if self.line.to_pick == 0:
            return "put back"
        if not self.line.still_to_pick:
            return "taken"
        if self.line.is_short:
            return "short"
        return "begun" if self.line.picked else "open"


def shown_lines(pick: Pick) -> QuerySet[PickLine]:
    """Lines that somebody has something to do with: wanted, or to be put back."""
    return (
        pick.lines.filter(Q(to_pick__gt=0) | Q(to_put_back__gt=0))
        .select_related("part", "order_line__family_revision", "order_line__part", "pick__order__customer")
    )


def stands(pick: Pick) -> list[Stand]:
    """All lines of a pick in bin order. Three queries, however many lines there are.

    A line keeps its number while it is picked: the order goes by the bins that a part has a place in, also when they
    are empty by now.
    """
    lines = list(shown_lines(pick))
    homes = _homes(line.part_id for line in lines)
    entries = _entries(lines)
    ordered = sorted(lines, key=lambda line: (_home_walk(homes[line.part_id]), line.part.number, line.order_line.ordinal))
    found = []
    for n, line in enumerate(ordered, 1):
        rows = homes[line.part_id]
        full = next((row for row in rows if row.quantity > 0), None)
        home = full or (rows[0] if rows else None)
        found.append(Stand(
            n, len(ordered), line, home.bin.code if home else "", full.lot if full else "",
            sum(row.quantity for row in rows),
            ordered[n - 2].pk if n > 1 else None, ordered[n].pk if n < len(ordered) else None, tuple(entries[line.pk]),
        ))
    return found


def stand_of(line: PickLine) -> Stand | None:
    """Where this line stands in its pick; None when nothing is to be done with it."""
    return next((stand for stand in stands(line.pick) if stand.line.pk == line.pk), None)


def line_number(line: PickLine) -> int:
    """The line's number as the picker sees it (0 for one that is not shown)."""
    stand = stand_of(line)
    return stand.n if stand else 0


def next_open(pick: Pick, after: int = 0) -> Stand | None:
    """The first line after number `after` that is neither taken nor said short; then round from the start."""
    rows = stands(pick)
    todo = [stand for stand in rows if stand.state in ("open", "begun")]
    return next((stand for stand in todo if stand.n > after), todo[0] if todo else None)


def _homes(parts: Iterable[int]) -> dict[int, list[Holding]]:
    homes: dict[int, list[Holding]] = defaultdict(list)
    rows = Holding.objects.filter(part_id__in=set(parts), bin__held_back=False).select_related("bin")
    for row in rows.in_walking_order():
        homes[row.part_id].append(row)
    return homes


def _entries(lines: Iterable[PickLine]) -> dict[int, list[PickEntry]]:
    found: dict[int, list[PickEntry]] = defaultdict(list)
    for entry in PickEntry.objects.filter(line__in=[line.pk for line in lines]).select_related("who").order_by("pk"):
        found[entry.line_id].append(entry)
    return found


def _home_walk(rows: list[Holding]) -> tuple[int, str]:
    return (rows[0].bin.walk, rows[0].bin.code) if rows else (10**9, "")


def last_taken(line: PickLine) -> PickEntry | None:
    """The last accepted count that still stands."""
    return (
        line.entries.filter(count__gt=0, reversed_by__isnull=True)
        .select_related("bin", "who").order_by("-pk").first()
    )


def accepted(line: PickLine) -> list[PickEntry]:
    """Every accepted count of a line, newest first, undone ones too: nothing that was said is hidden."""
    return list(line.entries.select_related("bin", "who", "reverses").order_by("-pk"))


def standing_lots(lines: Iterable[PickLine]) -> dict[int, Counter[str]]:
    """By line, how many pieces of each lot are taken and not undone or put back (one query)."""
    found: dict[int, Counter[str]] = defaultdict(Counter)
    rows = (
        PickEntry.objects.filter(line__in=[line.pk for line in lines])
        .values_list("line_id", "lot").annotate(n=Sum("count")).order_by("line_id", "lot")
    )
    for line, lot, n in rows:
        if n > 0:
            found[line][lot] = n
    return found


def shipped_lots(lines: Iterable[PickLine]) -> dict[int, Counter[str]]:
    """By line, how many pieces of each lot were shipped (one query)."""
    found: dict[int, Counter[str]] = defaultdict(Counter)
    rows = (
        PackageLine.objects.filter(pick_line__in=[line.pk for line in lines])
        .values_list("pick_line_id", "lot").annotate(n=Sum("count")).order_by("pick_line_id", "lot")
    )
    for line, lot, n in rows:
        found[line][lot] = n
    return found


def twin_words(wanted: Part, other: Part) -> str:
    """How another part differs from the wanted one, to end a sentence: ": it is 15/16 in. shorter"."""
    differs = []
    if wanted.length_in is not None and other.length_in is not None:
        # Taken from the figures as they are shown, or a tape would not agree with the sentence.
        gap = (sixteenths(other.length_in) - sixteenths(wanted.length_in)) / 16
        if gap:
            amount = f"{inches_only(abs(gap))} in." if abs(gap) < 12 else feet_inches(abs(gap))
            differs.append(f"{amount} {'longer' if gap > 0 else 'shorter'}")
    if wanted.hand != other.hand and wanted.hand and other.hand:
        differs.append(f"turned to the {other.hand}, not to the {wanted.hand}")
    return f": it is {' and '.join(differs)}" if differs else ""
