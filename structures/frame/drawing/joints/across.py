"""Joints in a hoop's own plane: a tie's end, a web's ends. The ear points to the piece, the bolt runs lengthwise."""

from __future__ import annotations

import math
from dataclasses import dataclass

from structures.frame.document import Flat, Joint, Member, Point, Tie
from structures.frame.profile import Profile

from ..scene import letters
from . import metal as m
from .kinds import JointKind
from .panel import Panel
from .paper import Need, Paper, lay_out
from .sizes import Metal, flat_of, tube_words


@dataclass(frozen=True, slots=True)
class Plane:
    """One such joint as seen from outside the tag end, x right and z up: unit directions, and what is held by what."""

    holder: str                    # "hoop" or "collar tie"
    tube_in: float
    axis: m.V                      # of the tube that the band goes round
    ear: m.V
    piece: m.V                     # from the hole along the piece
    piece_in: float
    flat: Flat
    words: tuple[str, str]
    mark: str


def draw_across(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """The face as seen from outside the tag end, and the section across the tube that the band goes round."""
    plane = _plane(sizes, kind)
    reach = 4.6 if size != "narrow" else 3.7
    tall = 2.6
    tips = [m.turned((0, 0), plane.axis, u, v) for u in (-tall, tall) for v in (-plane.tube_in / 2, plane.tube_in / 2)]
    hole = _hole(sizes, plane)
    tips += [m.turned(hole, plane.piece, reach, v) for v in (-0.8, 0.8)]
    xs, ys = [x for x, _ in tips], [y for _, y in tips]
    wide = size == "wide"
    face = Need(-min(xs) + (1.6 if wide else 0.9), max(xs) + (1.6 if wide else 0.9), max(ys) + 0.9, -min(ys) + 0.9)
    down = plane.ear[1] < 0
    section = Need(4.2 if wide else 7.0, 4.2, 2.2 if down else reach + 1.9, reach + 1.9 if down else 2.2)
    paper = lay_out(size, face, section)
    _face(paper.face, sizes, plane, tall, reach)
    _section(paper.section, sizes, plane, reach)
    return paper


def _hole(sizes: Metal, plane: Plane) -> m.V:
    offset = sizes.offset or plane.tube_in / 2 + 0.7
    return (plane.ear[0] * offset, plane.ear[1] * offset)


def _plane(sizes: Metal, kind: JointKind) -> Plane:
    document = sizes.document
    joints = [joint for joint in document.joints if joint.id in kind.joints]
    joint = next((j for j in joints if j.side == "right"), joints[0])
    if kind.role.startswith("web"):
        return _web_plane(sizes, joint)
    tie = next(t for t in document.ties if t.id in joint.holds)
    here, there = (tie.landing_to, tie.landing_from) if tie.landing_to.joint == joint.id else (tie.landing_from, tie.landing_to)
    tube_in = document.tubes.get(tie.role, 1.315)
    flat, _ = flat_of(tie, tube_in)
    axis, inward = _hoop_at(sizes, joint, here.from_foot_in)
    mark = letters(document)[tie.part]
    words = (f"collar tie {mark}", f"to {there.code}")
    return Plane("hoop", sizes.hoop_in, axis, inward, _way(here.hole, there.hole), tube_in, flat, words, mark)


def _web_plane(sizes: Metal, joint: Joint) -> Plane:
    document = sizes.document
    web: Member = next(member for member in document.members if member.id == joint.holds[0])
    on_tie = joint.station == "web"
    here, there = (web.start, web.end) if on_tie else (web.end, web.start)
    tube_in = 2 * web.radius_in
    flat, _ = flat_of(web, tube_in)
    words = ("web", "up to its hoop" if on_tie else "down to its tie")
    if on_tie:
        tie: Tie = next(t for t in document.ties if t.id in joint.holds)
        return Plane("collar tie", document.tubes.get(tie.role, 1.315), (1.0, 0.0), (0.0, 1.0), _way(here, there), tube_in,
                     flat, words, "")
    axis, inward = _hoop_at(sizes, joint, joint.from_foot_in or 0.0)
    return Plane("hoop", sizes.hoop_in, axis, inward, _way(here, there), tube_in, flat, words, "")


def _hoop_at(sizes: Metal, joint: Joint, from_foot: float) -> tuple[m.V, m.V]:
    """The hoop's direction up the tube, and the way inward, as seen from outside the tag end."""
    profile = Profile.read(sizes.document.profile)
    s = min(from_foot, profile.half_in - 1e-6)
    (tu, tz), (nu, nz) = profile.tangent(s), profile.normal(s)
    sign = -1.0 if joint.side == "left" else 1.0
    return (sign * tu, tz), (-sign * nu, -nz)


def _way(a: Point, b: Point) -> m.V:
    length = math.hypot(b[0] - a[0], b[2] - a[2]) or 1.0
    return (b[0] - a[0]) / length, (b[2] - a[2]) / length


def _face(panel: Panel, sizes: Metal, plane: Plane, tall: float, reach: float) -> None:
    hardware, hole = sizes.hardware, _hole(sizes, plane)
    offset = sizes.offset or plane.tube_in / 2 + 0.7
    m.heading(panel, "face: from outside the tag end" + (", right side" if panel.k > 30 else ""))
    low, high = m.turned((0, 0), plane.axis, -tall, 0), m.turned((0, 0), plane.axis, tall, 0)
    m.tube(panel, low, high, plane.tube_in)
    tip = m.piece_face(panel, hole, plane.piece, plane.flat, plane.piece_in, reach)
    m.band_face(panel, (0, 0), plane.ear, hardware.width_in, (plane.tube_in / 2, sizes.ear, offset))
    panel.sheet.polyline("hid", tip)
    m.hex_face(panel, hole, sizes.bolt(2 * sizes.ear), nut=not _away(hardware.bolt_points))
    panel.say(m.turned((0, 0), plane.axis, -0.35, 0.3), "band", sizes.part_name("band"))
    way = {"inward": "inward of", "upward": "above"}.get(hardware.hole_direction, "to one side of")
    panel.say(m.turned(hole, plane.ear, 0.4, 0.4), "ears", "two ears, side by side", f"{way} the {plane.holder}")
    panel.say(m.turned(hole, plane.piece, reach - 1.2, 0), "piece", *plane.words, plane.mark)
    panel.say(m.turned((0, 0), plane.axis, tall - 0.8, 0.3), "hoop" if plane.holder == "hoop" else "tie",
              f"{plane.holder} {tube_words(plane.tube_in, sizes.units)}")
    panel.say(m.turned(hole, plane.piece, -0.3, 0.35), "flat", "end pressed flat, its corners", "rounded about the hole")


def _away(points: str) -> bool:
    """Whether the head is what one sees from outside the tag end."""
    return points != "toward the tag end"


def _section(panel: Panel, sizes: Metal, plane: Plane, reach: float) -> None:
    hardware = sizes.hardware
    offset = sizes.offset or plane.tube_in / 2 + 0.7
    radius, down = plane.tube_in / 2, -1.0 if plane.ear[1] < 0 else 1.0
    on_hoop = plane.holder == "hoop"
    m.heading(panel, f"section: cut across the {plane.holder}, tag end at left" + (", film above" if on_hoop and panel.k > 30 else ""))
    m.piece_edge(panel, (0, down * offset), (0, down), plane.flat, plane.piece_in, reach - 0.6)
    ear_reach = offset + m.hole_to_edge(hardware.width_in)
    m.strap_section(panel, (0, down), radius, sizes.ear, plane.flat.thick_in, ear_reach)
    m.cut_tube(panel, (0, 0), plane.tube_in)
    points = (1.0, 0.0) if _away(hardware.bolt_points) else (-1.0, 0.0)
    grip = plane.flat.thick_in + 2 * sizes.ear
    m.bolt_edge(panel, (0, down * offset), points, sizes.bolt(grip), grip)
    if on_hoop:
        m.film(panel, radius + sizes.ear, -1.9, 1.9)
    tip = panel.at(-points[0] * 0.75, down * offset)
    m.arrow(panel, tip, points, 1.7 * panel.k)
    _arrow_words(panel, sizes, points, down * offset)
    if hardware.hole_offset_in is not None:
        m.dimension_beside(panel, points[0] * 2.2, 0, down * offset, sizes.figure(hardware.hole_offset_in), points[0] * 1.15,
                           right=points[0] > 0)
    bolt = sizes.bolt(grip)
    panel.say((-points[0] * (grip / 2 + bolt.head_in / 2), down * offset - 0.12), "bolt head", "head toward the tag end" if points[0] > 0
              else "head away from the tag end", sizes.part_name("bolt"))
    if hardware.nut != "none":
        panel.say((points[0] * (grip / 2 + bolt.nut_in / 2), down * offset - 0.12), "nut", "nut away from the tag end" if points[0] > 0
                  else "nut toward the tag end")
    panel.say((0.2, down * (offset + 2.8)), "piece", plane.words[0], "its flat between the ears", plane.mark)


def _arrow_words(panel: Panel, sizes: Metal, points: m.V, y: float) -> None:
    """Behind the arrow, ending where it begins."""
    at = panel.at(-points[0] * 2.55, y)
    for i, words in enumerate(("bolt points", sizes.hardware.bolt_points)):
        panel.sheet.text((at[0], at[1] - 4 + 18 * i), words, size=13, kind="lab", anchor="end" if points[0] > 0 else "start")
