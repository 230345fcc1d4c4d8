"""The least gap of a piece to each kind of neighbour, a situation that comes again measured only once."""

from __future__ import annotations

import math

from structures.frame.build.frame import Frame
from structures.frame.build.gaps.around import Around, Body
from structures.frame.build.gaps.nears import FILM, HOOP, OWN, Items, Near, Situation
from structures.frame.build.gaps.outline import Outline
from structures.frame.build.gaps.rods import Rod
from structures.frame.build.gaps.tightest import Tightest
from structures.frame.lengths import inches_only
from structures.frame.refusal import Refusal
from structures.frame.vectors import along, segment_nearest

SLIGHT_IN = 1e-6
EQUAL_IN = 1e-9      # of two neighbours as near as this, the first counts


class Gauge:
    """Measures gaps, offers each new one to the tightest, and refuses what runs through another."""

    def __init__(self, frame: Frame, around: Around, tightest: Tightest):
        self._frame = frame
        self._around = around
        self._tightest = tightest
        self._outline = Outline(frame.profile)
        self._seen: dict[tuple[object, ...], Situation] = {}

    def situation(self, rod: Rod) -> Situation:
        """The situation of a piece, measured where it is new."""
        hood = self._around.hood(rod)
        key = rod.shape, hood.key
        found = self._seen.get(key)
        if found is None:
            nears = self._measure(rod, hood.items)
            self._report(rod, hood.items, nears)
            found = self._seen[key] = Situation({near.kind: near.gap_in for near in nears}, min(nears, key=_gap))
        return found

    def _measure(self, rod: Rod, others: Items) -> list[Near]:
        frame = self._frame
        least: dict[str, Near] = {}

        def offer(kind: str, gap: float, share: float, pick: int) -> None:
            if kind not in least or gap < least[kind].gap_in - EQUAL_IN:
                least[kind] = Near(kind, gap, along(rod.start, rod.end, share), pick)

        depth, share = self._outline.film(rod.start, rod.end)
        offer(FILM, depth + frame.hoop_radius_in - rod.radius_in, share, 0)
        if rod.own_in is not None:
            offer(OWN, rod.own_in, 0.0, 0)
        for hoop in range(max(rod.first - 1, 1), min(rod.last + 1, frame.hoops) + 1):
            if hoop not in rod.lands:
                away, share = self._outline.hoop(rod.start, rod.end, frame.y(hoop))
                offer(HOOP, away - frame.hoop_radius_in - rod.radius_in, share, hoop - rod.first)
        # The likely nearest first, so that most of the others need no measuring.
        for apart, pick in sorted((_apart(rod, other), pick) for pick, other in enumerate(others)):
            other = others[pick]
            known = least.get(other.kind)
            if (known is None or apart < known.gap_in) and not self._around.touch(rod, other):
                offer(other.kind, *_between(rod, other), pick)
        return list(least.values())

    def _report(self, rod: Rod, others: Items, nears: list[Near]) -> None:
        """Offer a new situation's gaps to the tightest ones, and refuse those that are none."""
        for near in nears:
            self._tightest.offer(rod, near, others)
            if near.gap_in < -SLIGHT_IN:
                # Rounded up, so that moving by the figure is enough.
                overlap = inches_only(math.ceil(-near.gap_in * 16) / 16)
                remedy = "move one of them" if rod.sticks else "move a landing"
                self._frame.refusals.append(Refusal(
                    "runs-through", "{piece} runs through {near} by {overlap} in.: {remedy} so that they clear.",
                    {"piece": rod.word, "near": near.name(rod, others), "overlap": overlap, "remedy": remedy}, "stations",
                ))


def _gap(near: Near) -> float:
    return near.gap_in


def _apart(rod: Rod, other: Rod | Body) -> float:
    """How far at least the two are apart: the boxes around them along the axis that parts them most."""
    return max(other.low[0] - rod.high[0], rod.low[0] - other.high[0], other.low[1] - rod.high[1],
               rod.low[1] - other.high[1], other.low[2] - rod.high[2], rod.low[2] - other.high[2])


def _between(rod: Rod, other: Rod | Body) -> tuple[float, float]:
    """The gap of a piece to a neighbour, and the share of its axis where that is."""
    if isinstance(other, Body):
        away, share = other.solid.nearest(rod.start, rod.end)
        return away - rod.radius_in, share
    away, share = segment_nearest(rod.start, rod.end, other.start, other.end)
    return away - rod.radius_in - other.radius_in, share
