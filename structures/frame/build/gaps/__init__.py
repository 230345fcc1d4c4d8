"""Gaps: how near every brace, tie, web and purlin comes to what else is there, less the tubes' radii.

What touches by design is no gap: a piece and the hoop it lands on (its flattened end is looked at instead) or is clamped
to, a purlin and the hoops it lies under, a web and its tie. Neighbours are looked for up to one bay beyond each end of a
piece; what is farther along is farther than a bay. Work grows with the bays: pieces find their neighbours by the hoops
they lie between, and a situation that comes again is measured once.
"""

from __future__ import annotations

import dataclasses
from typing import Any

from structures.frame.build.frame import Frame
from structures.frame.build.gaps.around import Around
from structures.frame.build.gaps.measure import Gauge
from structures.frame.build.gaps.nears import Items, Situation
from structures.frame.build.gaps.rods import Rod, pieces_of, runs_of
from structures.frame.build.gaps.tightest import Tightest

__all__ = ["measure_gaps"]


def measure_gaps(frame: Frame) -> None:
    """Fill the gaps of every brace and tie and the frame's tightest ones; refuse a piece that runs through another.

    Of pieces in like situations only the first is refused: moving a landing of their part moves them all.
    """
    pieces, runs = pieces_of(frame), runs_of(frame)
    around, tightest = Around(frame, pieces, runs), Tightest()
    gauge = Gauge(frame, around, tightest)
    written = {rod.id: _written(rod, around.hood(rod).items, gauge.situation(rod)) for rod in (*pieces, *runs)}
    frame.braces = [dataclasses.replace(brace, **written[brace.id]) for brace in frame.braces]
    frame.ties = [dataclasses.replace(tie, **written[tie.id]) for tie in frame.ties]
    frame.tight = tightest.listed()


def _written(rod: Rod, items: Items, found: Situation) -> dict[str, Any]:
    """What a document says of one piece: its least gap to each kind of neighbour, the least of all, and to what."""
    return {"gaps": found.gaps, "clearance_in": found.least.gap_in, "clearance_to": found.least.word(rod, items)}
