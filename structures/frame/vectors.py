"""The little vector arithmetic that the frame needs, on plain (x, y, z) tuples."""

from __future__ import annotations

import math

Vector = tuple[float, float, float]


def subtract(a: Vector, b: Vector) -> Vector:
    """The vector from b to a."""
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def dot(a: Vector, b: Vector) -> float:
    """The scalar product: lengths times the cosine between them."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """The vector product, square to both, by the right-hand rule."""
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def length(a: Vector) -> float:
    """The length of a vector."""
    return math.hypot(*a)


def unit(a: Vector) -> Vector:
    """The same direction, one long. A vector of no length has none and raises `ZeroDivisionError`."""
    size = math.hypot(*a)
    return a[0] / size, a[1] / size, a[2] / size


def along(a: Vector, b: Vector, share: float) -> Vector:
    """The point that share (0 to 1) of the way from a to b."""
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share


def segment_gap(a0: Vector, a1: Vector, b0: Vector, b1: Vector) -> float:
    """Shortest distance between two segments (Ericson, Real-Time Collision Detection, section 5.1.9; from memory)."""
    d1, d2, r = subtract(a1, a0), subtract(b1, b0), subtract(a0, b0)
    a, e, f = dot(d1, d1), dot(d2, d2), dot(d2, r)
    c, b = dot(d1, r), dot(d1, d2)
    denominator = a * e - b * b
    s = _clamp((b * f - c * e) / denominator) if denominator > 1e-12 else 0.0
    t = (b * s + f) / e
    if t < 0:
        t, s = 0.0, _clamp(-c / a)
    elif t > 1:
        t, s = 1.0, _clamp((b - c) / a)
    return length(subtract(along(a0, a1, s), along(b0, b1, t)))


def point_gap_2d(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    """Shortest distance of a point from a segment in a plane."""
    dx, dz = b[0] - a[0], b[1] - a[1]
    size = dx * dx + dz * dz
    share = _clamp(((p[0] - a[0]) * dx + (p[1] - a[1]) * dz) / size) if size else 0.0
    return math.hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dz)


def _clamp(value: float) -> float:
    return min(1.0, max(0.0, value))
