"""What the whole-frame view has beside hoops and braces: pieces that a kit line lights, and the signs of hardware."""

from __future__ import annotations

from typing import TYPE_CHECKING

from structures.frame.document import Joint, Member

from .hardware import draw_signs, drawn_bay
from .kitlines import draw_sections, draw_sticks
from .sheet import XY
from .wall import rects_of

if TYPE_CHECKING:
    from .frame import FrameView


def draw_kit_lines(view: FrameView) -> None:
    """Hoop sections and purlin sticks, each to be lit by itself; what the far wall has stays unseen."""
    turn = view.turn()
    points: dict[tuple[float, float], list[tuple[float, float]]] = {}

    def section(member: Member) -> list[XY]:
        low, high = max(member.s_from_in or 0.0, turn), member.s_to_in or 0.0
        if high - low < 1:
            return []
        if (low, high) not in points:
            points[low, high] = view.hoop_points(low, high)
        along = view.axis.px(view.scene.y(member.hoop or 1))
        return [view.px(x, along, z) for x, z in points[low, high]]

    def stick(member: Member) -> list[tuple[XY, XY]]:
        x, _, z = member.start
        if x < -0.01 and not view.faces(x, z):
            return []
        return [(view.px(x, a, z), view.px(x, b, z)) for a, b in view.axis.clipped(member.start[1], member.end[1])]

    draw_sections(view.sheet, view.scene, view.axis.drawn, section)
    draw_sticks(view.sheet, view.scene, stick)


def draw_near_wall(view: FrameView) -> None:
    """The near end wall's posts, header and door, thin, in the near hoop's plane; and what runs along the near side."""
    for pipe in view.scene.pipes:
        if pipe.side == "right":
            for a, b in view.spans():
                view.sheet.line("obj1", view.px(pipe.x, a, pipe.z), view.px(pipe.x, b, pipe.z), solid=True)
    for _, x0, x1, z0, z1 in rects_of(view.scene.document):
        corners = [view.px(x, 0.0, z) for x, z in ((x0, z0), (x0, z1), (x1, z1), (x1, z0))]
        if view.place.tubes:
            view.sheet.polyline("wall", corners, closed=True)
        else:
            middle = (x0 + x1) / 2
            view.sheet.line("wall", view.px(middle, 0.0, z0), view.px(middle, 0.0, z1))


def draw_webs(view: FrameView) -> None:
    """The webs from ties up to their hoops, as thin as the ties."""
    spacing = view.measures.spacing_in
    for member in view.scene.document.members:
        if member.role == "web" and view.axis.shows(round(member.start[1] / spacing) + 1):
            lit = view.scene.asks_for(member.part, member.option, member.id)
            with view.sheet.piece(member.id, member.part):
                view.sheet.line("lit-far" if lit else "tie", view.at(*member.start), view.at(*member.end))


def draw_hardware(view: FrameView) -> None:
    """The hardware layer: a dot for each joint that faces the eye."""
    above = view.scene.profile.point(view.turn())[1]

    def at(joint: Joint) -> XY | None:
        x, y, z = joint.at
        seen = drawn_bay(view.axis, joint) and (x > -0.01 or z > above)
        return view.at(x, y, max(z, 0.0)) if seen else None

    draw_signs(view.sheet, view.scene, view.scene.document.joints, at, dots=True)
