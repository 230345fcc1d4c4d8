"""How near a straight piece's axis comes to a solid body: a block of any direction, a post, and the room a door leaf sweeps.

Distances are signed: inside a body they are negative, the way to its nearest face. The signed distance from a convex body
is a convex function of the point, and so of the share along a segment: it has one least value, which is found to 1e-7 in.
or better. All figures are inches.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from structures.frame.vectors import Vector, along, dot, length, subtract

EXACT_IN = 1e-7
GOLDEN = (math.sqrt(5) - 1) / 2

Nearest = tuple[float, float]      # signed distance, and the share along the segment where it is met
Rows = tuple[tuple[float, float, float], ...]     # along each of a block's axes: where a segment begins, its way, half the block


class Solid(Protocol):
    """A convex body."""

    def bounds(self) -> tuple[Vector, Vector]:
        """The lowest and the highest corner of the upright box around it."""

    def nearest(self, a: Vector, b: Vector) -> Nearest:
        """The least signed distance of the segment from a to b."""


@dataclass(frozen=True, slots=True)
class Block:
    """A rectangular block about `centre`: three unit directions square to one another, and half its size along each."""

    centre: Vector
    directions: tuple[Vector, Vector, Vector]
    halves: Vector

    @classmethod
    def upright(cls, one: Vector, other: Vector) -> Block:
        """The block between two opposite corners, square to the axes."""
        halves = tuple(abs(p - q) / 2 for p, q in zip(one, other, strict=True))
        return cls(along(one, other, 0.5), ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
                   (halves[0], halves[1], halves[2]))

    def bounds(self) -> tuple[Vector, Vector]:
        """The lowest and the highest corner of the upright box around it."""
        reach = [sum(abs(way[axis]) * half for way, half in zip(self.directions, self.halves, strict=True))
                 for axis in range(3)]
        x, y, z = self.centre
        return (x - reach[0], y - reach[1], z - reach[2]), (x + reach[0], y + reach[1], z + reach[2])

    def nearest(self, a: Vector, b: Vector) -> Nearest:
        """The least signed distance of the segment from a to b.

        The slope of the squared distance rises with the share, and is straight between the places where the segment
        passes a face's plane: its zero is exact. Only for a segment that enters the block its depth is searched for.
        """
        start, way = subtract(a, self.centre), subtract(b, a)
        rows = tuple((dot(start, one), dot(way, one), half) for one, half in zip(self.directions, self.halves, strict=True))
        share = _level(rows)
        gap = math.hypot(*(_excess(p + share * d, half) for p, d, half in rows))
        if gap > EXACT_IN:
            return gap, share
        return least_convex(lambda at: _signed(rows, at), length(way))


def _signed(rows: Rows, share: float) -> float:
    """The signed distance of one point of a segment."""
    over = [abs(p + share * d) - half for p, d, half in rows]
    return max(over) if max(over) <= 0 else math.hypot(*(max(one, 0.0) for one in over))


def _excess(value: float, half: float) -> float:
    """How far a coordinate lies beyond the nearer of two faces; 0 between them."""
    return value - half if value > half else value + half if value < -half else 0.0


def _slope(rows: Rows, share: float) -> float:
    """Half the slope of the squared distance from a block; asked for often, so written out."""
    total = 0.0
    for p, d, half in rows:
        value = p + share * d
        if value > half:
            total += d * (value - half)
        elif value < -half:
            total += d * (value + half)
    return total


def _level(rows: Rows) -> float:
    """The share where the squared distance is level, or the end that is nearest where it rises or falls throughout."""
    if _slope(rows, 0.0) >= 0:
        return 0.0
    if _slope(rows, 1.0) <= 0:
        return 1.0
    planes = ((face - p) / d for p, d, half in rows if d for face in (-half, half))
    knots = [0.0, *sorted(share for share in planes if 0 < share < 1), 1.0]
    for low, high in itertools.pairwise(knots):
        below, above = _slope(rows, low), _slope(rows, high)
        if above >= 0:
            return low + (high - low) * below / (below - above)
    return 1.0


@dataclass(frozen=True, slots=True)
class Quarter:
    """A quarter of an upright cylinder about the hinge (x, y), from `z0` up to `z1`.

    It lies to the side `across` (+1 or -1 in x) and `forth` (+1 or -1 in y) of the hinge.
    """

    x: float
    y: float
    radius_in: float
    across: int
    forth: int
    z0: float
    z1: float

    def bounds(self) -> tuple[Vector, Vector]:
        """The lowest and the highest corner of the upright box around it."""
        xs = sorted((self.x, self.x + self.across * self.radius_in))
        ys = sorted((self.y, self.y + self.forth * self.radius_in))
        return (xs[0], ys[0], self.z0), (xs[1], ys[1], self.z1)

    def nearest(self, a: Vector, b: Vector) -> Nearest:
        """The least signed distance of the segment from a to b, by golden section."""
        return least_convex(lambda share: self.distance(along(a, b, share)), length(subtract(b, a)))

    def distance(self, point: Vector) -> float:
        """The signed distance of one point."""
        flat = self._in_plan(self.across * (point[0] - self.x), self.forth * (point[1] - self.y))
        rise = max(self.z0 - point[2], point[2] - self.z1)
        return max(flat, rise) if flat <= 0 or rise <= 0 else math.hypot(flat, rise)

    def _in_plan(self, u: float, v: float) -> float:
        """The signed distance from the quarter disc, u and v counted from the hinge along its two straight sides."""
        if u >= 0 and v >= 0:
            out = math.hypot(u, v) - self.radius_in
            return max(out, -u, -v) if out <= 0 else out
        beyond_u, beyond_v = (max(-w, w - self.radius_in, 0.0) for w in (u, v))
        return math.hypot(beyond_u, beyond_v)


@dataclass(frozen=True, slots=True)
class Pillar:
    """An upright cylinder about (x, y), from `z0` up to `z1`, flat at both ends."""

    x: float
    y: float
    radius_in: float
    z0: float
    z1: float

    def bounds(self) -> tuple[Vector, Vector]:
        """The lowest and the highest corner of the upright box around it."""
        r = self.radius_in
        return (self.x - r, self.y - r, self.z0), (self.x + r, self.y + r, self.z1)

    def nearest(self, a: Vector, b: Vector) -> Nearest:
        """The least signed distance of the segment from a to b, by golden section."""
        return least_convex(lambda share: self.distance(along(a, b, share)), length(subtract(b, a)))

    def distance(self, point: Vector) -> float:
        """The signed distance of one point."""
        out = math.hypot(point[0] - self.x, point[1] - self.y) - self.radius_in
        rise = max(self.z0 - point[2], point[2] - self.z1)
        return max(out, rise) if out <= 0 or rise <= 0 else math.hypot(out, rise)


def least_convex(distance: Callable[[float], float], long: float, first: float = 0.0, last: float = 1.0) -> Nearest:
    """The least value of a convex function of the share, `first` to `last`, by golden section.

    `long` is the segment's length: a distance changes by no more than its point moves, so that the value is exact to
    `EXACT_IN` once the bracket is that short.
    """
    low, high = first, last
    left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_left, at_right = distance(left), distance(right)
    while (high - low) * long > EXACT_IN:
        if at_left <= at_right:
            high, right, at_right = right, left, at_left
            left = high - GOLDEN * (high - low)
            at_left = distance(left)
        else:
            low, left, at_left = left, right, at_right
            right = low + GOLDEN * (high - low)
            at_right = distance(right)
    return min((distance(share), share) for share in (first, (low + high) / 2, last))
