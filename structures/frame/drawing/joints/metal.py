"""The shapes that joints are drawn with: tubes, flattened ends, bands, bolts, screws, the film and the arrow of a bolt."""

from __future__ import annotations

import math
from collections.abc import Sequence

from structures.frame.document import Flat

from .. import pencils
from ..sheet import XY
from .panel import Panel
from .sizes import Bolt, wall_in

V = tuple[float, float]
PRESSED = math.pi / 4              # half of a flattened tube's width, for a diameter of one: half the girth, less its bends


def turned(at: V, along: V, u: float, v: float) -> V:
    """The place u along a unit direction and v to its left, from a point."""
    return at[0] + u * along[0] - v * along[1], at[1] + u * along[1] + v * along[0]


def tube(panel: Panel, a: V, b: V, diameter: float, *, broken: tuple[bool, bool] = (True, True), kind: str = "obj2",
         fill: str = "pap", axis: float = 0.3) -> None:
    """A tube seen from the side from a to b: paper inside, its edges, long breaks where it goes on, its axis."""
    along, length = _unit(a, b)
    half = diameter / 2
    corners = [panel.at(*turned(a, along, u, v)) for u, v in ((0, half), (length, half), (length, -half), (0, -half))]
    panel.sheet.polyline(fill, corners, closed=True)
    panel.sheet.line(kind, corners[0], corners[1], solid=True)
    panel.sheet.line(kind, corners[3], corners[2], solid=True)
    for end, cut, near, far in ((0.0, broken[0], corners[0], corners[3]), (length, broken[1], corners[1], corners[2])):
        if cut:
            break_across(panel, turned(a, along, end, 0), along, half)
        else:
            panel.sheet.line(kind, near, far, solid=True)
    if axis:
        centre_line(panel, turned(a, along, -axis, 0), turned(a, along, length + axis, 0))
    panel.block_along(panel.at(*a), panel.at(*b), half * panel.k + 3)


def centre_line(panel: Panel, a: V, b: V) -> None:
    """An axis, which no label lies across."""
    panel.sheet.line("cen", panel.at(*a), panel.at(*b))
    panel.thin.append((*panel.at(*a), *panel.at(*b)))


def break_across(panel: Panel, at: V, along: V, half: float) -> None:
    """The zigzag across a tube that goes on."""
    px = 1 / panel.k
    steps = [(0, half + 5 * px), (0, 4 * px), (-4 * px, 1 * px), (4 * px, -2 * px), (0, -5 * px), (0, -half - 5 * px)]
    points = [panel.at(*turned(at, along, u, v)) for u, v in steps]
    panel.sheet.polyline("mask-l", [panel.at(*turned(at, along, 0, half)), panel.at(*turned(at, along, 0, -half))])
    panel.sheet.polyline("brk", points)


def _unit(a: V, b: V) -> tuple[V, float]:
    length = math.dist(a, b) or 1.0
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length), length


def flat_outline(flat: Flat, diameter: float) -> list[V]:
    """The upper half of a flattened end on its face, (u, v) from the hole along the piece, tip first.

    Behind the hole the end is rounded about it; the trimmed flat widens to the pressed width and narrows to the tube.
    """
    half, wide, tube_half = flat.width_in / 2, max(flat.width_in / 2, PRESSED * diameter * 0.94), diameter / 2
    r, back = flat.round_in, flat.length_in
    points: list[V] = []
    for i in range(13):
        angle = math.pi - i * math.pi / 24
        points.append((max(r * math.cos(angle), -back), min(r * math.sin(angle), half)))
    points += [(0.0, min(r, half)), (0.8, half)]
    points += _eased((0.8, half), (1.45, wide)) + _eased((1.75, wide), (3.1, tube_half))
    return points


def _eased(a: V, b: V, steps: int = 8) -> list[V]:
    """A gentle S from one half width to another."""
    found = []
    for i in range(steps + 1):
        t = i / steps
        found.append((a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t * t * (3 - 2 * t)))
    return found


