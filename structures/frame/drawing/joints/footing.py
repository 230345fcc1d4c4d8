"""What the frame stands on and leans against: the foot bolt, a runner, an end wall's upright, a board."""

from __future__ import annotations

import math

from structures.frame.document import Box as Block
from structures.frame.document import Joint, Member
from structures.frame.profile import Profile

from .. import pencils
from ..scene import PIPE_WORDS
from ..sheet import Box
from . import metal as m
from .kinds import JointKind
from .panel import Panel
from .paper import Need, Paper, lay_out
from .sizes import Metal, tube_words

# Drawn so where no file states it, and then without a figure: common practice, no source.
_BOARD_WIDE_IN, _BOARD_THICK_IN, _UPRIGHT_IN = 5.5, 1.5, (1.5, 3.5)


def _first(sizes: Metal, kind: JointKind) -> Joint | None:
    joints = [joint for joint in sizes.document.joints if joint.id in kind.joints]
    return next((joint for joint in joints if joint.side == "right"), joints[0] if joints else None)


# the foot bolt
def draw_foot(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """The leg on its post: the face from outside and the section across both at the bolt."""
    joint = _first(sizes, kind)
    post = next(member for member in sizes.document.members if joint is not None and member.id in joint.holds and member.role == "post")
    up = joint.from_foot_in if joint is not None and joint.from_foot_in is not None else 4.0
    tall, deep = up + 2.6, 2.2
    wide = max(sizes.hoop_in, 2 * post.radius_in) / 2
    face = Need(wide + 3.0, wide + 3.0, tall + 0.5, deep + 0.5)
    paper = lay_out(size, face, Need(3.4, 3.4, 3.6, 2.7))
    _foot_face(paper.face, sizes, post, up, (tall, deep))
    _foot_section(paper.section, sizes, post)
    return paper


def _foot_face(panel: Panel, sizes: Metal, post: Member, up: float, ends: tuple[float, float]) -> None:
    tall, deep = ends
    inside = 2 * post.radius_in < sizes.hoop_in
    end, top = sizes.document.measures.tube_end_in, max(post.start[2], post.end[2])
    m.heading(panel, "face: from outside")
    outer_in, inner_in = (sizes.hoop_in, 2 * post.radius_in) if inside else (2 * post.radius_in, sizes.hoop_in)
    if inside:
        m.tube(panel, (0, -deep), (0, end), inner_in, broken=(True, False), axis=0.0)
        m.tube(panel, (0, end), (0, tall), outer_in, broken=(False, True), axis=0.0)
        hidden = (end, min(top, tall - 0.1), top < tall)
    else:
        m.tube(panel, (0, min(top, tall)), (0, tall), inner_in, broken=(False, True), axis=0.0)
        m.tube(panel, (0, -deep), (0, min(top, tall)), outer_in, broken=(True, top > tall), axis=0.0)
        hidden = (end, min(top, tall - 0.1), True)
    m.centre_line(panel, (0, -deep - 0.3), (0, tall + 0.3))
    low, high, closed = hidden
    for side in (-1, 1):
        panel.sheet.line("hid", panel.at(side * inner_in / 2, low), panel.at(side * inner_in / 2, high))
    at_end = high if inside else low
    if closed:
        panel.sheet.line("hid", panel.at(-inner_in / 2, at_end), panel.at(inner_in / 2, at_end))
    x = outer_in / 2 + 2.2
    for a, b in ((-x, -outer_in / 2), (outer_in / 2, x)):
        pencils.soil(panel.sheet, panel.at(a, 0)[0], panel.at(b, 0)[0], panel.at(0, 0)[1])
        panel.block([panel.at(a, 0), panel.at(b, -0.3)], 2)
    m.hex_face(panel, (0, up), sizes.bolt(outer_in), nut=sizes.hardware.bolt_points == "out")
    m.dimension_beside(panel, -(outer_in / 2 + 1.0), 0, up, sizes.figure(up), -outer_in / 2 - 0.1, right=False)
    panel.say((0.3 * outer_in, tall - 0.6), "hoop", f"hoop’s leg {tube_words(sizes.hoop_in, sizes.units)}")
    reaches = f"stands {sizes.said(top)} up, {'inside' if inside else 'outside'} the leg"
    panel.say((0.3 * inner_in, -deep + 0.5), "post", f"ground post {tube_words(2 * post.radius_in, sizes.units)}", reaches)
    panel.say((0.12, up + 0.1), "bolt head", sizes.part_name("bolt"), "through leg and post")
    panel.say((outer_in / 2 + 1.2, 0.0), "soil", "ground line")


def _foot_section(panel: Panel, sizes: Metal, post: Member) -> None:
    post_in = 2 * post.radius_in
    outer, inner = max(sizes.hoop_in, post_in), min(sizes.hoop_in, post_in)
    m.heading(panel, "section: cut across at the bolt, the outside above")
    m.cut_tube(panel, (0, 0), outer, axis=None)
    m.cut_tube(panel, (0, 0), inner, axis=None)
    m.centre_line(panel, (-outer / 2 - 0.5, 0), (outer / 2 + 0.5, 0))
    inward = sizes.hardware.bolt_points != "out"
    points = (0.0, -1.0) if inward else (0.0, 1.0)
    bolt = sizes.bolt(outer)
    m.bolt_edge(panel, (0, 0), points, bolt, outer)
    start = outer / 2 + bolt.head_in + 0.3
    m.arrow(panel, panel.at(0, -points[1] * start), points, 1.3 * panel.k)
    at = panel.at(0, -points[1] * (start + 1.3))
    panel.sheet.text((at[0] + 12, at[1] + (9 if inward else -2)), f"bolt points {sizes.hardware.bolt_points}", size=13, kind="lab")
    hoop_outer = sizes.hoop_in > post_in
    panel.say((outer * 0.35, outer * 0.345), "hoop" if hoop_outer else "post", "hoop’s leg" if hoop_outer else "ground post")
    panel.say((-inner * 0.345, -inner * 0.33), "post" if hoop_outer else "hoop", "ground post" if hoop_outer else "hoop’s leg")
    if sizes.hardware.nut != "none":
        panel.say((0.1, points[1] * (outer / 2 + bolt.nut_in / 2)), "nut", f"nut {sizes.hardware.nut}")


# a runner under the hoops
def draw_runner(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """A hoop's foot on its runner, or two sticks of a runner spliced: face from outside, section across the runner."""
    joint = _first(sizes, kind)
    held = [member for member in sizes.document.members if joint is not None and member.id in joint.holds]
    runner = next(member for member in held if member.role in PIPE_WORDS)
    spliced = kind.role.startswith("runner splice")
    reach = 4.4 if size != "narrow" else 4.0
    up, down = 1.6 if spliced else 4.3, 2 * runner.radius_in + 1.8
    paper = lay_out(size, Need(reach + 0.8, reach + 0.8, up, down), Need(3.2, 3.2, up, down))
    _runner_face(paper.face, sizes, runner, spliced, reach)
    _runner_section(paper.section, sizes, runner, spliced)
    return paper


def _runner_face(panel: Panel, sizes: Metal, runner: Member, spliced: bool, reach: float) -> None:
    d, y, half = 2 * runner.radius_in, -runner.radius_in, (sizes.hardware.width_in or 3.0) / 2
    m.heading(panel, "face: from outside")
    if spliced:
        m.tube(panel, (-reach, y), (0, y), d, broken=(True, False), axis=0.0)
        m.tube(panel, (0, y), (reach, y), d, broken=(False, True), axis=0.0)
        shown = min(half, reach)
        for v in (0.44 * d, -0.44 * d):
            panel.sheet.line("hid", panel.at(-shown, y + v), panel.at(shown, y + v))
        for x in (-half, half) if half < reach else ():
            panel.sheet.line("hid", panel.at(x, y - 0.44 * d), panel.at(x, y + 0.44 * d))
    else:
        m.tube(panel, (-reach, y), (reach, y), d, axis=0.0)
        m.tube(panel, (0, 0), (0, 3.9), sizes.hoop_in, broken=(False, True), axis=0.0)
        wide = sizes.radius + 0.45
        a, b = panel.at(-wide, min(sizes.hardware.width_in or 1.25, 3.0)), panel.at(wide, -d * 0.55)
        panel.sheet.rect("clamp", Box(a[0], a[1], b[0], b[1]))
        panel.block([a, b])
        panel.say((-0.5, 0.3), "bracket", sizes.hardware.name)
        panel.say((0.4, 3.2), "hoop", f"hoop {tube_words(sizes.hoop_in, sizes.units)}", "stands on the runner")
    m.centre_line(panel, (-reach - 0.3, y), (reach + 0.3, y))
    if spliced and sizes.hardware.width_in:
        long = f"{sizes.said(2 * half)} long, half in each stick"
        if half < reach:
            m.dimension_below(panel, -half, half, y - d / 2 - 0.9, f"{sizes.said(2 * half)} splice", (y - d / 2 - 0.1, y - d / 2 - 0.1))
        panel.say((-min(half, reach) + 0.7, y + 0.1), "bracket", sizes.hardware.name, long)
    panel.say((reach - 1.5, y + 0.15), "runner", f"{PIPE_WORDS[runner.role]} {tube_words(d, sizes.units)}")


def _runner_section(panel: Panel, sizes: Metal, runner: Member, spliced: bool) -> None:
    d, y = 2 * runner.radius_in, -runner.radius_in
    m.heading(panel, f"section: cut across the {PIPE_WORDS[runner.role]}")
    if not spliced:
        m.tube(panel, (0, 0), (0, 3.6), sizes.hoop_in, broken=(False, True))
        panel.say((0.3, 2.6), "hoop", f"hoop {tube_words(sizes.hoop_in, sizes.units)}")
    m.cut_tube(panel, (0, y), d, axis=None)
    if spliced:
        m.cut_tube(panel, (0, y), d * 0.9, axis=None)
    m.centre_line(panel, (-d / 2 - 0.5, y), (d / 2 + 0.5, y))
    panel.say((d * 0.33, y + d * 0.33), "runner", PIPE_WORDS[runner.role])


# the upright of an end wall
def draw_wall(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """An upright under the end hoop, held by its bracket: face from outside the tag end, section across the hoop."""
    joint = _first(sizes, kind)
    wide, deep, stated = _upright(sizes, joint)
    paper = lay_out(size, Need(3.8, 3.8, 2.8, 5.0), Need(3.8, 3.8, 2.2, 5.0))
    profile = Profile.read(sizes.document.profile)
    s = min((joint.from_foot_in if joint is not None else None) or profile.half_in * 0.9, profile.half_in - 1e-6)
    tu, tz = profile.tangent(s)
    _wall_face(paper.face, sizes, (tu, tz), wide, stated)
    _wall_section(paper.section, sizes, deep, stated)
    return paper


def _upright(sizes: Metal, joint: Joint | None) -> tuple[float, float, bool]:
    """An upright's width across and depth along the structure, and whether the document states them."""
    posts: list[Block] = [box for box in sizes.document.boxes if box.kind == "post"]
    if not posts:
        return *_UPRIGHT_IN, False
    at = joint.at[0] if joint is not None else 0.0
    post = min(posts, key=lambda box: abs((box.low[0] + box.high[0]) / 2 - at))
    return post.high[0] - post.low[0], post.high[1] - post.low[1], True


def _wall_face(panel: Panel, sizes: Metal, axis: m.V, wide: float, stated: bool) -> None:
    m.heading(panel, "face: from outside the tag end, right side")
    slope = axis[1] / axis[0] if abs(axis[0]) > 0.05 else 0.0
    half = wide / 2
    drop = sizes.radius * math.hypot(1.0, slope)
    top = [(-half, -slope * half * (1 if slope else 0) - drop), (half, slope * half - drop)]
    corners = [(-half, -4.6), (-half, slope * -half - drop), (half, slope * half - drop), (half, -4.6)]
    panel.sheet.polyline("pap", [panel.at(*point) for point in corners], closed=True)
    panel.sheet.polyline("obj2", [panel.at(*point) for point in corners], solid=True)
    m.break_across(panel, (0, -4.6), (0, -1), half)
    panel.block([panel.at(-half, max(y for _, y in top)), panel.at(half, -4.6)])
    m.tube(panel, m.turned((0, 0), axis, -2.9, 0), m.turned((0, 0), axis, 2.9, 0), sizes.hoop_in)
    _plate(panel, sizes, drop, half)
    panel.say(m.turned((0, 0), axis, 1.9, 0.2), "hoop", f"end hoop {tube_words(sizes.hoop_in, sizes.units)}")
    panel.say((half * 0.3, -4.1), "upright", "upright" + (f" {sizes.figure(wide)} wide" if stated else ""), "the customer’s own timber")


def _plate(panel: Panel, sizes: Metal, drop: float, half: float) -> None:
    """The bracket on the upright: a plate up to the hoop with its screws."""
    x, top, low = half * 0.72, -drop + 0.5, -drop - 2.1
    a, b = panel.at(-x, top), panel.at(x, low)
    panel.sheet.rect("clamp", Box(a[0], a[1], b[0], b[1]))
    count = max(sizes.count("screw"), 2)
    upper = count // 2
    for i in range(count):
        y = (top - 0.28) if i < upper else (-drop - 0.9 - 0.75 * (i - upper))
        across = (i - (upper - 1) / 2) * 0.62 if i < upper else 0.0
        panel.sheet.circle("clamp", panel.at(across, y), 0.16 * panel.k)
        panel.sheet.line("obj1", panel.at(across - 0.1, y), panel.at(across + 0.1, y))
    panel.say((x * 0.7, low + 0.3), "bracket", sizes.part_name("bracket"), f"{count} screws" if sizes.count("screw") else "")


def _wall_section(panel: Panel, sizes: Metal, deep: float, stated: bool) -> None:
    m.heading(panel, "section: cut across the hoop, tag end at left")
    drop, half = sizes.radius, deep / 2
    a, b = panel.at(-half, -drop), panel.at(half, -4.6)
    panel.sheet.rect("pap", Box(a[0], a[1], b[0], b[1]))
    panel.sheet.polyline("obj2", [panel.at(-half, -4.6), panel.at(-half, -drop), panel.at(half, -drop), panel.at(half, -4.6)], solid=True)
    m.break_across(panel, (0, -4.6), (0, -1), half)
    panel.block([a, b])
    m.cut_tube(panel, (0, 0), sizes.hoop_in, axis=(1.4, drop + 0.5))
    r = sizes.radius
    strap = [(-half - 0.12, -drop - 2.1), (-half, -drop - 2.1), (-half, -drop + 0.1), (-r * 0.98, 0.05), (-r * 0.7, r * 0.72),
             (-r * 0.78, r * 0.8), (-r - 0.12, 0.1), (-half - 0.12, -drop + 0.1)]
    panel.sheet.polyline("j-strap", [panel.at(*point) for point in strap], closed=True)
    m.screw_edge(panel, (-half - 0.12, -drop - 1.3), (1.0, 0.0), 1.1)
    m.film(panel, sizes.radius + 0.1, -2.4, 2.4)
    panel.say((-half - 0.06, -drop - 0.4), "bracket", sizes.part_name("bracket"))
    panel.say((half * 0.4, -4.0), "upright", "upright" + (f" {sizes.figure(deep)} deep" if stated else ""))
    panel.say((sizes.radius * 0.7, sizes.radius * 0.66), "hoop", "end hoop")


# a board along the hoops
def draw_board(sizes: Metal, kind: JointKind, size: str) -> Paper:
    """A board on a hoop, held by its strap, or two boards spliced: face from outside, section across the hoop."""
    wide, thick, stated, outside = _board(sizes, kind)
    spliced = sizes.hardware.kind == "splice"
    reach = 4.4 if size != "narrow" else 4.0
    face, section = wide / 2 + 2.2, thick + 3.0
    paper = lay_out(size, Need(reach + 0.8, reach + 0.8, face, face), Need(reach + 0.8, reach + 0.8, section, section))
    _board_face(paper.face, sizes, wide, (reach, stated, outside, spliced))
    _board_section(paper.section, sizes, (wide, thick), (reach, stated, outside, spliced))
    return paper


def _board(sizes: Metal, kind: JointKind) -> tuple[float, float, bool, bool]:
    """A board's width and thickness, whether they are stated, and whether it lies outside the hoop's line."""
    document = sizes.document
    bars = [bar for bar in document.bars if bar.kind.endswith("board")]
    if not bars:
        return _BOARD_WIDE_IN, _BOARD_THICK_IN, False, True
    held = {member.from_.rpartition("-")[2] for member in document.members for joint in document.joints
            if joint.id in kind.joints and member.id in joint.holds}
    bar = next((one for one in bars if one.id.partition(":")[0].rpartition("-")[2] in held), bars[0])
    profile = Profile.read(document.profile)
    return bar.wide_in, bar.thick_in, True, profile.depth(abs(bar.x), bar.z) < 0


def _board_face(panel: Panel, sizes: Metal, wide: float, how: tuple[float, bool, bool, bool]) -> None:
    reach, stated, outside, spliced = how
    m.heading(panel, "face: from outside, right side, tag end at left")
    half, tall = wide / 2, wide / 2 + 1.7
    a, b = panel.at(-reach, half), panel.at(reach, -half)
    if not spliced:
        m.tube(panel, (0, -tall), (0, tall), sizes.hoop_in)
    if outside or spliced:
        panel.sheet.rect("pap", Box(a[0], a[1], b[0], b[1]))
    for y in (half, -half):
        spans = [(-reach, reach)] if outside or spliced else [(-reach, -sizes.radius), (sizes.radius, reach)]
        for x0, x1 in spans:
            panel.sheet.line("obj2", panel.at(x0, y), panel.at(x1, y), solid=True)
    for x in (-reach, reach):
        m.break_across(panel, (x, 0), (1, 0), half)
    panel.block([a, b])
    if not spliced and outside:
        for x in (-sizes.radius, sizes.radius):
            panel.sheet.line("hid", panel.at(x, half), panel.at(x, -half))
    if spliced:
        panel.sheet.line("obj2", panel.at(0, half), panel.at(0, -half), solid=True)
    _board_screws(panel, sizes, spliced)
    panel.say((reach - 0.7, half * 0.7), "board", "board" + (f" {sizes.figure(wide)} wide" if stated else ""))
    if not spliced:
        where = "behind the board" if outside else "before the board"
        panel.say((0.3, tall - 0.6), "hoop", f"hoop {tube_words(sizes.hoop_in, sizes.units)}", where)


def _board_screws(panel: Panel, sizes: Metal, spliced: bool) -> None:
    """The strap behind the board, or the plate across two boards' ends, with its screws."""
    count = max(sizes.count("screw"), 2)
    if spliced:
        width = sizes.hardware.width_in or 8.0
        shown = min(width / 2, 3.4)
        a, b = panel.at(-shown, 1.2), panel.at(shown, -1.2)
        panel.sheet.rect("clamp", Box(a[0], a[1], b[0], b[1]))
        each = count // 2
        spots = [(side * (i + 0.6) * shown / (each + 0.4), 0.0) for side in (1, -1) for i in range(each)]
        panel.say((shown - 0.3, 0.8), "bracket", sizes.hardware.name, "half on each board")
    else:
        wrap = sizes.radius + 0.08
        for y in (0.6, -0.6):
            panel.sheet.line("hid", panel.at(-wrap - 1.0, y), panel.at(wrap + 1.0, y))
        spots = [(wrap + 0.6, 0.0), (-wrap - 0.6, 0.0)]
        panel.say((-wrap - 0.35, -0.45), "bracket", sizes.part_name("strap"), "round the hoop")
    seen = _points_in(sizes) or spliced
    for x, y in spots:
        panel.sheet.circle("clamp" if seen else "hid", panel.at(x, y), 0.16 * panel.k)
        if seen:
            panel.sheet.line("obj1", panel.at(x - 0.1, y), panel.at(x + 0.1, y))


def _board_section(panel: Panel, sizes: Metal, board: tuple[float, float], how: tuple[float, bool, bool, bool]) -> None:
    (_, thick), (reach, stated, outside, spliced) = board, how
    sign = 1.0 if outside else -1.0
    m.heading(panel, "section: cut across the hoop, looking up it" if not spliced else "section: cut along the boards, from above")
    near = sizes.radius * sign if not spliced else 0.0
    far = near + thick * sign
    low, high = min(near, far), max(near, far)
    for x0, x1 in [(-reach, 0.0), (0.0, reach)] if spliced else [(-reach, reach)]:
        a, b = panel.at(x0, high), panel.at(x1, low)
        panel.sheet.rect("pap", Box(a[0], a[1], b[0], b[1]))
        panel.sheet.polyline("obj2", [a, (b[0], a[1]), b, (a[0], b[1])], closed=True)
        panel.sheet.strokes += [(a[0], a[1], b[0], a[1]), (a[0], b[1], b[0], b[1])]
    panel.block([panel.at(-reach, high), panel.at(reach, low)])
    for x in (-reach, reach):
        m.break_across(panel, (x, (low + high) / 2), (1, 0), thick / 2)
    if spliced:
        a, b = panel.at(-3.2, low), panel.at(3.2, low - 0.12)
        panel.sheet.rect("j-strap", Box(a[0], a[1], b[0], b[1]))
        for x in (-1.6, 1.6):
            m.screw_edge(panel, (x, low - 0.12), (0.0, 1.0))
        panel.say((2.4, low - 0.06), "bracket", sizes.hardware.name)
    else:
        _strap_on_board(panel, sizes, (near, far), sign)
        m.film(panel, max(sizes.radius, high) + 0.12, -reach, reach, over=True)
        panel.say((sizes.radius * 0.69, -sign * sizes.radius * 0.69), "hoop", f"hoop {tube_words(sizes.hoop_in, sizes.units)}")
    panel.say((reach - 1.4, (low + high) / 2), "board", "board" + (f" {sizes.figure(thick)} thick" if stated else ""))


def _points_in(sizes: Metal) -> bool:
    return sizes.hardware.bolt_points not in ("out", "up")


def _strap_on_board(panel: Panel, sizes: Metal, faces: tuple[float, float], sign: float) -> None:
    """The strap round the hoop's far side, its ends screwed to the board: from outside where its screws point in."""
    (near, far), r, t = faces, sizes.radius, 0.1
    arc = [math.pi + i * math.pi / 20 for i in range(21)]
    legs = r + 1.0
    outer = [(-legs, near - t * sign), (-r - t, near - t * sign), *(((r + t) * math.cos(a), (r + t) * math.sin(a) * sign) for a in arc),
             (r + t, near - t * sign), (legs, near - t * sign)]
    inner = [(legs, near), (r, near), *((r * math.cos(a), r * math.sin(a) * sign) for a in reversed(arc)), (-r, near), (-legs, near)]
    panel.sheet.polyline("j-strap", [panel.at(*point) for point in [*outer, *inner]], closed=True)
    m.cut_tube(panel, (0, 0), sizes.hoop_in, axis=(1.5, 1.5))
    out_face, in_face = (far, near - t) if sign > 0 else (near + t, far)
    way, head = (-1.0, out_face) if _points_in(sizes) else (1.0, in_face)
    for x in (-r - 0.6, r + 0.6):
        m.screw_edge(panel, (x, head), (0.0, way), abs(far - near) + (0.35 if sign * way < 0 else -0.3))
    panel.block([panel.at(-legs, near), panel.at(legs, near - t * sign)])
    panel.say((-r - 0.6, head - 0.06 * way), "screw", "screws", f"point {'in' if way < 0 else 'out'}")
    panel.say(((r + t / 2) * 0.5, -(r + t / 2) * 0.866 * sign), "bracket", sizes.part_name("strap"))
