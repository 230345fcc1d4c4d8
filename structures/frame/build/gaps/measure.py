"""The least gap of a piece to each kind of neighbour, a situation that comes again measured only once."""

from __future__ import annotations

import math
from typing import NamedTuple

from structures.frame.build.frame import Frame
from structures.frame.build.gaps.around import Around, Body
from structures.frame.build.gaps.outline import film_nearest, hoop_nearest
from structures.frame.build.gaps.rods import Rod
from structures.frame.document import Point
from structures.frame.lengths import inches_only
from structures.frame.refusal import Refusal
from structures.frame.vectors import along, segment_nearest

SLIGHT_IN = 1e-6
SAME_IN = 1e-9       # of two neighbours as near as this, the first counts
FILM, OWN, HOOP = "film", "own hoop", "hoop"

Situation = tuple[object, ...]


class Near(NamedTuple):
    """The nearest of one kind, as every piece in like situation has it.

    `at` is counted from the piece's first hoop, and `pick` is the number of the neighbour, or of the hoop from the first one.
    """

    kind: str
    gap_in: float
    at: Point
    pick: int


class Gap(NamedTuple):
    """The nearest of one kind to one piece.

    `at` lies on the piece's axis. `word` is what is near, as people call it or by its id, `near` its place id where it has
    one, and `role` its role or kind.
    """

    kind: str
    gap_in: float
    at: Point
    word: str
    near: str
    role: str


class Gauge:
    """Measures gaps, and refuses what runs through another."""

    def __init__(self, frame: Frame, around: Around):
        self._frame = frame
        self._around = around
        self._seen: dict[Situation, list[Near]] = {}

    def gaps(self, rod: Rod) -> list[Gap]:
        """The least gap of a piece to each kind of neighbour that it has."""
        others = self._around.near(rod)
        situation = (rod.shape, rod.first > 1, rod.last < self._frame.hoops, *(_place(rod, other) for other in others))
        found = self._seen.get(situation)
        if found is not None:
            return [self._gap(rod, near, others) for near in found]
        found = self._seen[situation] = self._measure(rod, others)
        gaps = [self._gap(rod, near, others) for near in found]
        for gap, near in zip(gaps, found, strict=True):
            if gap.gap_in < -SLIGHT_IN:
                self._refuse(rod, gap, _named(gap, near, others))
        return gaps

    def _measure(self, rod: Rod, others: list[Rod | Body]) -> list[Near]:
        frame, profile = self._frame, self._frame.profile
        least: dict[str, Near] = {}

        def offer(kind: str, gap: float, share: float, pick: int) -> None:
            if kind not in least or gap < least[kind].gap_in - SAME_IN:
                x, y, z = along(rod.start, rod.end, share)
                least[kind] = Near(kind, gap, (x, y - frame.y(rod.first), z), pick)

        depth, share = film_nearest(profile, rod.start, rod.end)
        offer(FILM, depth + frame.hoop_radius_in - rod.radius_in, share, 0)
        if rod.own_in is not None:
            offer(OWN, rod.own_in, 0.0, 0)
        for hoop in range(max(rod.first - 1, 1), min(rod.last + 1, frame.hoops) + 1):
            if hoop not in rod.lands:
                away, share = hoop_nearest(profile, rod.start, rod.end, frame.y(hoop))
                offer(HOOP, away - frame.hoop_radius_in - rod.radius_in, share, hoop - rod.first)
        for pick, other in enumerate(others):
            if other.kind not in least or _apart(rod, other) < least[other.kind].gap_in:
                offer(other.kind, *_between(rod, other), pick)
        return list(least.values())

    def _gap(self, rod: Rod, near: Near, others: list[Rod | Body]) -> Gap:
        """A situation's nearest, as this one piece has it."""
        x, y, z = near.at
        at = x, y + self._frame.y(rod.first), z
        if near.kind == FILM:
            return Gap(FILM, near.gap_in, at, FILM, FILM, FILM)
        if near.kind == OWN:
            return Gap(OWN, near.gap_in, at, rod.own, rod.own, OWN)
        if near.kind == HOOP:
            word = f"hoop {rod.first + near.pick}"
            return Gap(HOOP, near.gap_in, at, word, word, HOOP)
        other = others[near.pick]
        if isinstance(other, Body):
            return Gap(near.kind, near.gap_in, at, other.id, other.id, near.kind)
        return Gap(near.kind, near.gap_in, at, other.word, other.stick_at(at[1]), other.role)

    def _refuse(self, rod: Rod, gap: Gap, near: str) -> None:
        # Rounded up, so that moving by the figure is enough.
        overlap = inches_only(math.ceil(-gap.gap_in * 16) / 16)
        remedy = "move one of them" if rod.sticks else "move a landing"
        self._frame.refusals.append(Refusal(
            "runs-through", "{piece} runs through {near} by {overlap} in.: {remedy} so that they clear.",
            {"piece": rod.word, "near": near, "overlap": overlap, "remedy": remedy}, "stations",
        ))


def _place(rod: Rod, other: Rod | Body) -> object:
    """Where a neighbour is for a piece: equal places are equally far. What runs along the whole piece is so wherever the piece is."""
    if isinstance(other, Rod) and not other.sticks:
        return other.shape, other.first - rod.first
    if other.y0 <= rod.y0 and rod.y1 <= other.y1:
        return other.id
    return other.id, rod.first


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


def _named(gap: Gap, near: Near, others: list[Rod | Body]) -> str:
    """What a piece runs through, in words."""
    if gap.kind == FILM:
        return "the film line"
    return gap.word if gap.kind in (OWN, HOOP) else others[near.pick].word
