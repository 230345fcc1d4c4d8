"""A door in an end wall: its header and leaves, the room that they sweep, and the fitting set that the kit has for it."""

from __future__ import annotations

from structures.frame.build.frame import Frame
from structures.frame.build.heights import clear_height
from structures.frame.document import Box, Joint, Swing
from structures.frame.family import Door, EndWall


def build_door(frame: Frame, end: int, hoop: int, wall: EndWall, door: Door) -> None:
    """Put a door in the middle of an end wall, or refuse one that the hoop leaves no room for."""
    half = door.width_in / 2
    tall = wall.post_deep_in                      # the header stands on edge
    room = clear_height(frame, half)
    if door.height_in + tall > room + 1e-9:
        frame.refuse("door-high", "The door of the {wall} is {height_in} high, and with its header the hoop leaves room for "
                     "{room_in}: that or less would do.", "ends", wall=wall.name, height_in=door.height_in,
                     room_in=max(room - tall, 0.0))
        return
    y, deep, out = frame.y(hoop), wall.post_deep_in / 2, -1 if end == 1 else 1
    frame.boxes.append(Box(frame.place(f"E{end}-header", "header"), "header", "door header", (-half, y - deep, door.height_in),
                           (half, y + deep, door.height_in + tall)))
    _leaves(frame, end, door, y + _face(door, deep) * out, out)
    if door.fitting:
        kind = frame.family.fittings[door.fitting].kind
        code = f"E{end}-door"
        frame.joints.append(Joint(frame.place(code, kind), code, kind, door.fitting, (0.0, y, door.height_in / 2), None, "",
                                  "door", None, (), door.option))


def _face(door: Door, deep: float) -> float:
    """How far outward of the wall's middle plane the outer face of a closed leaf lies: flush with the posts on the side that
    it opens to, or hung outside of them."""
    return {"out": deep, "in": door.thick_in - deep, "slide": deep + door.thick_in}[door.opens]


def _leaves(frame: Frame, end: int, door: Door, outer_y: float, out: int) -> None:
    """The closed leaves, and the quarter turn of each that swings. One leaf hangs at the left, two at their own sides."""
    wide = door.width_in / door.leaves
    inner_y = outer_y - door.thick_in * out
    for leaf in range(door.leaves):
        low_x = -door.width_in / 2 + leaf * wide
        frame.boxes.append(Box(frame.place(f"E{end}-door", "leaf"), "leaf", "door leaf",
                               (low_x, min(outer_y, inner_y), 0.0), (low_x + wide, max(outer_y, inner_y), door.height_in)))
        if door.opens != "slide":
            closed = 1 if leaf == 0 else -1
            hinge_y = outer_y if door.opens == "out" else inner_y
            frame.swings.append(Swing(
                frame.place(f"E{end}-door", "swing"), "door leaf", low_x if leaf == 0 else low_x + wide, hinge_y, wide, closed,
                out if door.opens == "out" else -out, 0.0, door.height_in))
