"""Where a hoop and a purlin cross, held by two half straps; and where a brace in one piece passes inside a hoop."""

from __future__ import annotations

import math
from dataclasses import dataclass

from structures.frame.document import Flat, Joint
from structures.frame.profile import Profile

from ..scene import letters
from ..sheet import Box
from . import metal as m
from .kinds import JointKind
from .panel import Panel
from .paper import Need, Paper, lay_out
from .sizes import Bolt, Metal, flat_of, tube_words


@dataclass(frozen=True, slots=True)
class Crossing:
    """What lies under the hoop: its diameter, how far its axis lies inside the hoop's, its way across as seen from outside."""

    tube_in: float
    apart_in: float
    along: m.V
    thing: str
    words: tuple[str, str]
    mark: str
    ends: Flat | None = None       # its flattened end, where it ends here; then `along` is the way it goes


def draw_crossing(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """The face from outside, hoop nearest, and the section across the hoop along what it crosses."""
    reach = 4.6 if size != "narrow" else 4.0
    crossing = _crossing(sizes, kind)
    tall = 3.2
    face = Need(reach + 0.9, reach + 0.9, tall + 0.6, tall + 0.6)
    section = Need(reach + 0.9, reach + 0.9, 4.0, crossing.apart_in + 3.1)
    paper = lay_out(size, face, section)
    _face(paper.face, sizes, crossing, tall, reach)
    _section(paper.section, sizes, crossing, reach)
    return paper


def _crossing(sizes: Metal, kind: JointKind) -> Crossing:
    document = sizes.document
    joints = [joint for joint in document.joints if joint.id in kind.joints]
    joint = next((j for j in joints if j.side == "right"), joints[0])
    if kind.role.startswith("pass"):
        return _passing(sizes, joint)
    tube_in = document.tubes.get("stick", 1.315)
    return Crossing(tube_in, (sizes.hoop_in + tube_in) / 2, (1.0, 0.0), "purlin",
                    (f"purlin {tube_words(tube_in, sizes.units)}", "under the hoop, touching it"), "")


def _passing(sizes: Metal, joint: Joint) -> Crossing:
    document = sizes.document
    brace = next(b for b in document.braces if b.id in joint.holds)
    landing = next(one for one in (*brace.passes, brace.landing_from, brace.landing_to) if one.joint == joint.id)
    tube_in = document.tubes.get(brace.role, 1.315)
    profile = Profile.read(document.profile)
    s = landing.from_foot_in
    (tu, tz), sign = profile.tangent(s), -1.0 if joint.side == "left" else 1.0
    a, b = brace.landing_from.hole, brace.landing_to.hole
    if landing is brace.landing_to:
        a, b = b, a
    right, up = sign * (b[1] - a[1]), sign * (b[0] - a[0]) * tu + (b[2] - a[2]) * tz
    length = math.hypot(right, up)
    x, z = joint.at[0], joint.at[2]
    apart = math.hypot(landing.hole[0] - x, landing.hole[2] - z)
    mark = letters(document)[brace.part]
    where = "inside the hoop" if landing not in brace.passes else "in one piece, inside the hoop"
    return Crossing(tube_in, apart, (right / length, up / length), "piece", (f"{brace.role.replace('-', ' ')} {mark}", where), mark,
                    flat_of(brace, tube_in)[0] if landing not in brace.passes else None)


def _corner(sizes: Metal, crossing: Crossing) -> m.V:
    """Where a bolt stands in the face: clear of both tubes, one at each of two opposite corners."""
    return sizes.radius + 0.42, crossing.tube_in / 2 + 0.3


def _face(panel: Panel, sizes: Metal, crossing: Crossing, tall: float, reach: float) -> None:
    m.heading(panel, "face: from outside, hoop nearest")
    kind, fill = ("j-edge", "j-fill") if crossing.mark else ("obj2", "pap")
    if crossing.ends is not None:
        m.piece_face(panel, (0, 0), crossing.along, crossing.ends, crossing.tube_in, reach)
    else:
        m.tube(panel, m.turned((0, 0), crossing.along, -reach, 0), m.turned((0, 0), crossing.along, reach, 0), crossing.tube_in,
               kind=kind, fill=fill)
    width = sizes.hardware.width_in or 1.25
    cx, cy = _corner(sizes, crossing)
    bolt = sizes.bolt(1.3)
    for sign in (1, -1):
        _tab(panel, (cx * sign, cy * sign), (sizes.radius * sign, width / 2 * sign), bolt)
    m.tube(panel, (0, -tall), (0, tall), sizes.hoop_in)
    wrap = sizes.radius + sizes.ear
    a, b = panel.at(-wrap, width / 2), panel.at(wrap, -width / 2)
    panel.sheet.rect("clamp", Box(a[0], a[1], b[0], b[1]))
    m.centre_line(panel, (0, width / 2), (0, -width / 2))
    panel.block([a, b])
    half = crossing.tube_in / 2
    for sign in (1, -1):
        for v in (half, -half) if not crossing.mark else ():
            panel.sheet.line("hid", panel.at(sign * wrap, v), panel.at(sign * (cx + 0.45), v))
        m.hex_face(panel, (cx * sign, cy * sign), bolt, nut=sizes.hardware.bolt_points in ("up", "out"))
    many = "two bolts, cornerwise" if sizes.count("bolt") == 2 else "bolt"
    head = "head" if sizes.count("bolt") == 1 else "heads"
    inward = sizes.hardware.bolt_points in ("in", "down")
    panel.say((cx + 0.2, cy + 0.12), "bolt head", many, f"{head} toward the film" if inward else f"{head} inside")
    taken = f"{sizes.said(width)} along the hoop" if sizes.hardware.width_in else "over the hoop"
    panel.say((-0.3, -width / 2 + 0.2), "outer strap", "outer half strap", taken)
    panel.say(m.turned((0, 0), crossing.along, reach - 1.8, -0.2), crossing.thing, *crossing.words, crossing.mark)
    panel.say((-0.35, tall - 0.7), "hoop", f"hoop {tube_words(sizes.hoop_in, sizes.units)}", "nearest the film")


def _tab(panel: Panel, at: m.V, corner: m.V, bolt: Bolt) -> None:
    """The ear of both straps at one corner, seen from outside: from the strap's edge out to round its bolt."""
    r, sx, sy = bolt.flats_in * 0.95, math.copysign(1, at[0]), math.copysign(1, at[1])
    points = [(corner[0], -corner[1]), (at[0] + sx * r * 0.3, -corner[1]), (at[0] + sx * r, -corner[1] + sy * 0.3)]
    points += [(at[0] + sx * r * math.cos(a), at[1] + sy * r * math.sin(a)) for a in (i * math.pi / 12 for i in range(7))]
    points += [(at[0] - sx * r, at[1] + sy * r), (corner[0], at[1] + sy * r)]
    panel.sheet.polyline("clamp", [panel.at(*point) for point in points], closed=True)
    panel.block([panel.at(at[0] + sx * r, at[1] + sy * r), panel.at(corner[0], -corner[1])])


def _section(panel: Panel, sizes: Metal, crossing: Crossing, reach: float) -> None:
    radius, ear, apart = sizes.radius, sizes.ear, crossing.apart_in
    lit = "j-edge" if crossing.mark else "obj2"
    m.heading(panel, "section: cut across the hoop, " + ("along the purlin" if not crossing.mark else "looking up it"))
    cx, _ = _corner(sizes, crossing)
    bolt = sizes.bolt(1.3)
    slant = _slant(crossing)
    side = 1.0 if crossing.along[0] > 0 else -1.0
    if crossing.ends is not None:
        m.piece_edge(panel, (0, -apart), (side, 0), crossing.ends, crossing.tube_in / slant, reach)
    else:
        m.tube(panel, (-reach, -apart), (reach, -apart), crossing.tube_in / slant if crossing.mark else crossing.tube_in, kind=lit,
               fill="j-fill" if crossing.mark else "pap")
    upper, lower = -radius + 0.28, -apart + 0.02
    _inner(panel, sizes, crossing, lower, cx)
    _outer(panel, sizes, upper, cx)
    m.cut_tube(panel, (0, 0), sizes.hoop_in, axis=(1.5, apart + crossing.tube_in / 2 + 0.6))
    inward = sizes.hardware.bolt_points in ("in", "down")
    points = (0.0, -1.0) if inward else (0.0, 1.0)
    middle, grip = (upper + lower) / 2, upper - lower + 2 * ear
    m.bolt_edge(panel, (cx, middle), points, bolt, grip)
    m.bolt_edge(panel, (-cx, middle), points, bolt, grip)
    m.film(panel, radius + ear, -3.6 if panel.k > 30 else -2.6, 3.6 if panel.k > 30 else 2.6)
    top = radius + ear + 0.3
    m.arrow(panel, panel.at(cx, top if inward else -apart - 1.6), points, 1.7 * panel.k)
    at = panel.at(cx, top + 1.7 if inward else -apart - 3.0)
    said = "bolts point" if sizes.count("bolt") > 1 else "bolt points"
    panel.sheet.text((at[0] + 10, at[1] + 9), f"{said} {sizes.hardware.bolt_points}", size=13, kind="lab")
    first = (middle - grip / 2 - bolt.nut_in / 2) if inward else (middle + grip / 2 + bolt.nut_in / 2)
    many = "s" if sizes.count("nut") > 1 else ""
    if sizes.hardware.nut != "none":
        panel.say((-cx - 0.1, first), "nut", f"nut{many} {sizes.hardware.nut}")
    under = "under the piece" if crossing.mark else "under the purlin"
    panel.say((-0.5, -apart - crossing.tube_in / 2 - ear / 2), "inner strap", "inner half strap", under)
    panel.say((-radius * 0.72 - ear * 0.5, radius * 0.72 + ear * 0.3), "outer strap", "outer half strap")
    touching = crossing.ends is None and abs(apart - radius - crossing.tube_in / 2) < 0.02
    at = ((reach - 1.0) * (side if crossing.ends is not None else 1.0), -apart - 0.15)
    panel.say(at, crossing.thing, crossing.words[0], "touches the hoop" if touching else "inside the hoop", crossing.mark)


def _slant(crossing: Crossing) -> float:
    """How much wider a slanting tube is where it is cut along the structure."""
    return max(abs(crossing.along[0]), 0.5)


def _outer(panel: Panel, sizes: Metal, y: float, cx: float) -> None:
    """The strap over the hoop, cut: half a circle, two legs, two ears whose undersides lie at `y`."""
    inner, out, far = sizes.radius, sizes.radius + sizes.ear, cx + 0.46
    arc = [i * math.pi / 24 for i in range(25)]
    shape = [(far, y), (far, y + sizes.ear), (out, y + sizes.ear), *((out * math.cos(a), out * math.sin(a)) for a in arc),
             (-out, y + sizes.ear), (-far, y + sizes.ear), (-far, y), (-inner, y),
             *((inner * math.cos(a), inner * math.sin(a)) for a in reversed(arc)), (inner, y)]
    panel.sheet.polyline("j-strap", [panel.at(*point) for point in shape], closed=True)
    panel.block([panel.at(-far, y + sizes.ear), panel.at(far, y)])


def _inner(panel: Panel, sizes: Metal, crossing: Crossing, y: float, cx: float) -> None:
    """The strap under the other tube, from the side: 1 width along it, its ears at two corners, their upper sides at `y`."""
    half, far = (sizes.hardware.width_in or 1.25) / 2, cx + 0.46
    low = -crossing.apart_in - crossing.tube_in / 2 - sizes.ear
    shape = [(-far, y), (far, y), (far, y - sizes.ear), (half, y - sizes.ear), (half, low + 0.15), (half - 0.15, low), (-half + 0.15, low),
             (-half, low + 0.15), (-half, y - sizes.ear), (-far, y - sizes.ear)]
    panel.sheet.polyline("clamp", [panel.at(*point) for point in shape], closed=True)
    panel.block([panel.at(-half, y), panel.at(half, low)])
