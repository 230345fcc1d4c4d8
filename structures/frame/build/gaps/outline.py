"""How near a piece comes to what follows the hoop's outline: the film line over it, and hoops that it doesn't land on."""

from __future__ import annotations

import math

from structures.frame.profile import Profile
from structures.frame.solids import Nearest, least_convex
from structures.frame.vectors import Vector, along, length, subtract

SAMPLES = 32
LEVEL_IN = 1e-9


class Outline:
    """A hoop's outline, and how deep inside it the ends of pieces lie: mirrored ones are looked up once."""

    def __init__(self, profile: Profile):
        self._profile = profile
        self._depths: dict[tuple[float, float], float] = {}

    def film(self, start: Vector, end: Vector) -> Nearest:
        """The least depth of an axis inside the hoops' axis, and the share where it is met.

        An outline never turns outward on its way up, so depth along a straight line inside it is least at one of its ends.
        """
        return min((self._depth_of_end(start), 0.0), (self._depth_of_end(end), 1.0))

    def hoop(self, start: Vector, end: Vector, y: float) -> Nearest:
        """The shortest distance of an axis from the axis of the hoop that stands at y.

        A piece that stays on one side of the hoop is nearest at the end toward it, if that end lies no deeper than the other:
        along the piece depth is never less than its lesser end. Else samples find each place where the distance is least
        among its neighbours, and golden section makes it exact.
        """
        ends = [(abs(point[1] - y), self._depth_of_end(point), share) for point, share in ((start, 0.0), (end, 1.0))]
        (apart, depth, share), (_, other, _) = sorted(ends)
        if (start[1] - y) * (end[1] - y) > 0 and 0 <= depth <= other + LEVEL_IN:
            return math.hypot(apart, depth), share

        def away(at: float) -> float:
            x, along_y, z = along(start, end, at)
            return math.hypot(along_y - y, self._profile.depth(abs(x), z))

        sampled = [away(i / SAMPLES) for i in range(SAMPLES + 1)]
        least = [i for i, value in enumerate(sampled) if value <= min(sampled[max(i - 1, 0):i + 2])]
        long = length(subtract(end, start))
        return min(least_convex(away, long, max(i - 1, 0) / SAMPLES, min(i + 1, SAMPLES) / SAMPLES) for i in least)

    def _depth_of_end(self, point: Vector) -> float:
        place = abs(point[0]), point[2]
        found = self._depths.get(place)
        if found is None:
            found = self._depths[place] = self._profile.depth(*place)
        return found
