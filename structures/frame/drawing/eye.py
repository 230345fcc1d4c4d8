"""Where the eye stands for the whole frame: 56 degrees round from the ridge line and 35 degrees up, seen square (orthographic)."""

from __future__ import annotations

import math

_AROUND, _UP = math.radians(56), math.radians(35)
ACROSS = (math.cos(_AROUND), math.sin(_AROUND) * math.sin(_UP))          # px per inch of x at scale 1, y down
ALONG = (math.sin(_AROUND), -math.cos(_AROUND) * math.sin(_UP))
RISE = -math.cos(_UP)
TO_EYE = (math.sin(_AROUND) * math.cos(_UP), -math.cos(_AROUND) * math.cos(_UP), math.sin(_UP))
