"""A purlin's joints: its end at the end hoop, and the slip joint of two sticks. And the seam of a hoop, made the same way."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Joint, Member

from ..sheet import Box
from . import metal as m
from .kinds import JointKind, bands_at
from .panel import Panel
from .paper import Need, Paper, lay_out
from .sizes import Metal, tube_words, usual_flat


@dataclass(frozen=True, slots=True)
class Cuts:
    """A length that is drawn with pieces taken out of it: pairs of inches between which nothing is drawn."""

    out: tuple[tuple[float, float], ...]

    def at(self, y: float) -> float:
        """Where y comes to lie once what is before it has been taken out."""
        return y - sum(min(max(y - a, 0.0), b - a) for a, b in self.out)


def draw_slip(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """Two tubes that go into each other: the plain end's mouth, the swage inside, the screw."""
    seam = kind.role == "seam"
    tube_in = sizes.hoop_in if seam else sizes.document.tubes.get("stick", 1.315)
    swage, screw = _swage(sizes, kind, seam)
    left, right = 2.6, swage + 2.4
    if size == "narrow":
        left, right = 1.9, min(right, 8.6)
    need = Need(left + 0.5, right + 0.5, 2.3, 2.4)
    # a purlin lies under its hoops, so the film is a hoop farther off
    above = tube_in / 2 + 0.14 + (0.0 if seam else sizes.hoop_in)
    paper = lay_out(size, need, Need(left + 0.5, right + 0.5, above + 1.0, 3.2))
    names = ("upper section, plain end", "lower section, swaged end") if seam else ("plain end", "swaged end")
    _slip_face(paper.face, sizes, tube_in, swage, (left, right), names, seam)
    _slip_section(paper.section, sizes, tube_in, swage, screw, (left, right, above))
    return paper


def _swage(sizes: Metal, kind: JointKind, seam: bool) -> tuple[float, float | None]:
    """How far the swaged end reaches in, and how far from the mouth its screw goes; None where no place tells."""
    document = sizes.document
    members = {member.id: member for member in document.members}
    joint = next(j for j in document.joints if j.id in kind.joints)
    held = [members[one] for one in joint.holds if one in members]
    made = {line.part: line.length_in for line in document.lines}
    lengths = [(made.get(one.part) or one.length_in) - _covers(one) for one in held]
    swage = max([length for length in lengths if 0.5 < length < 24], default=6.0)
    return swage, _from_mouth(sizes, joint, held) if seam else None


def _covers(member: Member) -> float:
    """How much of its line a member covers, from mouth to mouth."""
    if member.s_from_in is not None and member.s_to_in is not None:
        return member.s_to_in - member.s_from_in
    return abs(member.end[1] - member.start[1])


def _from_mouth(sizes: Metal, joint: Joint, held: list[Member]) -> float | None:
    """How far a seam's screw lies from where two sections meet."""
    half = sizes.document.measures.ridge_mark_in
    if joint.from_foot_in is None or len(held) != 2 or held[0].s_to_in is None:
        return None
    mark = held[0].s_to_in if joint.side != "right" else 2 * half - held[0].s_to_in
    return abs(joint.from_foot_in - mark)


def _slip_face(panel: Panel, sizes: Metal, tube_in: float, swage: float, ends: tuple[float, float], names: tuple[str, str],
               seam: bool) -> None:
    left, right = ends
    half, neck = tube_in / 2, tube_in / 2 * 0.88
    m.heading(panel, "face: from outside, the tube laid level")
    m.tube(panel, (-left, 0), (0, 0), tube_in, broken=(True, False), axis=0.0)
    m.tube(panel, (0, 0), (right, 0), tube_in, broken=(False, True), axis=0.0)
    m.centre_line(panel, (-left - 0.3, 0), (right + 0.3, 0))
    panel.sheet.polyline("hid", [panel.at(0, neck), panel.at(swage, neck), panel.at(swage, -neck), panel.at(0, -neck)])
    m.dimension_below(panel, 0, swage, -half - 1.1, f"{sizes.said(swage)} swage inside", (-half - 0.1, -half - 0.1))
    panel.say((right - 0.8, 0.25), "stick", names[0], f"tube {tube_words(tube_in, sizes.units)}")
    panel.say((-left + 0.8, 0.25), "swage", names[1])
    panel.say((0, half - 0.2), "mouth", "the mouth", "the seam’s mark" if seam else "the slip joint")


