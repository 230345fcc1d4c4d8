"""A brace's end on its hoop: one band, or two butted where two pieces of a chain meet; and a tube clamped in passing."""

from __future__ import annotations

import math
from dataclasses import dataclass

from structures.frame.document import Brace, Joint, Landing, Point
from structures.frame.profile import Profile

from ..scene import letters
from ..sheet import XY
from . import metal as m
from .kinds import JointKind, bands_at
from .panel import Panel
from .paper import Need, Paper, lay_out
from .sizes import Metal, flat_of, tube_words


@dataclass(frozen=True, slots=True)
class End:
    """One piece's end at this place: its band's centre above the place's middle, the way it goes on the face."""

    brace: Brace
    here: Landing
    there: Landing
    y: float
    along: tuple[float, float]     # unit, right and up the hoop as seen from outside
    side: int                      # 1 where its ear points right, -1 left


def draw_brace(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """The face from outside and the section across the hoop."""
    ends = _ends(sizes, kind)
    hardware = sizes.hardware
    low = min(end.y for end in ends) - hardware.width_in / 2
    high = max(end.y for end in ends) + hardware.width_in / 2
    reach = 4.6 if size != "narrow" else 3.7
    rise = max([high + 1.6, *(end.y + reach * end.along[1] + 0.8 for end in ends)])
    drop = max([1.6 - low, *(-end.y - reach * end.along[1] + 0.8 for end in ends)])
    left, right = (reach + 1.9 if any(end.side == side for end in ends) else 2.2 for side in (-1, 1))
    across = Need(left + 0.4, right + 0.4, 3.4, 3.0 if size != "narrow" else 2.9)
    paper = lay_out(size, Need(left, right, min(rise, 4.2), min(drop, 4.4) + 1.5), across)
    _face(paper.face, sizes, ends, (min(rise, 4.2) - 0.1, min(drop, 4.4) - 0.1), reach)
    _section(paper.section, sizes, ends)
    return paper


def _ends(sizes: Metal, kind: JointKind) -> list[End]:
    """The pieces' ends at the first place of this kind: the tag end's right corner where there is one."""
    document = sizes.document
    joints = {joint.id: joint for joint in document.joints}
    mine = [joints[one] for one in kind.joints]
    first = next((j for j in mine if j.side == "right"), mine[0])
    profile = Profile.read(document.profile)
    found = []
    for joint in bands_at(document.joints, first):
        brace, here, there = _piece_at(sizes, joint)
        found.append((brace, here, there))
    middle = found[0][1].node_in if len(found) > 1 else found[0][1].from_foot_in
    return [End(brace, here, there, here.from_foot_in - middle, *_way(profile, here, there)) for brace, here, there in found]


def _piece_at(sizes: Metal, joint: Joint) -> tuple[Brace, Landing, Landing]:
    for brace in sizes.document.braces:
        if brace.landing_from.joint == joint.id:
            return brace, brace.landing_from, brace.landing_to
        if brace.landing_to.joint == joint.id:
            return brace, brace.landing_to, brace.landing_from
    raise ValueError(f"No brace of this document ends at {joint.id}.")


def _way(profile: Profile, here: Landing, there: Landing) -> tuple[tuple[float, float], int]:
    """The piece's direction as one sees it from outside, square to the hoop, foot down: right and up. And its ear's side.

    On the right side the tag end is at the left, on the left side at the right.
    """
    sign = -1.0 if here.side == "left" else 1.0
    (dx, dy, dz) = _less(there.hole, here.hole)
    tu, tz = profile.tangent(min(here.from_foot_in, profile.half_in - 1e-6))
    right, up = sign * dy, sign * dx * tu + dz * tz
    length = math.hypot(right, up)
    return (right / length, up / length), 1 if right > 0 else -1


def _less(a: Point, b: Point) -> Point:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _face(panel: Panel, sizes: Metal, ends: list[End], tall: tuple[float, float], reach: float) -> None:
    hardware, radius = sizes.hardware, sizes.radius
    offset = sizes.offset or radius + 0.7
    side = ends[0].here.side
    m.heading(panel, f"face: from outside, {side} side" + ("" if panel.k < 30 else ", through the film"))
    m.tube(panel, (0, -tall[1]), (0, tall[0]), sizes.hoop_in)
    tips: list[list[XY]] = []
    for end in ends:
        tube_in = sizes.document.tubes.get(end.brace.role, 1.315)
        flat, _ = flat_of(end.brace, tube_in)
        tips.append(m.piece_face(panel, (offset * end.side, end.y), end.along, flat, tube_in, reach - 0.4))
    bolt = sizes.bolt(2 * sizes.ear)
    for end in ends:
        m.band_face(panel, (0, end.y), (end.side, 0), hardware.width_in, (radius, sizes.ear, offset))
    for end, tip in zip(ends, tips, strict=True):
        panel.sheet.polyline("hid", tip)
        m.hex_face(panel, (offset * end.side, end.y), bolt, nut=not _in(hardware.bolt_points))
    _face_figures(panel, sizes, ends, offset, tall)
    _face_words(panel, sizes, ends, offset, tall, reach)


def _in(points: str) -> bool:
    """Whether the thread points away from the film, so that the head is what one sees from outside."""
    return points not in ("out", "up")


def _face_figures(panel: Panel, sizes: Metal, ends: list[End], offset: float, tall: tuple[float, float]) -> None:
    hardware, first = sizes.hardware, ends[-1]
    if hardware.width_in:
        x = -(sizes.radius + 1.2) * first.side
        m.dimension_beside(panel, x, first.y - hardware.width_in / 2, first.y + hardware.width_in / 2, sizes.figure(hardware.width_in),
                           -(sizes.radius + sizes.ear + 0.1) * first.side, right=first.side < 0)
    if hardware.hole_offset_in is not None:
        y = -tall[1] - 1.05
        low = min(ends, key=lambda end: end.y)
        m.dimension_below(panel, 0, offset * low.side, y, sizes.figure(hardware.hole_offset_in), (-tall[1] - 0.35, low.y - 0.35))


def _face_words(panel: Panel, sizes: Metal, ends: list[End], offset: float, tall: tuple[float, float], reach: float) -> None:
    units, marks = sizes.units, letters(sizes.document)
    band = sizes.part_name("band")
    if len(ends) == 1:
        panel.say((-0.35 * sizes.radius * ends[0].side, ends[0].y + 0.4), "band", band)
        panel.say(((offset + 0.45) * ends[0].side, ends[0].y + 0.42), "ears", "two ears, lengthwise", "toward the other end of its piece")
    else:
        for end, word in zip(ends, ("lower band", "upper band"), strict=True):
            panel.say((-0.3 * sizes.radius * end.side, end.y), word, word, f"ear to hoop {end.there.hoop}")
        butt = ends[0].y + sizes.hardware.width_in / 2
        panel.say((0.5 * sizes.radius, butt), "butt", "the bands meet on the mark", "one above it, one below")
    for end in ends:
        mark = marks[end.brace.part]
        at = m.turned((offset * end.side, end.y), end.along, reach - 1.2, 0)
        panel.say(at, "piece", f"{end.brace.role.replace('-', ' ')} {mark}", f"to {end.there.code}", mark)
    if len(ends) == 1:
        tip = m.turned((offset * ends[0].side, ends[0].y), ends[0].along, -0.35, -0.4 * ends[0].side)
        panel.say(tip, "flat", "end pressed flat, its corners", "rounded about the hole, clear of the hoop")
    panel.say((-0.4 * sizes.radius * ends[0].side, -tall[1] + 0.7), "hoop", f"hoop {tube_words(sizes.hoop_in, units)}")


def _section(panel: Panel, sizes: Metal, ends: list[End]) -> None:
    hardware, radius, ear = sizes.hardware, sizes.radius, sizes.ear
    offset = sizes.offset or radius + 0.7
    m.heading(panel, "section: cut across the hoop, looking up it" + ("" if panel.k < 30 else ", film above"))
    by_side = {end.side: end for end in ends}
    reach = offset + m.hole_to_edge(hardware.width_in)
    grips = {}
    for side, end in by_side.items():
        tube_in = sizes.document.tubes.get(end.brace.role, 1.315)
        flat, _ = flat_of(end.brace, tube_in)
        m.piece_edge(panel, (offset * side, 0), (side, 0), flat, tube_in, 3.3 if panel.k < 30 else 4.4)
        grips[side] = flat.thick_in
    for side in by_side:
        m.strap_section(panel, (side, 0), radius, ear, grips[side], reach)
    m.cut_tube(panel, (0, 0), sizes.hoop_in)
    points = (0.0, -1.0) if _in(hardware.bolt_points) else (0.0, 1.0)
    for side in by_side:
        m.bolt_edge(panel, (offset * side, 0), points, sizes.bolt(grips[side] + 2 * ear), grips[side] + 2 * ear)
    wide = 3.9 if panel.k > 30 else 3.2
    m.film(panel, radius + ear, -wide if -1 in by_side else -1.9, wide if 1 in by_side else 1.9)
    top = radius + ear
    for side in by_side:
        x = offset * side
        tip = panel.at(x, top + 0.3) if points[1] < 0 else panel.at(x, -top - 0.3)
        m.arrow(panel, tip, points, 1.7 * panel.k)
    said = f"bolt points {hardware.bolt_points}" if len(by_side) == 1 else f"both bolts point {hardware.bolt_points}"
    _arrow_words(panel, said, [offset * side for side in by_side], top + 0.3 + 1.7, points)
    if hardware.hole_offset_in is not None and len(by_side) == 1:
        side = next(iter(by_side))
        m.dimension_below(panel, 0, offset * side, -2.55, sizes.figure(hardware.hole_offset_in), (-1.65, -1.0))
    elif len(by_side) == 2 and hardware.hole_offset_in is not None:
        m.dimension_below(panel, -offset, offset, -2.55, sizes.figure(2 * hardware.hole_offset_in), (-1.0, -1.0))
    _section_words(panel, sizes, by_side, offset, points)


def _arrow_words(panel: Panel, words: str, xs: list[float], top: float, points: tuple[float, float]) -> None:
    """Beside one arrow, or over the middle of two."""
    y = top if points[1] < 0 else -top
    if len(xs) == 1:
        at = panel.at(xs[0], y)
        anchor = "start" if xs[0] > 0 else "end"
        panel.sheet.text((at[0] + (10 if xs[0] > 0 else -10), at[1] + 9), words, size=13, kind="lab", anchor=anchor)
    else:
        at = panel.at(sum(xs) / 2, y)
        panel.sheet.text((at[0], at[1] + (-7 if points[1] < 0 else 17)), words, size=13, kind="lab", anchor="middle")


def _section_words(panel: Panel, sizes: Metal, by_side: dict[int, End], offset: float, points: tuple[float, float]) -> None:
    hardware = sizes.hardware
    side = next(iter(by_side))
    down = points[1]
    many = "s" if len(by_side) > 1 else ""
    bolt = sizes.bolt(2 * sizes.ear)
    grip = sizes.ear + 0.06
    head = "toward the film" if down < 0 else "inside"
    panel.say(((offset - 0.15) * side, -down * (grip + bolt.head_in / 2)), "bolt head", f"head{many} {head}", f"{sizes.part_name('bolt')}")
    if hardware.nut != "none":
        panel.say(((offset - 0.12) * side, down * (grip + bolt.nut_in / 2)), "nut", f"nut{many} {hardware.nut}")
    mark = letters(sizes.document)[by_side[side].brace.part]
    panel.say(((offset + 2.7) * side, -0.2), "piece", "the piece lies level with", "the hoop’s own axis", mark)