def piece_face(panel: Panel, hole: V, along: V, flat: Flat, diameter: float, length: float, kind: str = "j-lit") -> list[XY]:
    """A flattened piece on its face from its hole along a direction, broken off after `length`; returns its tip's outline."""
    half = [point for point in flat_outline(flat, diameter) if point[0] <= length]
    upper = [turned(hole, along, u, v) for u, v in [*half, (length, diameter / 2)]]
    lower = [turned(hole, along, u, -v) for u, v in [*half, (length, diameter / 2)]]
    outline = [panel.at(*point) for point in [*upper, *reversed(lower)]]
    panel.sheet.polyline(kind, outline, closed=True)
    panel.sheet.strokes += [(*a, *b) for a, b in zip(outline, outline[1:], strict=False)]
    for sign in (1, -1):
        a, b = turned(hole, along, 1.35, 0.34 * sign), turned(hole, along, 2.25, 0.2 * sign)
        panel.sheet.line("obj1", panel.at(*a), panel.at(*b))
    break_across(panel, turned(hole, along, length, 0), along, diameter / 2)
    panel.block_along(panel.at(*hole), panel.at(*turned(hole, along, length, 0)), 0.72 * diameter * panel.k)
    tip = 14
    return [panel.at(*point) for point in [*reversed(lower[:tip]), *upper[:tip]]]


def piece_edge(panel: Panel, hole: V, along: V, flat: Flat, diameter: float, length: float, kind: str = "j-lit", drop: float = 0.0,
               broken: bool = True) -> None:
    """A flattened piece on its edge: two walls thick, swelling to the tube; `drop` sets the tube's axis that much lower."""
    thin, half, back = flat.thick_in / 2, diameter / 2, flat.length_in
    end = 2.5 + drop * 0.4
    upper = [(-back, thin), *_eased((1.15, thin), (end, half)), (length, half)]
    shape = [turned(hole, along, u, v - drop * _share(u, end)) for u, v in upper]
    shape += [turned(hole, along, u, -v - drop * _share(u, end)) for u, v in reversed(upper)]
    outline = [panel.at(*point) for point in shape]
    panel.sheet.polyline(kind, outline, closed=True)
    panel.sheet.strokes += [(*a, *b) for a, b in zip(outline, outline[1:], strict=False)]
    if broken:
        break_across(panel, turned(hole, along, length, -drop), along, half)
    panel.block_along(panel.at(*turned(hole, along, 1.6, -drop)), panel.at(*turned(hole, along, length, -drop)), half * panel.k + 3)
    panel.block_along(panel.at(*hole), panel.at(*turned(hole, along, 1.6, 0)), 6)


def _share(u: float, end: float) -> float:
    """How far a set-down end has come to its own line, u inches beyond the hole."""
    t = min(1.0, max(0.0, (u - 1.15) / (end - 1.15)))
    return t * t * (3 - 2 * t)


def band_face(panel: Panel, at: V, ear: V, width: float, sizes: tuple[float, float, float]) -> None:
    """A band on its face, drawn over the piece: round a tube through `at`, its ear along the unit direction `ear`.

    `sizes` are the tube's radius, the ear's thickness and how far the hole lies from the tube's axis.
    """
    radius, thick, hole = sizes
    reach, half, wrap, r = hole + hole_to_edge(width), width / 2, radius + thick, 0.2
    round_in = [(reach - r + r * math.sin(a), half - r + r * math.cos(a)) for a in (i * math.pi / 12 for i in range(7))]
    tab = [(radius - 0.08, half), *round_in, *((u, -v) for u, v in reversed(round_in)), (radius - 0.08, -half)]
    panel.sheet.polyline("clamp", [panel.at(*turned(at, ear, u, v)) for u, v in tab], closed=True)
    corners = [panel.at(*turned(at, ear, u, v)) for u, v in ((-wrap, half), (wrap, half), (wrap, -half), (-wrap, -half))]
    panel.sheet.polyline("clamp", corners, closed=True)
    fold = wrap + 0.3
    panel.sheet.line("obj1", panel.at(*turned(at, ear, fold, half)), panel.at(*turned(at, ear, fold, -half)))
    panel.block_along(panel.at(*turned(at, ear, -wrap + half * 0.8, 0)), panel.at(*turned(at, ear, reach - half * 0.8, 0)), half * panel.k)
    for v in (half, -half):
        panel.sheet.strokes.append((*panel.at(*turned(at, ear, -wrap, v)), *panel.at(*turned(at, ear, reach, v))))


def hole_to_edge(width: float) -> float:
    """How far an ear reaches beyond its hole: half a band's width and a little."""
    return width / 2 + 0.07


def hex_face(panel: Panel, at: V, bolt: Bolt, *, nut: bool) -> None:
    """A bolt seen along its axis: its head, or its nut with the thread in it."""
    across = bolt.flats_in / math.sqrt(3)
    points = [panel.at(at[0] + across * math.cos(i * math.pi / 3), at[1] + across * math.sin(i * math.pi / 3)) for i in range(6)]
    panel.sheet.polyline("clamp", points, closed=True)
    panel.sheet.circle("obj1", panel.at(*at), bolt.flats_in * 0.4 * panel.k)
    if nut:
        panel.sheet.circle("clamp", panel.at(*at), bolt.d_in / 2 * panel.k)


