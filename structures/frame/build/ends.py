"""End walls: their uprights' fittings at the end hoops, and the wall itself as a place to look at."""

from __future__ import annotations

from structures.frame.build.frame import Frame
from structures.frame.document import Joint, Panel


def build_ends(frame: Frame) -> None:
    """Put in both end walls."""
    for end, (code, hoop) in enumerate(zip(frame.configuration.ends, (1, frame.hoops), strict=True), start=1):
        wall = frame.family.end_walls[code]
        for distance in wall.uprights_in:
            for side in ("left", "right") if distance else ("",):
                _upright(frame, end, hoop, side, distance, wall.upright_fitting)
        if wall.uprights_in:
            place = f"E{end}-wall"
            frame.panels.append(Panel(frame.place(place, "wall"), place, "wall", None, end, "", "end", None, None, ""))


def _upright(frame: Frame, end: int, hoop: int, side: str, distance: float, fitting: str) -> None:
    """The bracket where an upright, `distance` from the ridge plane, meets the end hoop."""
    s = _under(frame, distance)
    if s is None:
        frame.refuse("upright-outside", "An end-wall upright {distance_in} from the middle stands outside the hoop: "
                     "less than {half_in} would do.", "family", distance_in=distance,
                     half_in=frame.profile.point(0.0)[0])
        return
    kind = frame.family.fittings[fitting].kind
    code = f"E{end}-upright"
    leg = side or "left"
    frame.joints.append(Joint(frame.place(code, kind), code, kind, fitting, frame.point(leg, s, frame.y(hoop)), hoop,
                              leg, "upright", s, (), ""))


def _under(frame: Frame, distance: float) -> float | None:
    """Where along the tube the hoop is `distance` from the ridge plane, on its way in; halving finds it."""
    low, high = 0.0, frame.half_in
    if not 0 <= distance < frame.profile.point(0.0)[0]:
        return None
    for _ in range(60):
        middle = (low + high) / 2
        if frame.profile.point(middle)[0] > distance:
            low = middle
        else:
            high = middle
    return (low + high) / 2
