"""How one corner is looked at: an orthographic axonometric, from inside looking up or from outside looking down.

Standing inside and facing a corner one looks 38 degrees off square to its side, toward its end, and 24 degrees up. Seen
from outside, as far round and 24 degrees down, the same places are mirrored on the sheet: only what hides what changes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from structures.frame.document import Point

from .corner import Corner
from .sheet import XY

_AROUND, _UP = math.radians(38), math.radians(24)
INWARD = (math.sin(_AROUND), math.cos(_AROUND) * math.sin(_UP))        # right and up on the sheet, at scale 1
TOWARD = (math.cos(_AROUND), -math.sin(_AROUND) * math.sin(_UP))       # toward the corner's own end
RISE = math.cos(_UP)


@dataclass(frozen=True, slots=True)
class Camera:
    """Where places in inches lie on the sheet, px. `mirror` is -1 where the corner's own end stands at the left."""

    side: float
    toward: float
    mirror: float
    scale: float = 1.0
    origin: XY = (0.0, 0.0)

    @classmethod
    def of(cls, corner: Corner, inside: bool) -> Camera:
        """The camera of one corner at scale 1."""
        # from inside, the tag end stands at the right of its right corner: one faces the side, and turns left along it
        own = -corner.sign * corner.toward
        return cls(corner.sign, corner.toward, own if inside else -own)

    def at(self, point: Point) -> XY:
        """Where a place lies on the sheet."""
        inward, toward = -self.side * point[0], self.toward * point[1]
        right = inward * INWARD[0] + toward * TOWARD[0]
        up = inward * INWARD[1] + toward * TOWARD[1] + point[2] * RISE
        return self.origin[0] + self.mirror * self.scale * right, self.origin[1] - self.scale * up

    def fitted(self, points: list[Point], room: tuple[float, float], largest: float, left: float, top: float) -> Camera:
        """The same camera with the points as large as `room` (width, height) allows, centred from `left`, below `top`."""
        flat = [Camera(self.side, self.toward, self.mirror).at(point) for point in points]
        low_x, high_x = min(x for x, _ in flat), max(x for x, _ in flat)
        low_y, high_y = min(y for _, y in flat), max(y for _, y in flat)
        scale = min(room[0] / (high_x - low_x), room[1] / (high_y - low_y), largest)
        middle = left + room[0] / 2
        return Camera(self.side, self.toward, self.mirror, scale,
                      (middle - scale * (low_x + high_x) / 2, top - scale * low_y))
