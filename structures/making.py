"""What a structure is made of, told row by row, and what one choice changed about it.

Pure: documents in, rows out. Lengths in inches, weights in pounds.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from structures.frame.document import Document, Line
from structures.frame.said import Said


@dataclass(frozen=True, slots=True)
class Difference:
    """What the second document has more than the first: pieces, bands and parts may be negative.

    `ids` are the members that are new, by place id.
    """

    pieces: int
    bands: int
    parts: dict[str, int]
    ids: frozenset[str]

    @property
    def any(self) -> bool:
        return bool(self.parts)


def difference(before: Document, after: Document) -> Difference:
    """What changed from one document to another, part by part (parts whose count is the same are left out)."""
    parts = Counter({line.part: line.quantity for line in after.lines})
    parts.subtract({line.part: line.quantity for line in before.lines})
    return Difference(
        after.totals.pieces - before.totals.pieces,
        _bands(after) - _bands(before),
        {part: count for part, count in parts.items() if count},
        frozenset(_pieces(after) - _pieces(before)),
    )


def _bands(document: Document) -> int:
    return sum(joint.kind == "band" for joint in document.joints)


def _pieces(document: Document) -> set[str]:
    tubes = {member.id for member in document.members}
    return tubes | {brace.id for brace in document.braces} | {tie.id for tie in document.ties}


@dataclass(frozen=True, slots=True)
class KitRow:
    """One part of the kit as a page shows it; `added` is what the last choice changed about its quantity."""

    line: Line
    added: int
    made_of: tuple[Said, ...]

    @property
    def lit(self) -> bool:
        return self.added != 0


def kit_rows(document: Document, changed: Difference | None = None) -> list[KitRow]:
    """Every part in the kit's own order, with its reasons in words."""
    added = changed.parts if changed else {}
    return [
        KitRow(line, added.get(line.part, 0), tuple(because.words for because in line.because))
        for line in document.lines
    ]


def lit_pieces(document: Document, changed: Difference | None) -> frozenset[str]:
    """The pieces that the last choice brought, as place ids.

    When the whole size changed nearly every piece is new, and lighting them all would show nothing.
    """
    if changed is None or len(changed.ids) > document.totals.pieces // 2:
        return frozenset()
    return changed.ids


@dataclass(frozen=True, slots=True)
class WeightRow:
    """Tube of one part: how many, how long each is, what one and all of them weigh."""

    part: str
    name: str
    count: int
    length_in: float | None
    each_lb: float | None
    weight_lb: float | None


def weight_rows(document: Document) -> list[WeightRow]:
    """What is made of tube, heaviest first; fittings are one figure in the totals."""
    rows = [
        WeightRow(
            line.part, line.name, line.quantity, line.length_in,
            None if line.weight_lb is None or not line.quantity else line.weight_lb / line.quantity, line.weight_lb,
        )
        for line in document.lines
        if line.tube
    ]
    return sorted(rows, key=lambda row: -(row.weight_lb or 0.0))


def code_of(place_id: str) -> str:
    """The location code of a place id: "H2-R-mid:band:1" is at "H2-R-mid"."""
    return place_id.partition(":")[0]
