"""Marks to draw on the tubes before anything is lifted: for hoops that have the same ones, piece by piece."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Mark
from structures.frame.sheet.braces import hoops_said
from structures.frame.sheet.telling import SAME_IN, Telling, station_words

_SIDES = {"both": "both sides", "left": "left", "right": "right", "": "the middle"}
TWO = 2
# What has edges to mark; a bolt's hole, a bracket or a channel is marked at its middle.
_EDGED = ("band", "connector", "strap", "clamp")


@dataclass(frozen=True, slots=True)
class MarkRow:
    """One mark: on which piece, what goes there, from where it is measured; `edge` is the edge that is met first, "" for
    what is marked at its middle."""

    piece: str
    what: str
    place: str
    side: str
    measured: str
    edge: str
    centre: str
    from_foot: str


@dataclass(frozen=True, slots=True)
class MarkGroup:
    """Hoops whose marks are all alike."""

    hoops: str
    count: int
    rows: tuple[MarkRow, ...]


def mark_groups(telling: Telling) -> tuple[MarkGroup, ...]:
    """Groups of hoops with equal marks, from hoop 1; in each the marks from the foot upward."""
    marks = [mark for mark in telling.document.marks if mark.kind != "seam"]
    alike: dict[tuple[int, ...], list[int]] = {}
    for hoop in range(1, telling.document.measures.hoops + 1):
        alike.setdefault(tuple(n for n, mark in enumerate(marks) if hoop in mark.hoops), []).append(hoop)
    return tuple(
        MarkGroup(hoops_said(hoops).capitalize(), len(hoops), tuple(_row(telling, mark, [marks[m] for m in which])
                                                       for mark in (marks[n] for n in which)))
        for which, hoops in alike.items() if which
    )


def _row(telling: Telling, mark: Mark, group: list[Mark]) -> MarkRow:
    at_datum = mark.from_datum_in < SAME_IN
    return MarkRow(
        piece=telling.section(mark.piece, both=mark.side == "both"), what=mark.name + butted_words(mark, group),
        place=station_words(mark.code),
        side=_SIDES[mark.side], measured="on the ridge mark" if at_datum and mark.datum == "ridge" else telling.measured(mark),
        edge=_edge(telling, mark, at_datum),
        centre=telling.figure(abs(mark.from_datum_in)), from_foot=telling.figure(mark.from_foot_in),
    )


def butted_words(mark: Mark, group: list[Mark]) -> str:
    """ ", lower": two bands at one station of one hoop lie one against the other."""
    twins = [one for one in group if (one.code, one.kind, one.side) == (mark.code, mark.kind, mark.side)]
    if len(twins) != TWO or mark.kind != "band":
        return ""
    return ", lower" if mark.from_foot_in == min(one.from_foot_in for one in twins) else ", upper"


def _edge(telling: Telling, mark: Mark, at_datum: bool) -> str:
    """The edge's figure; half the width of what sits right on the datum."""
    if mark.kind not in _EDGED:
        return ""
    if not at_datum:
        return telling.figure(mark.edge_in)
    widths = [one.width_in for one in telling.document.hardware if (one.kind, one.name) == (mark.kind, mark.name)]
    return f"{telling.small(widths[0] / 2)} each way" if widths and widths[0] else ""
