"""What the section has beside its hoop: the end wall behind it, boards and film on it, what a kit line lights, hardware."""

from __future__ import annotations

from typing import TYPE_CHECKING

from structures.frame.document import Bar, Joint, Member

from . import pencils
from .hardware import draw_arrows, draw_signs
from .kitlines import draw_posts, draw_sections
from .sheet import XY, Box, text_box
from .wall import rects_of

if TYPE_CHECKING:
    from .section import SectionView

_FILM_PX = 6.0                     # from the tube's axis: the tube is drawn 7 px thick whatever it is


def draw_wall(view: SectionView) -> None:
    """The near end wall, thin, behind the hoop: its posts, header and door, the door's leaves as they are closed."""
    for kind, x0, x1, z0, z1 in rects_of(view.scene.document):
        if view.place.half and x0 >= 0:
            continue
        right = min(x1, 0.0) if view.place.half else x1
        a, b = view.at(x0, z1), view.at(right, z0)
        if b[0] - a[0] > 1:
            view.sheet.rect("wall", Box(a[0], a[1], b[0], b[1]))
            view.sheet.strokes += [(a[0], a[1], a[0], b[1]), (b[0], a[1], b[0], b[1])]
        if kind == "leaf":
            view.sheet.line("wall", a, b, solid=True)


def draw_webs(view: SectionView) -> None:
    """The webs from ties up to their hoops, once for each place."""
    shown: set[tuple[int, int]] = set()
    for member in view.scene.document.members:
        place = (round(member.start[0]), round(member.start[2]))
        if member.role != "web" or place in shown or (view.place.half and member.start[0] > 0):
            continue
        shown.add(place)
        line = [view.at(end[0], end[2]) for end in (member.start, member.end)]
        lit = view.scene.asks_for(member.part, member.option, member.id)
        with view.sheet.piece(member.id, member.part):
            if lit:
                view.sheet.polyline("lit-s", line)
            else:
                view.sheet.tube("t1", line)


def draw_skin(view: SectionView) -> None:
    """Boards and channel cut through where they lie, and the film’s dotted line over all."""
    for bar in view.scene.document.bars:
        lengthwise = bar.y1 - bar.y0 > 24           # the channel of an end hoop follows the hoop and would hide it
        if lengthwise and (not view.place.half or bar.x <= 0):
            view.sheet.polyline("conn", [view.at(x, z) for x, z in _corners(bar)], closed=True)
    for pipe in view.scene.pipes:
        if not view.place.half or pipe.x <= 0:
            view.sheet.circle("conn", view.at(pipe.x, pipe.z), 3.0)
    for points in _film(view):
        view.sheet.polyline("j-film", points)


def _corners(bar: Bar) -> list[tuple[float, float]]:
    """The four corners of a bar's section, (x, z)."""
    wide, thick = bar.wide_in / 2, bar.thick_in / 2
    ax, az = bar.along_x, bar.along_z
    return [(bar.x + u * ax - v * az, bar.z + u * az + v * ax) for u, v in ((wide, thick), (-wide, thick), (-wide, -thick), (wide, -thick))]


def _film(view: SectionView) -> list[list[XY]]:
    """The film over each half that is drawn, from its lower edge to the ridge."""
    edges = {(panel.side, panel.s_from_in or 0.0) for panel in view.scene.document.panels if panel.kind == "film" and panel.side}
    lowest = {side: min(s for where, s in edges if where == side) for side, _ in edges}
    half = view.scene.profile.half_in - 1e-6
    found = []
    for side, low in lowest.items():
        if view.place.half and side == "right":
            continue
        steps = [low + (half - low) * i / 60 for i in range(61)]
        left = [view.on_tube(s, _FILM_PX) for s in steps]
        found.append([(2 * view.place.centre - x, y) if side == "right" else (x, y) for x, y in left])
    return found


def name_skin(view: SectionView) -> None:
    """The film's name, where there is room beside its line on the right roof."""
    lines = _film(view)
    if not lines or view.place.half:
        return
    with view.sheet.layer("names"):
        for step in (26, 24, 28, 22, 30, 20):
            x, y = lines[-1][step]
            at = (2 * view.place.centre - x if x < view.place.centre else x, y)
            words = (at[0] + 16, at[1] - 10)
            if pencils.fits(view.sheet, words, "film line", 12, "start", 4) and not view.sheet.crossings(text_box(*words, "film line", 12)):
                view.sheet.line("lead", (at[0] + 1, at[1] - 1), (words[0] - 2, words[1] - 4))
                view.sheet.text(words, "film line", size=12, kind="q")
                return


def draw_kit_lines(view: SectionView) -> None:
    """Each piece that this view shows, to be lit by itself: hoop 1's sections and posts, every brace and tie."""
    def section(member: Member) -> list[XY]:
        half, s0, s1 = view.scene.profile.half_in, member.s_from_in or 0.0, member.s_to_in or 0.0
        if member.role == "post":
            shown = not view.place.half or member.start[0] < 0
            return [view.at(end[0], end[2]) for end in (member.start, member.end)] if shown else []
        left = [view.at(-u, z) for u, z in view.scene.profile.polyline(s0, min(s1, half), 0.1)] if s0 < half else []
        if view.place.half or s1 <= half:
            return left
        right = view.scene.profile.polyline(2 * half - s1, min(half, 2 * half - s0), 0.1)
        return left + [view.at(u, z) for u, z in reversed(right)]

    draw_sections(view.sheet, view.scene, [1], section)
    draw_posts(view.sheet, view.scene, [1], section)
    for piece in view.scene.pieces:
        if view.shows(piece):
            with view.sheet.piece(piece.id, piece.part):
                view.sheet.line("sec", *view.line_of(piece))


def draw_hardware(view: SectionView) -> None:
    """A sign for each joint, once for each place along the tube, and which way its bolt points.

    Of the joints of many hoops that lie behind each other one stands for all: that which was asked for.
    """
    shown: dict[tuple[str, int, int], Joint] = {}
    for joint in view.scene.document.joints:
        if not view.place.half or joint.side != "right":
            place = (joint.fitting, round(joint.at[0] * 2), round(joint.at[2] * 2))
            if place not in shown or joint.id in view.scene.asked.lit:
                shown[place] = joint
    draw_signs(view.sheet, view.scene, shown.values(), lambda joint: _joint_at(view, joint), dots=True)
    with view.sheet.layer("hardware"):
        on_hoops = [joint for joint in shown.values() if joint.hoop is not None]
        draw_arrows(view.sheet, view.scene, on_hoops, lambda joint: _joint_at(view, joint), lambda d: (d[0], -d[2], d[1]))


def _joint_at(view: SectionView, joint: Joint) -> XY:
    return view.at(joint.at[0], max(joint.at[2], 0.0))
