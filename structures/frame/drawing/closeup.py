"""The close-up of one corner: hoops from foot to ridge, bands as drawn boxes, every brace from hole to hole.

Tubes, bands and the holes' distances from the hoops' axes are drawn larger than to scale, all by ONE factor: a piece would miss
its ear otherwise. From inside purlins lie nearest, in front of hoops and braces, and ties before them; from outside
they lie behind. Everything on the wall itself is drawn hoop, band, piece, hole in that order.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from structures.frame.document import Landing, Member, Point

from . import pencils
from .camera import Camera
from .corner import Corner, landings_of
from .corner_pieces import CornerPieces
from .fittings import Fittings
from .flags import draw_flags, draw_unseen, wrong_spots
from .lengthwise import LengthwiseLines, nearest_s
from .scene import Lengthwise, Piece
from .sheet import XY, Sheet, n
from .spots import SpotWords

OVER_RIDGE_IN = 24.0                # how much of the other half is shown past the ridge
BELOW_IN = 13.0                     # and of the posts below ground
_BEYOND_BAYS = 0.48                 # how far lengthwise lines run on into the next bay


@dataclass(frozen=True, slots=True)
class Place:
    """Room and weights of one size, px.

    `shift` is how far the drawing lies off the middle, toward its own end; `tube` the hoop's width on the sheet, `columns`
    where the words' lanes end.
    """

    width: float
    room: tuple[float, float]
    shift: float
    largest: float
    top: float
    tube: float
    columns: tuple[float, float] | None
    hole: float
    ring: float
    ring_type: int
    mark: float
    type: int


PLACES = {
    "wide": Place(1120, (500, 560), 0, 3.2, 34, 12, (246, 874), 4, 12, 12, 9, 13),
    "desk": Place(768, (380, 470), 40, 2.6, 30, 10, (176, 592), 3.6, 11, 12, 9, 13),
    "narrow": Place(358, (282, 350), 28, 2.0, 26, 7, None, 2.9, 10, 11, 8.5, 12),
}


class CloseUp:
    """One corner, drawn once. `inside` is how one stands."""

    def __init__(self, corner: Corner, size: str, inside: bool):
        self.corner, self.scene, self.size, self.inside = corner, corner.scene, size, inside
        self.place = PLACES[size]
        m = self.scene.document.measures
        self.half_width, self.profile = m.width_in / 2, self.scene.profile
        stub = _BEYOND_BAYS * m.spacing_in
        ys = [self.scene.y(hoop) for hoop in corner.hoops]
        self.low, self.high = max(0.0, min(ys) - stub), min(m.length_in, max(ys) + stub)
        camera, spare = Camera.of(corner, inside), self.place.width - self.place.room[0]
        # the spare room lies where the lengthwise lines are cut and named
        shift = 0.0 if corner.end == "mid" else camera.mirror * self.place.shift
        self.camera = camera.fitted(self._extent(), self.place.room, self.place.largest, spare / 2 + shift, self.place.top)
        self.scale = self.camera.scale
        self._axes: dict[tuple[str, str], tuple[float, float]] = {}
        diameter = self.scene.document.tubes["hoop"]
        self.factor = max(1.0, self.place.tube / (diameter * self.scale))
        self.tube_px = diameter * self.factor * self.scale
        lowest = max(self.at(self.foot(hoop, -BELOW_IN))[1] for hoop in corner.hoops)
        self.sheet = Sheet(self.place.width, math.ceil(lowest + 2 * self.place.ring + 28), size, self.scene.asked.layers)

    def _extent(self) -> list[Point]:
        """The places that must come to lie on the sheet."""
        ys = [self.scene.y(hoop) for hoop in self.corner.hoops]
        over = self.on_hoop(1, self.profile.half_in + OVER_RIDGE_IN)
        points = [(x, y, z) for y in ys for x, _, z in (over, self.on_hoop(1, self.profile.half_in),
                                                        (self.corner.sign * self.half_width, 0, -BELOW_IN))]
        runs = [(line.x, y, line.z) for line in self.scene.runs for y in (self.low, self.high)
                if line.side in ("", self.corner.side)]
        return points + runs + [(self.corner.sign * self.half_width, y, 0.0) for y in (self.low, self.high)]

    # geometry
    def at(self, point: Point) -> XY:
        """Where a place in inches lies on the sheet."""
        return self.camera.at(point)

    def foot(self, hoop: int, z: float = 0.0) -> Point:
        """The axis of a hoop's foot."""
        return self.corner.sign * self.half_width, self.scene.y(hoop), z

    def on_hoop(self, hoop: int, s: float) -> Point:
        """The place s inches from this side's foot along a hoop, past the ridge too."""
        half, sign = self.profile.half_in, self.corner.sign
        u, z = self.profile.point(s if s <= half else 2 * half - s)
        return (sign if s <= half else -sign) * u, self.scene.y(hoop), z

    def drawn_s(self, landing: Landing) -> float:
        """Where a landing's band is drawn: its distance from the node is enlarged as the band itself is."""
        return landing.node_in + self.factor * (landing.from_foot_in - landing.node_in)

    def axis_of(self, landing: Landing) -> Point:
        """The hoop's axis at a landing, as drawn."""
        return self.on_hoop(landing.hoop, self.drawn_s(landing))

    def hole_of(self, landing: Landing) -> Point:
        """A landing's hole as drawn: its distance from the hoop's axis is enlarged by the one factor."""
        true = self.on_hoop(landing.hoop, landing.from_foot_in)
        return self.enlarged(self.axis_of(landing), true, landing.hole)

    def enlarged(self, drawn: Point, true: Point, point: Point) -> Point:
        """A point as far from `drawn` as it is from `true`, times the factor."""
        return (drawn[0] + self.factor * (point[0] - true[0]), drawn[1] + self.factor * (point[1] - true[1]),
                drawn[2] + self.factor * (point[2] - true[2]))

    def axis_of_run(self, line: Lengthwise) -> tuple[float, float]:
        """(x, z) of a purlin run as drawn: its distance from the hoops' axis is enlarged too, so that tubes touch."""
        if (line.code, line.side) not in self._axes:
            s = self.profile.half_in if not line.side else nearest_s(self.profile, abs(line.x), line.z)
            x, _, z = self.on_hoop(1, s)
            self._axes[(line.code, line.side)] = (x + self.factor * (line.x - x), z + self.factor * (line.z - z))
        return self._axes[(line.code, line.side)]

    def line_of(self, piece: Piece) -> list[XY]:
        """A piece on the sheet, hole to hole by way of the hoops that it passes."""
        first, last = piece.landings
        between = sorted(piece.passes, key=lambda landing: abs(landing.hoop - first.hoop))
        return [self.at(self.hole_of(landing)) for landing in (first, *between, last)]

    def px(self, inches: float) -> float:
        """A width on the sheet, enlarged by the one factor."""
        return inches * self.factor * self.scale

    @cached_property
    def far_to_near(self) -> tuple[int, ...]:
        """The hoops in the order in which they hide each other."""
        return self.corner.hoops if self.inside else tuple(reversed(self.corner.hoops))

    # drawing
    def draw(self) -> Sheet:
        """Draw everything, far to near, labels last."""
        lines, fittings, pieces = LengthwiseLines(self), Fittings(self), CornerPieces(self)
        wall = [p for p in self.corner.own if not self.scene.is_wrong(p)]
        ties = [p for p in self.corner.ties if p not in self.scene.phantoms]
        self._ground()
        lines.draw_posts()
        if self.inside:
            lines.draw_boards()
            pieces.draw_washes(wall)
        else:
            pieces.draw_ties(ties, fittings)
            lines.draw_purlins()
            pieces.draw_washes(wall)
            behind = [p for p in wall if pieces.inside_face(p)]
            wall = [p for p in wall if p not in behind]
            fittings.draw_bands(landings_of(behind))
            pieces.draw(behind)
        for hoop in self.far_to_near:
            self._hoop(hoop)
        if not self.inside:
            lines.draw_boards()
        fittings.draw_end_bands()
        fittings.draw_bands([landing for landing in landings_of([*self.corner.own, *self.corner.foreign])
                             if landing.joint not in fittings.drawn])
        pieces.draw_others()
        pieces.draw(wall)
        if self.inside:
            lines.draw_purlins()
            pieces.draw_ties(ties, fittings)
        fittings.draw_connectors()
        self._rings()
        SpotWords(self, lines, pieces).draw()
        self._wrong()
        return self.sheet

    def _ground(self) -> None:
        """The ground line along this side with its hatching, and the posts below it."""
        ends = [(self.corner.sign * self.half_width, y, 0.0) for y in (self.low, self.high)]
        own = 0 if self.corner.toward < 0 else 1
        if self.corner.end != "mid" or self.low == 0.0:
            ends[own] = (ends[own][0], ends[own][1] + self.corner.toward * 0.3 * self.corner.spacing, 0.0)
        a, b = sorted(self.at(end) for end in ends)
        self.sheet.line("obj2", a, b, solid=True)
        slope, x, strokes = (b[1] - a[1]) / (b[0] - a[0]), a[0] + 6, []
        while x < b[0] - 2:
            strokes.append(f"M{n(x)} {n(a[1] + (x - a[0]) * slope + 1)}l-6 6")
            x += 11
        self.sheet.path("hatch", "".join(strokes))
        self.sheet.strokes.extend([(a[0], a[1] + d, b[0], b[1] + d) for d in (0, 4)] * 2)
        half = self.tube_px / 2 - 2
        for hoop in self.corner.hoops:
            (x, y), (_, end) = self.at(self.foot(hoop)), self.at(self.foot(hoop, -BELOW_IN))
            for side in (-half, half):
                self.sheet.line("hid", (x + side, y), (x + side, end))

    def thick(self, kind: str, points: list[XY], width: float) -> None:
        """A line of a width of its own."""
        where = " ".join(f"{n(x)},{n(y)}" for x, y in points)
        self.sheet.raw(f'<polyline class="{kind}" stroke-width="{n(width)}" points="{where}"/>')

    def tube(self, points: list[XY], width: float, *, lit: bool = False) -> None:
        """A near tube of a width of its own: it hides what was drawn before."""
        rim = 1.5 if self.size != "narrow" else 1.3
        self.thick("lit-a" if lit else "tube-o", points, width)
        self.thick("tube-i", points, width - 2 * rim - (1 if lit else 0))
        self.sheet.strokes.extend((*a, *b) for a, b in zip(points, points[1:], strict=False))

    def _hoop(self, hoop: int) -> None:
        """One hoop, section by section, from the foot over the ridge to where it is cut."""
        half, end = self.profile.half_in, self.profile.half_in + OVER_RIDGE_IN
        for member in self.sections[hoop]:
            low, high = self._from_foot(member)
            if low < end:
                with self.sheet.piece(member.id, member.part):
                    self._section(hoop, max(low, 0.0), min(high, end), self.scene.asks_for(member.id, member.part))
        tip, before = self.at(self.on_hoop(hoop, end)), self.at(self.on_hoop(hoop, end - 2))
        self.cut(before, tip, self.tube_px)
        for seam in self.scene.seams:
            s = half if not seam.side else seam.from_foot_in if seam.side == self.corner.side else 2 * half - seam.from_foot_in
            if s < end:
                self._seam(hoop, s)

    @cached_property
    def sections(self) -> dict[int, list[Member]]:
        """The sections of each drawn hoop, from this side's foot upward."""
        found: dict[int, list[Member]] = {hoop: [] for hoop in self.corner.hoops}
        for member in self.scene.document.members:
            if member.role == "section" and member.hoop in found:
                found[member.hoop].append(member)
        return {hoop: sorted(members, key=lambda m: self._from_foot(m)[0]) for hoop, members in found.items()}

    def _from_foot(self, member: Member) -> tuple[float, float]:
        """From where to where a section reaches along the tube, from this side's foot; past the ridge it is over half."""
        whole = 2 * self.profile.half_in
        low, high = member.s_from_in or 0.0, whole if member.s_to_in is None else member.s_to_in
        return (low, high) if self.corner.side == "left" else (whole - high, whole - low)

    def _section(self, hoop: int, low: float, high: float, lit: bool) -> None:
        half, sign, y = self.profile.half_in, self.corner.sign, self.scene.y(hoop)
        points: list[XY] = []
        if low < half:
            points = [self.at((sign * u, y, z)) for u, z in self.profile.polyline(low, min(high, half), 0.15)]
        if high > half:
            over = self.profile.polyline(2 * half - high, min(half, 2 * half - low), 0.15)
            points += [self.at((-sign * u, y, z)) for u, z in reversed(over)][1 if points else 0:]
        if lit:
            self.thick("halo-b", points, self.tube_px + 10)
        self.tube(points, self.tube_px, lit=lit)

    def _seam(self, hoop: int, s: float) -> None:
        a, b = self.at(self.on_hoop(hoop, s - 0.5)), self.at(self.on_hoop(hoop, s + 0.5))
        middle, (dx, dy) = pencils.along(a, b, 0.5), self.across(a, b, self.tube_px * 0.66)
        self.sheet.line("tick", (middle[0] - dx, middle[1] - dy), (middle[0] + dx, middle[1] + dy))

    def across(self, a: XY, b: XY, px: float) -> XY:
        """Square to the line from a to b on the sheet, px long."""
        length = math.dist(a, b) or 1.0
        return -(b[1] - a[1]) / length * px, (b[0] - a[0]) / length * px

    def cut(self, a: XY, b: XY, width: float) -> None:
        """The break line of a tube or board that goes on beyond b."""
        (dx, dy), (ux, uy) = self.across(a, b, width / 2 + 4), self.across(a, b, 1.0)
        ux, uy = uy * 3.5, -ux * 3.5
        points = [(b[0] + dx * t + ux * lean, b[1] + dy * t + uy * lean)
                  for t, lean in ((-1, 0), (-0.25, 0), (-0.1, 1), (0.1, -1), (0.25, 0), (1, 0))]
        self.sheet.polyline("brk", points, solid=True)

    # numbers and things wrong
    def _rings(self) -> None:
        """Hoop numbers in rings below the feet; which end this is stands below its own hoop's."""
        named = self.scene.named_hoops or frozenset(hoop for piece in self.corner.own for hoop in piece.hoops)
        for hoop in self.corner.hoops:
            x, y = self.at(self.foot(hoop, -BELOW_IN))
            self.sheet.bubble((x, y + self.place.ring + 5), hoop, named=hoop in named, radius=self.place.ring,
                              size=self.place.ring_type)

    def _wrong(self) -> None:
        """Things wrong, and what could not be seen, last and on top."""
        tops = {landing.code: landing for landing in landings_of(self.corner.own)}

        def shown(code: str, point: Point) -> bool:
            near = self.low <= point[1] <= self.high
            return near and (point[0] * self.corner.sign > -1e-6 or code in tops)

        def project(point: Point) -> XY:
            return self.at(point)

        draw_unseen(self.sheet, self.scene, project, shown)
        draw_flags(self.sheet, wrong_spots(self.scene, project, shown), words=self.size != "narrow")


def draw_corner(corner: Corner, size: str, *, inside: bool) -> Sheet:
    """A corner as seen from inside or outside; `size` is "wide", "desk" or "narrow"."""
    return CloseUp(corner, size, inside).draw()

