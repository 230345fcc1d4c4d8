"""The little vector arithmetic that the frame needs, on plain (x, y, z) tuples."""

from __future__ import annotations

import math

Vector = tuple[float, float, float]

PARALLEL = 1e-9      # squared sine below which two directions are taken for nearly parallel


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


def segment_nearest(a0: Vector, a1: Vector, b0: Vector, b1: Vector) -> tuple[float, float]:
    """Shortest distance between two segments, and the share of the first one at which it is met.

    Ericson, Real-Time Collision Detection, section 5.1.9 (from memory). Where the two are nearly parallel its division
    loses digits, but then the shortest way also begins or ends at an end of one of them, so the four ends decide. A
    segment of no length is a point.
    """
    ux, uy, uz = a1[0] - a0[0], a1[1] - a0[1], a1[2] - a0[2]
    vx, vy, vz = b1[0] - b0[0], b1[1] - b0[1], b1[2] - b0[2]
    rx, ry, rz = a0[0] - b0[0], a0[1] - b0[1], a0[2] - b0[2]
    a, e, b = ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz, ux * vx + uy * vy + uz * vz
    f, c = vx * rx + vy * ry + vz * rz, ux * rx + uy * ry + uz * rz
    square = a * e - b * b
    if square <= PARALLEL * a * e:
        return _nearest_end(a0, a1, b0, b1)
    s = min(1.0, max(0.0, (b * f - c * e) / square))
    t = (b * s + f) / e
    if t < 0.0:
        t, s = 0.0, min(1.0, max(0.0, -c / a))
    elif t > 1.0:
        t, s = 1.0, min(1.0, max(0.0, (b - c) / a))
    return math.hypot(rx + s * ux - t * vx, ry + s * uy - t * vy, rz + s * uz - t * vz), s


def _nearest_end(a0: Vector, a1: Vector, b0: Vector, b1: Vector) -> tuple[float, float]:
    return min(
        point_nearest(b0, a0, a1), point_nearest(b1, a0, a1),
        (point_nearest(a0, b0, b1)[0], 0.0), (point_nearest(a1, b0, b1)[0], 1.0),
    )


def point_nearest(p: Vector, a: Vector, b: Vector) -> tuple[float, float]:
    """Shortest distance of a point from a segment, and the share of the segment at which it is met."""
    way = subtract(b, a)
    size = dot(way, way)
    share = min(1.0, max(0.0, dot(subtract(p, a), way) / size)) if size else 0.0
    return length(subtract(p, along(a, b, share))), share