def cut_tube(panel: Panel, at: V, diameter: float, *, axis: tuple[float, float] | None = (1.45, 1.45)) -> None:
    """A tube cut across: its wall in solid ink, paper inside, its centre line from above to below."""
    panel.sheet.circle("j-cut", panel.at(*at), diameter / 2 * panel.k)
    panel.sheet.circle("j-hole", panel.at(*at), (diameter / 2 - wall_in(diameter)) * panel.k)
    if axis is not None:
        centre_line(panel, (at[0], at[1] + axis[0]), (at[0], at[1] - axis[1]))
    half = diameter / 2
    panel.block([panel.at(at[0] - half, at[1] + half), panel.at(at[0] + half, at[1] - half)])
    ring = [panel.at(at[0] + half * math.cos(a), at[1] + half * math.sin(a)) for a in (i * math.pi / 6 for i in range(13))]
    panel.sheet.strokes += [(*a, *b) for a, b in zip(ring, ring[1:], strict=False)]


def strap_section(panel: Panel, along: V, radius: float, ear: float, grip: float, reach: float) -> None:
    """A band cut across: both its halves round the tube at the origin and out along two ears, `grip` apart.

    `along` is the unit direction in which the ears point.
    """
    out = radius + ear
    for sign in (1, -1):
        start, stop = math.pi, 0.62
        outer = [(out * math.cos(a), out * math.sin(a)) for a in _steps(start, stop)]
        inner = [(radius * math.cos(a), radius * math.sin(a)) for a in _steps(stop + 0.1, start)]
        neck = out + 0.27
        shape = [*outer, *_bend(outer[-1], (neck, grip / 2 + ear)), (reach, grip / 2 + ear), (reach, grip / 2),
                 *_bend((neck, grip / 2), inner[0], late=True), *inner]
        panel.sheet.polyline("j-strap", [panel.at(*turned((0.0, 0.0), along, u, sign * v)) for u, v in shape], closed=True)
    panel.block([panel.at(-out, out), panel.at(out, -out)])
    panel.block([panel.at(*turned((0.0, 0.0), along, u, v)) for u, v in ((out, grip / 2 + ear), (reach, -grip / 2 - ear))])


def _steps(a: float, b: float, steps: int = 22) -> list[float]:
    return [a + (b - a) * i / steps for i in range(steps + 1)]


def _bend(a: V, b: V, late: bool = False) -> list[V]:
    """A quarter turn from one point to another."""
    corner = (b[0] - 0.2, a[1] - 0.0) if late else (a[0] + 0.06, b[1])
    if late:
        corner = (b[0] + 0.06, a[1])
    return [((1 - t) ** 2 * a[0] + 2 * t * (1 - t) * corner[0] + t * t * b[0],
             (1 - t) ** 2 * a[1] + 2 * t * (1 - t) * corner[1] + t * t * b[1]) for t in (0.15, 0.3, 0.45, 0.6, 0.75, 0.9, 1.0)]


def bolt_edge(panel: Panel, at: V, points: V, bolt: Bolt, grip: float) -> None:
    """A bolt from the side: `at` is the middle of what it holds, `points` the way its thread points, `grip` from head to nut."""
    def box(u0: float, u1: float, half: float, kind: str) -> None:
        corners = [panel.at(*turned(at, points, u, v)) for u, v in ((u0, half), (u1, half), (u1, -half), (u0, -half))]
        panel.sheet.polyline(kind, corners, closed=True)

    half, flats, under = bolt.d_in / 2, bolt.flats_in / 2, -grip / 2
    tail = under + bolt.length_in
    box(under - bolt.head_in, under, flats, "clamp")
    box(under, tail, half, "pap-s")
    first = grip / 2 + bolt.nut_in
    for u in [first + 0.06 + 0.055 * i for i in range(12)]:
        if u < tail - 0.02:
            panel.sheet.line("obj1", panel.at(*turned(at, points, u, half)), panel.at(*turned(at, points, u + 0.03, -half)))
    box(grip / 2, first, flats, "clamp")
    for v in (flats / 2, -flats / 2):
        panel.sheet.line("obj1", panel.at(*turned(at, points, under - bolt.head_in, v)), panel.at(*turned(at, points, under, v)))
        panel.sheet.line("obj1", panel.at(*turned(at, points, grip / 2, v)), panel.at(*turned(at, points, first, v)))
    panel.block([panel.at(*turned(at, points, u, v)) for u, v in ((under - bolt.head_in, flats), (max(tail, first), -flats))], 2)


