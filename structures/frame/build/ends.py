"""End walls: their uprights and the fittings that hold them, a door where it is offered, and the wall as a place to look at."""

from __future__ import annotations

from structures.frame.build.doors import build_door
from structures.frame.build.frame import Frame
from structures.frame.build.heights import clear_height, place_over
from structures.frame.document import Box, Joint, Panel
from structures.frame.family import EndWall


def build_ends(frame: Frame) -> None:
    """Put in both end walls."""
    for end, (code, hoop) in enumerate(zip(frame.configuration.ends, (1, frame.hoops), strict=True), start=1):
        wall = frame.family.end_walls[code]
        for distance in wall.uprights_in:
            for side in ("left", "right") if distance else ("",):
                _upright(frame, end, hoop, side, distance, wall)
        if wall.door is not None and frame.has(wall.door.option):
            build_door(frame, end, hoop, wall, wall.door)
        if wall.uprights_in:
            place = f"E{end}-wall"
            frame.panels.append(Panel(frame.place(place, "wall"), place, "wall", None, end, "", "end", None, None, ""))


def _upright(frame: Frame, end: int, hoop: int, side: str, distance: float, wall: EndWall) -> None:
    """An upright, `distance` from the ridge plane, and the bracket where it meets the end hoop."""
    s = place_over(frame, distance)
    if s is None:
        frame.refuse("upright-outside", "An end-wall upright {distance_in} from the middle stands outside the hoop: "
                     "less than {half_in} would do.", "family", distance_in=distance,
                     half_in=frame.profile.point(0.0)[0])
        return
    fitting = wall.upright_fitting
    kind = frame.family.fittings[fitting].kind
    code = f"E{end}-upright"
    leg = side or "left"
    frame.joints.append(Joint(frame.place(code, kind), code, kind, fitting, frame.point(leg, s, frame.y(hoop)), hoop,
                              leg, "upright", s, (), ""))
    _post(frame, end, hoop, -distance if side == "left" else distance, wall)


def _post(frame: Frame, end: int, hoop: int, x: float, wall: EndWall) -> None:
    """The upright itself, the customer's own, in the end hoop's plane from the ground up to the tube."""
    if not wall.post_wide_in:
        return
    y, wide, deep = frame.y(hoop), wall.post_wide_in / 2, wall.post_deep_in / 2
    top = clear_height(frame, abs(x) + wide)
    if top:
        frame.boxes.append(Box(frame.place(f"E{end}-post", "post"), "post", "end-wall upright", (x - wide, y - deep, 0.0),
                               (x + wide, y + deep, top)))