def _slip_section(panel: Panel, sizes: Metal, tube_in: float, swage: float, screw: float | None,
                  ends: tuple[float, float, float]) -> None:
    left, right, above = ends
    half, wall, neck = tube_in / 2, tube_in * 0.045, tube_in / 2 * 0.955
    inner = neck - wall
    up = sizes.hardware.bolt_points in ("up", "out")
    m.heading(panel, "section: cut along the tube" + (", film above" if panel.k > 30 else ""))
    for sign in (1, -1):
        outer = [(0, half), (right, half), (right, half - wall), (0, half - wall)]
        swaged = [(-left, half), (-0.35, half), (0, neck), (swage, neck), (swage, inner), (0, inner), (-0.35, half - wall),
                  (-left, half - wall)]
        for shape in (outer, swaged):
            panel.sheet.polyline("j-strap", [panel.at(x, y * sign) for x, y in shape], closed=True)
    for x in (-left, right):
        m.break_across(panel, (x, 0), (1, 0), half)
    m.centre_line(panel, (-left - 0.3, 0), (right + 0.3, 0))
    panel.block([panel.at(-left, half), panel.at(right, -half)])
    at = screw if screw is not None else swage / 2
    way = (0.0, 1.0) if up else (0.0, -1.0)
    m.screw_edge(panel, (at, -half * way[1]), way)
    m.film(panel, above, -left, right, over=True)
    m.arrow(panel, panel.at(at, -(half + 0.45) * way[1]), way, 1.2 * panel.k)
    tail = panel.at(at, -(half + 1.65) * way[1])
    panel.sheet.text((tail[0] + 12, tail[1]), f"screw points {sizes.hardware.bolt_points}", size=13, kind="lab")
    if screw is not None:
        m.dimension_across(panel, 0, at, half + 0.75, sizes.figure(screw), (half + 0.25, half + 0.25))
    panel.say((at, -(half + 0.08) * way[1]), "screw", "one screw, right after its stick" if screw is None else "one screw",
              "from below" if up else "from outside")