def screw_edge(panel: Panel, head: V, points: V, length: float = 0.75, d: float = 0.2) -> None:
    """A self-drilling screw from the side, its head's seat at `head`."""
    def at(u: float, v: float) -> XY:
        return panel.at(*turned(head, points, u, v))
    panel.sheet.polyline("clamp", [at(-0.13, d), at(0, d * 1.2), at(0, -d * 1.2), at(-0.13, -d)], closed=True)
    panel.sheet.polyline("clamp", [at(0, d / 2), at(length - 0.18, d / 2), at(length, 0), at(length - 0.18, -d / 2), at(0, -d / 2)],
                         closed=True)
    for i in range(6):
        u = 0.1 + i * (length - 0.3) / 6
        panel.sheet.line("obj1", at(u, d / 2), at(u + 0.05, -d / 2))
    panel.block([at(-0.15, d * 1.3), at(length, -d * 1.3)], 2)


def arrow(panel: Panel, at: XY, points: V, length: float = 66) -> None:
    """The arrow of a bolt in px: from its head's side to its tail's, the tip at `at`."""
    tip = at
    back = (at[0] - points[0] * length, at[1] + points[1] * length)
    neck = (at[0] - points[0] * 9, at[1] + points[1] * 9)
    side = (-points[1] * 5.5, -points[0] * 5.5)
    base = (at[0] - points[0] * 11, at[1] + points[1] * 11)
    panel.sheet.line("j-arr", back, neck)
    panel.sheet.polyline("arrow", [tip, (base[0] + side[0], base[1] + side[1]), (base[0] - side[0], base[1] - side[1])], closed=True)
    panel.block([tip, back], 6)


def film(panel: Panel, y: float, x0: float, x1: float, *, over: bool = False) -> None:
    """The film's dotted line at a height, its name beyond its end, or `over` it."""
    a, b = panel.at(x0, y), panel.at(x1, y)
    panel.sheet.line("j-film", a, b)
    panel.thin.append((*a, *b))
    at = (b[0], b[1] - 7) if over else (b[0] + 8, b[1] + 4.5)
    panel.sheet.text(at, "film line", size=13, kind="q", anchor="end" if over else "start")


def dimension_below(panel: Panel, x0: float, x1: float, y: float, words: str, froms: Sequence[float]) -> None:
    """A dimension under the joint, its extension lines stopping short of what it measures. x, y in inches."""
    for x, start in zip((x0, x1), froms, strict=True):
        a, b = panel.at(x, start), panel.at(x, y - 5 / panel.k)
        panel.sheet.line("ext", a, b)
        panel.thin.append((*a, *b))
    a, b = panel.at(min(x0, x1), y), panel.at(max(x0, x1), y)
    pencils.dimension_across(panel.sheet, a[0], b[0], a[1], words, 13)
    panel.thin.append((*a, *b))
    panel.block([a, b], 6)


def dimension_across(panel: Panel, x0: float, x1: float, y: float, words: str, froms: Sequence[float]) -> None:
    """A dimension over the joint, its extension lines coming up from what it measures. x, y in inches."""
    for x, start in zip((x0, x1), froms, strict=True):
        a, b = panel.at(x, start), panel.at(x, y + 5 / panel.k)
        panel.sheet.line("ext", a, b)
        panel.thin.append((*a, *b))
    a, b = panel.at(x0, y), panel.at(x1, y)
    pencils.dimension_across(panel.sheet, a[0], b[0], a[1], words, 13)
    panel.thin.append((*a, *b))
    panel.block([a, b], 6)


def dimension_beside(panel: Panel, x: float, y0: float, y1: float, words: str, start: float, *, right: bool) -> None:
    """A dimension beside the joint between two heights, its extension lines from x = `start`."""
    out = (1 if right else -1) * 5 / panel.k
    for y in (y0, y1):
        a, b = panel.at(start, y), panel.at(x + out, y)
        panel.sheet.line("ext", a, b)
        panel.thin.append((*a, *b))
    (px, low), (_, high) = panel.at(x, min(y0, y1)), panel.at(x, max(y0, y1))
    pencils.dimension_up(panel.sheet, px, low, high, words, right=right, size=13)
    panel.thin.append((px, low, px, high))
    panel.block([(px - 6, low), (px + 6, high)], 4)


def heading(panel: Panel, words: str) -> None:
    """What this view is, at the top of its room."""
    panel.sheet.text((panel.room.x0 + 4, panel.room.y0 + 14), words, size=13 if panel.k > 30 else 12, kind="q")
