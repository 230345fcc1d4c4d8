"""Landings: where a brace end meets a hoop, solved so that holes lie a made length apart."""

from __future__ import annotations

import math
from dataclasses import dataclass

from structures.frame.build.frame import Frame
from structures.frame.document import Point
from structures.frame.vectors import Vector, cross, dot, length, subtract, unit

TOLERANCE_IN = 1e-9
STEPS = 40


@dataclass(frozen=True, slots=True)
class Band:
    """The band of one end: on hoop number `hoop` of a side, of a piece that goes toward hoop number `toward`.

    Its bolt hole lies `lengthwise_in` from the hoop's axis toward that hoop, and `inward_in` square to the tube and inside
    it; one of the two is 0.
    """

    side: str
    hoop: int
    toward: int
    lengthwise_in: float
    inward_in: float = 0.0


@dataclass(frozen=True, slots=True)
class Turn:
    """How the two ends of a piece lie to one another. `bend_from_deg`, `bend_to_deg`: asin of direction on normal."""

    twist_deg: float
    hand: str
    bend_from_deg: float
    bend_to_deg: float


def outward(frame: Frame, side: str, s: float) -> Vector:
    """Unit outward normal of the hoop at a landing: the normal of the plane spanned by its tangent and the length."""
    nu, nz = frame.profile.normal(s)
    return (-nu if side == "left" else nu), 0.0, nz


def hole(frame: Frame, band: Band, s: float) -> Point:
    """Where the bolt hole lies with the band's centre s inches up the tube from the foot."""
    y = frame.y(band.hoop) + math.copysign(band.lengthwise_in, band.toward - band.hoop)
    return frame.point(band.side, s, y, band.inward_in)


def turn(start: Point, end: Point, normal_start: Vector, normal_end: Vector) -> Turn:
    """Twist, hand and bend of a piece from its holes and the two landing planes' normals.

    With d the piece's direction and m each normal less its part along d, made unit: twist = atan2(d.(m1 x m2), m1.m2);
    positive turns like a right-hand screw, read alike from either end.
    """
    d = unit(subtract(end, start))
    m1 = _square(normal_start, d)
    m2 = _square(normal_end, d)
    twist = math.degrees(math.atan2(dot(d, cross(m1, m2)), dot(m1, m2)))
    hand = "none" if abs(twist) < 0.05 else "right" if twist > 0 else "left"
    return Turn(
        twist, hand,
        math.degrees(math.asin(max(-1.0, min(1.0, dot(d, normal_start))))),
        math.degrees(math.asin(max(-1.0, min(1.0, dot(d, normal_end))))),
    )


def _square(normal: Vector, d: Vector) -> Vector:
    part = dot(normal, d)
    return unit((normal[0] - part * d[0], normal[1] - part * d[1], normal[2] - part * d[2]))


def follow(frame: Frame, fixed: Point, band: Band, near_s: float, made_in: float) -> float | None:
    """The place s along the tube whose hole lies `made_in` from `fixed`, nearest to `near_s`; None if there is none.

    Newton's method on the squared distance; its derivative is twice (hole - fixed) along the tangent. A hole inside the
    tube moves less than the band does where the tube bends: by one less its depth over the radius.
    """
    s = near_s
    sign = -1.0 if band.side == "left" else 1.0
    for _ in range(STEPS):
        away = subtract(hole(frame, band, s), fixed)
        tu, tz = frame.profile.tangent(s)
        slope = 2 * (away[0] * sign * tu + away[2] * tz) * (1 - band.inward_in * frame.profile.bow(s))
        miss = dot(away, away) - made_in * made_in
        if abs(slope) < 1e-6:
            return None
        step = miss / slope
        s -= step
        if not -1.0 <= s <= frame.half_in + 1.0:
            return None
        if abs(step) < TOLERANCE_IN:
            return s
    return None


def distance(a: Point, b: Point) -> float:
    """The straight distance of two points, in inches."""
    return length(subtract(a, b))