def draw_end(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """A purlin's end at the end hoop: two bands, the flat with two holes, and how far on its slip joint lies."""
    document = sizes.document
    joint = next(j for j in document.joints if j.id in kind.joints and j.hoop == 1 and j.side in ("right", ""))
    end = next(member for member in document.members if member.id in joint.holds and member.role == "end")
    bands = bands_at(document.joints, joint)
    lay = abs(end.end[1] - end.start[1])
    made = next((line.length_in for line in document.lines if line.part == end.part), None) or lay + 6
    tight = size != "wide"
    cuts = Cuts(((4.0, max(4.0, lay - 1.6)), (lay + 1.3, max(lay + 1.3, made - 1.3))) if tight else ())
    spots = _spots(sizes, kind, [band.from_foot_in or 0.0 for band in bands])
    reach = cuts.at(made) + (1.3 if tight else 4.2)
    tall = max(spots) + 1.9
    face = Need(2.5 if not tight else 1.9, reach + 0.5, tall + 1.0, tall + 0.7)
    section = Need(face.left, face.right, 3.4, 3.2)
    paper = lay_out(size, face, section, stacked=True)
    _end_face(paper.face, sizes, end, spots, (lay, made, reach), cuts, tall)
    _end_section(paper.section, sizes, end, (lay, made, reach), cuts)
    return paper


def _spots(sizes: Metal, kind: JointKind, marks: list[float]) -> list[float]:
    """The bands' centres above and below the run's line; at the ridge one lies each side of the bend."""
    if kind.role == "end ridge":
        away = sizes.document.measures.ridge_mark_in - marks[0]
        return [-away, away]
    middle = sum(marks) / len(marks)
    return [mark - middle for mark in marks]


def _end_face(panel: Panel, sizes: Metal, end: Member, spots: list[float], ys: tuple[float, float, float], cuts: Cuts, tall: float) -> None:
    lay, made, reach = ys
    tube_in, width = 2 * end.radius_in, sizes.hardware.width_in or 1.25
    offset = sizes.offset or sizes.radius + 0.7
    half, flat = tube_in / 2, max(spots) + 0.46
    m.heading(panel, "face: from outside, right side, tag end at left")
    m.tube(panel, (0, -tall), (0, tall), sizes.hoop_in)
    x0 = offset - 0.45
    shape = [(x0, flat), (offset + 0.8, flat), (offset + 2.0, half), (cuts.at(lay), half)]
    outline = [panel.at(x, y) for x, y in shape] + [panel.at(x, -y) for x, y in reversed(shape)]
    panel.sheet.polyline("j-lit", outline, closed=True)
    panel.sheet.strokes += [(*a, *b) for a, b in zip(outline, outline[1:], strict=False)]
    for v in (0.3, -0.3):
        panel.sheet.line("obj1", panel.at(offset + 0.95, v * 1.4), panel.at(offset + 1.8, v))
    for y in spots:
        m.band_face(panel, (0, y), (1, 0), width, (sizes.radius, sizes.ear, offset))
        m.hex_face(panel, (offset, y), sizes.bolt(2 * sizes.ear), nut=sizes.hardware.bolt_points in ("up", "out"))
    m.tube(panel, (cuts.at(lay), 0), (reach, 0), tube_in, broken=(False, True), axis=0.0)
    neck = half * 0.88
    a, b = cuts.at(lay), cuts.at(made)
    panel.sheet.polyline("hid", [panel.at(a, neck), panel.at(b, neck), panel.at(b, -neck), panel.at(a, -neck)])
    m.centre_line(panel, (-sizes.radius - 0.8, 0), (reach + 0.3, 0))
    panel.block([panel.at(offset, max(flat, half)), panel.at(reach, -half)])
    _gaps(panel, cuts, half)
    m.dimension_across(panel, 0, cuts.at(lay), tall + 0.55, f"{sizes.said(lay)} to the joint", (tall + 0.1, half + 0.1))
    words = sizes.said(made - lay) if cuts.out else f"{sizes.said(made - lay)} swage inside"
    m.dimension_below(panel, a, b, -half - 1.0, words, (-half - 0.1, -half - 0.1))
    ridge = len(spots) == 2 and spots[1] - spots[0] > width + 0.05
    panel.say((-0.35, min(spots) - 0.2), "band", "two bands", "one each side of the bend" if ridge else "butted")
    panel.say((cuts.at(3.4), 0.25), "purlin end", "purlin end", "flat end, two holes, one to each band")
    panel.say((reach - 0.7, 0.3), "stick", "first stick, plain end")
    panel.say((-0.35, tall - 0.6), "hoop", f"end hoop {tube_words(sizes.hoop_in, sizes.units)}")


def _gaps(panel: Panel, cuts: Cuts, half: float) -> None:
    """A long break where a length has been taken out."""
    for a, b in cuts.out:
        if b - a < 0.05:
            continue
        x = cuts.at(a)
        wide = 0.09
        low, high = panel.at(x - wide, half + 0.12), panel.at(x + wide, -half - 0.12)
        panel.sheet.rect("mask", Box(low[0], low[1], high[0], high[1]))
        for side in (-wide, wide):
            m.break_across(panel, (x + side, 0), (1, 0), half)


def _end_section(panel: Panel, sizes: Metal, end: Member, ys: tuple[float, float, float], cuts: Cuts) -> None:
    lay, made, reach = ys
    tube_in = 2 * end.radius_in
    offset = sizes.offset or sizes.radius + 0.7
    half = tube_in / 2
    flat = usual_flat(tube_in)
    drop = sizes.radius + half
    m.heading(panel, "section: cut across the hoop, film above")
    m.piece_edge(panel, (offset, 0), (1, 0), flat, tube_in, cuts.at(lay) - offset, drop=drop, broken=False)
    m.strap_section(panel, (1, 0), sizes.radius, sizes.ear, flat.thick_in, offset + m.hole_to_edge(sizes.hardware.width_in or 1.25))
    m.cut_tube(panel, (0, 0), sizes.hoop_in)
    inward = sizes.hardware.bolt_points in ("in", "down")
    points = (0.0, -1.0) if inward else (0.0, 1.0)
    grip = flat.thick_in + 2 * sizes.ear
    bolt = sizes.bolt(grip)
    m.bolt_edge(panel, (offset, 0), points, bolt, grip)
    m.tube(panel, (cuts.at(lay), -drop), (reach, -drop), tube_in, broken=(False, True), axis=0.0)
    a, b, neck = cuts.at(lay), cuts.at(made), half * 0.88
    panel.sheet.polyline("hid", [panel.at(a, neck - drop), panel.at(b, neck - drop), panel.at(b, -neck - drop), panel.at(a, -neck - drop)])
    shifted = Panel(panel.sheet, panel.at(0, -drop), panel.k, panel.room)
    _gaps(shifted, cuts, half)
    panel.solids += shifted.solids
    m.screw_edge(panel, ((a + b) / 2 if not cuts.out else a + 0.8, -drop - half), (0.0, 1.0))
    m.film(panel, sizes.radius + sizes.ear, -1.7, reach, over=True)
    top = sizes.radius + sizes.ear + 0.3
    m.arrow(panel, panel.at(offset, top if inward else -drop - half - 0.5), points, 1.2 * panel.k)
    at = panel.at(offset, top + 1.2 if inward else -drop - half - 1.6)
    panel.sheet.text((at[0] + 12, at[1] + 9), f"both bolts point {sizes.hardware.bolt_points}", size=13, kind="lab")
    if sizes.hardware.nut != "none":
        panel.say((offset - 0.15, points[1] * (grip / 2 + bolt.nut_in / 2)), "nut", f"nuts {sizes.hardware.nut}")
    panel.say((cuts.at(lay) - 1.2, -drop - 0.2), "purlin end", "set down to the purlin’s own line", "under the next hoop")
    panel.say(((a + b) / 2 if not cuts.out else a + 0.8, -drop - half - 0.06), "screw", "one screw from below", "right after its stick")
