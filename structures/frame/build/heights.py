"""How high a hoop stands over a place on the ground."""

from __future__ import annotations

import math
from functools import lru_cache

from structures.frame.build.frame import Frame
from structures.frame.profile import Profile

HALVINGS = 60        # leave far less than a tube can be bent to


def place_over(frame: Frame, distance: float) -> float | None:
    """Where along the tube the hoop is `distance` from the ridge plane, on its way in; None outside the hoop."""
    return _place(frame.profile, distance)


@lru_cache(maxsize=256)
def _place(profile: Profile, distance: float) -> float | None:
    """The place by halving, kept: each upright asks at both ends of a structure, and every structure of a family again."""
    low, high = 0.0, profile.half_in
    if not 0 <= distance < profile.point(0.0)[0]:
        return None
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if profile.point(middle)[0] > distance:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def clear_height(frame: Frame, distance: float) -> float:
    """The height of the hoop's underside, `distance` from the ridge plane; 0 outside the hoop or at its upright leg."""
    s = place_over(frame, distance)
    across = math.sin(frame.profile.heading(s)) if s is not None else 0.0
    if s is None or across < 1e-6:
        return 0.0
    return max(frame.profile.point(s)[1] - frame.hoop_radius_in / across, 0.0)
