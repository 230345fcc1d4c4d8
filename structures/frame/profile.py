"""Half a hoop: straight and arc segments from ground to ridge along the tube's centre line.

A `Profile` is measured by s, the length along the tube from the foot, in inches, and by (u, z): u is the distance from
the ridge plane, z the height above ground. Left is x = -u, right is x = +u.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any


@dataclass(frozen=True, slots=True)
class Segment:
    """A piece of the profile: from (u0, z0) in direction `heading` (radians from straight up, toward the ridge).

    `radius_in` is 0 for a straight piece; an arc turns toward the ridge.
    """

    length_in: float
    radius_in: float
    u0: float
    z0: float
    heading: float

    def heading_at(self, s: float) -> float:
        return self.heading + (s / self.radius_in if self.radius_in else 0.0)

    def at(self, s: float) -> tuple[float, float]:
        """The point (u, z), s inches into the segment."""
        if not self.radius_in:
            return self.u0 - s * math.sin(self.heading), self.z0 + s * math.cos(self.heading)
        after = self.heading_at(s)
        return (
            self.u0 + self.radius_in * (math.cos(after) - math.cos(self.heading)),
            self.z0 + self.radius_in * (math.sin(after) - math.sin(self.heading)),
        )

    def nearest(self, u: float, z: float) -> float:
        """Where along the segment, or past its ends, the point (u, z) lies square to it."""
        if not self.radius_in:
            return (z - self.z0) * math.cos(self.heading) - (u - self.u0) * math.sin(self.heading)
        cu = self.u0 - self.radius_in * math.cos(self.heading)
        cz = self.z0 - self.radius_in * math.sin(self.heading)
        return self.radius_in * (math.atan2(z - cz, u - cu) - self.heading)


@dataclass(frozen=True)
class Profile:
    """Segments from foot to ridge, each beginning where the one before ends."""

    segments: tuple[Segment, ...]

    @classmethod
    def chain(cls, foot_u: float, parts: Iterable[tuple[str, float, float]], lean_deg: float = 0.0) -> Profile:
        """Join ("line", length, 0) and ("arc", length, radius) parts, each tangent to the one before."""
        segments = []
        u, z, heading = foot_u, 0.0, math.radians(lean_deg)
        for kind, length, radius in parts:
            segment = Segment(length, radius if kind == "arc" else 0.0, u, z, heading)
            segments.append(segment)
            u, z = segment.at(length)
            heading = segment.heading_at(length)
        return cls(tuple(segments))

    @classmethod
    def read(cls, data: Iterable[Mapping[str, Any]]) -> Profile:
        """The profile that a document holds."""
        return cls(tuple(Segment(d["length_in"], d["radius_in"], d["u0"], d["z0"], d["heading"]) for d in data))

    def write(self) -> tuple[dict[str, Any], ...]:
        """The profile as a document holds it."""
        return tuple(
            {"kind": "arc" if g.radius_in else "line", "length_in": g.length_in, "radius_in": g.radius_in,
             "u0": g.u0, "z0": g.z0, "heading": g.heading}
            for g in self.segments
        )

    @cached_property
    def starts(self) -> tuple[float, ...]:
        """Where each segment begins, along the tube from the foot."""
        starts, s = [], 0.0
        for segment in self.segments:
            starts.append(s)
            s += segment.length_in
        return tuple(starts)

    @cached_property
    def half_in(self) -> float:
        """The developed length of one half: the ridge mark."""
        return math.fsum(segment.length_in for segment in self.segments)

    @cached_property
    def peak_in(self) -> float:
        return self.point(self.half_in)[1]

    def _find(self, s: float) -> tuple[Segment, float]:
        index = max(bisect_right(self.starts, s) - 1, 0)
        return self.segments[index], s - self.starts[index]

    def point(self, s: float) -> tuple[float, float]:
        """(u, z) at s inches from the foot."""
        segment, into = self._find(s)
        return segment.at(into)

    def heading(self, s: float) -> float:
        """The tube's direction at s, in radians from straight up, toward the ridge."""
        segment, into = self._find(s)
        return segment.heading_at(into)

    def tangent(self, s: float) -> tuple[float, float]:
        """Unit (u, z) direction along the tube, foot to ridge."""
        heading = self.heading(s)
        return -math.sin(heading), math.cos(heading)

    def normal(self, s: float) -> tuple[float, float]:
        """Unit (u, z) direction square to the tube, outward."""
        heading = self.heading(s)
        return math.cos(heading), math.sin(heading)

    def depth(self, u: float, z: float) -> float:
        """How far the point lies inside the tube's axis, along the normal that meets it; negative is outside."""
        return self.place(u, z)[1]

    def place(self, u: float, z: float) -> tuple[float, float]:
        """The place along the tube that is nearest to a point, in inches from the foot, and how far inside it the point lies.

        Of each segment the nearest point is found in closed form: the foot of the perpendicular, or the ray from an
        arc's centre. The nearest of all decides.
        """
        nearest, depth, place = math.inf, 0.0, 0.0
        for start, segment in zip(self.starts, self.segments, strict=True):
            s = min(max(segment.nearest(u, z), 0.0), segment.length_in)
            pu, pz = segment.at(s)
            away = math.hypot(u - pu, z - pz)
            if away < nearest:
                heading = segment.heading_at(s)
                inside = (pu - u) * math.cos(heading) + (pz - z) * math.sin(heading)
                nearest, depth, place = away, math.copysign(away, inside), start + s
        return place, depth

    def bow(self, s: float) -> float:
        """How sharply the tube bends at s: one over the radius, 0 on a straight piece."""
        radius = self._find(s)[0].radius_in
        return 1 / radius if radius else 0.0

    def segment_at(self, s: float) -> int:
        """The number, from 0, of the segment that s lies on."""
        return max(bisect_right(self.starts, s) - 1, 0)

    def polyline(self, s_from: float, s_to: float, tolerance_in: float = 0.05) -> list[tuple[float, float]]:
        """Points (u, z) along the tube whose chords leave the curve by no more than the tolerance."""
        return [self.point(s) for s in self.stops(s_from, s_to, tolerance_in)]

    def stops(self, s_from: float, s_to: float, tolerance_in: float) -> list[float]:
        """How far along the tube those points lie."""
        marks = [s_from]
        for start, segment in zip(self.starts, self.segments, strict=True):
            end = start + segment.length_in
            low, high = max(start, s_from), min(end, s_to)
            if high <= low:
                continue
            steps = 1
            if segment.radius_in:
                step = 2 * math.sqrt(2 * segment.radius_in * tolerance_in)
                steps = max(1, math.ceil((high - low) / step))
            marks.extend(low + (high - low) * i / steps for i in range(1, steps + 1))
        return marks
