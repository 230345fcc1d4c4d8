"""The whole frame from outside the tag end, right front: an orthographic axonometric, far tubes drawn first.

Camera 56 degrees round from the ridge line and 35 degrees up: x runs right and down, y right and up, z straight up.
Walls whose outside faces away are the far wall, drawn thin.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from structures.frame.document import Point

from . import pencils
from .breaks import Axis, stretches
from .callouts import Callouts
from .flags import draw_flags, draw_unseen, wrong_spots
from .scene import Lengthwise, Piece, Scene
from .sheet import XY, Sheet

_AROUND, _UP = math.radians(56), math.radians(35)
ACROSS = (math.cos(_AROUND), math.sin(_AROUND) * math.sin(_UP))          # px per inch of x at scale 1, y down
ALONG = (math.sin(_AROUND), -math.cos(_AROUND) * math.sin(_UP))
RISE = -math.cos(_UP)
_TO_EYE = (math.sin(_AROUND) * math.cos(_UP), -math.cos(_AROUND) * math.cos(_UP), math.sin(_UP))


@dataclass(frozen=True, slots=True)
class Place:
    """Room and weights of one size, px."""

    width: float
    room: float                    # width for the frame alone
    tallest: float
    largest: float                 # px per inch at most
    margin: float
    top: float
    bay_px: float                  # least px from hoop to hoop before bays are left out
    roomy_px: float
    ring: float
    ring_type: int
    ring_out: float
    mark: float
    mark_type: int
    tubes: bool
    figures: bool
    lane: bool


PLACES = {
    "wide": Place(1120, 800, 470, 1.6, 70, 34, 26, 34, 11, 12, 31, 9, 12, True, True, True),
    "desk": Place(768, 624, 400, 1.4, 76, 30, 24, 30, 11, 12, 25.6, 9, 12, True, True, False),
    "narrow": Place(358, 318, 240, 0.75, 8, 18, 15, 18, 9, 11, 16, 8, 11, False, False, False),
}


class FrameView:
    """The whole frame, drawn once."""

    def __init__(self, scene: Scene, size: str):
        self.scene, self.place, self.size = scene, PLACES[size], size
        self.measures = scene.document.measures
        self.axis, self.scale = self._fit()
        self.half = self.measures.width_in / 2
        self.deep = self.axis.end
        used = (self.measures.width_in * ACROSS[0] + self.deep * ALONG[0]) * self.scale
        left = self.place.margin + max(0.0, (self.place.room - used) / 2)
        self.origin = (left + self.half * ACROSS[0] * self.scale,
                       self.place.top + (self._crown() - self.deep * ALONG[1]) * self.scale)
        front = self.origin[1] + self.half * ACROSS[1] * self.scale
        self.sheet = Sheet(self.place.width, math.ceil(front + (66 if self.place.figures else 38)), size)
        self.words_at = (0.0, 0.0)
        self.right = self.at(self.half, self.measures.length_in, 0)[0]

    def _fit(self) -> tuple[Axis, float]:
        """The drawn hoops and the scale: as large as the room allows, whole where bays stay wide enough."""
        m, p = self.measures, self.place
        keep = self.scene.brace_hoops
        for drawn in (m.bays, *range(min(m.bays, 40), 3, -1)):
            shown = stretches(m.hoops, keep, drawn if drawn == m.bays else 0, drawn)
            axis = Axis(shown, m.spacing_in, 1.0, 0.0, 1.9 * m.spacing_in)
            scale = self._scale(axis.end)
            bay = m.spacing_in * scale * math.hypot(*ALONG)
            if bay >= (p.bay_px if len(shown) == 1 else p.roomy_px):
                break
        return axis, scale

    def _scale(self, deep: float) -> float:
        m, p = self.measures, self.place
        wide = m.width_in * ACROSS[0] + deep * ALONG[0]
        tall = m.width_in / 2 * ACROSS[1] - deep * ALONG[1] + self._crown()
        return min(p.room / wide, p.tallest / tall, p.largest)

    def _crown(self) -> float:
        """How far a hoop's highest place on the sheet lies above its middle on the ground, at scale 1."""
        return max(-x * ACROSS[1] - z * RISE for x, z in self._hoop_points(0.0, self.measures.developed_in, 1.0))

    # projection
    def at(self, x: float, y: float, z: float) -> XY:
        """Where a place in inches lies on the sheet."""
        y = self.axis.px(y)
        s, o = self.scale, self.origin
        return o[0] + s * (x * ACROSS[0] + y * ALONG[0]), o[1] + s * (x * ACROSS[1] + y * ALONG[1] + z * RISE)

    def _off(self, at: XY, direction: XY, px: float) -> XY:
        length = math.hypot(*direction)
        return at[0] + direction[0] / length * px, at[1] + direction[1] / length * px

    def is_far(self, piece: Piece) -> bool:
        """Whether the piece lies on the far wall: the outside of the hoop there faces away from the eye."""
        if piece.zone == "tie" or piece.start[0] > 0:
            return False
        places = [landing.from_foot_in for landing in piece.landings]
        u, z = self.scene.profile.normal(sum(places) / 2)
        return -u * _TO_EYE[0] + z * _TO_EYE[2] < 0

    def _turn(self) -> float:
        """How far up the left side the far wall reaches, along the tube."""
        profile, low, high = self.scene.profile, 0.0, self.scene.profile.half_in
        for _ in range(30):
            middle = (low + high) / 2
            u, z = profile.normal(middle)
            low, high = (middle, high) if -u * _TO_EYE[0] + z * _TO_EYE[2] < 0 else (low, middle)
        return high

    # drawing
    def draw(self) -> Sheet:
        """Draw everything, far to near, lit pieces and labels last."""
        shown = [p for p in self.scene.pieces if self.axis.shows(*p.hoops)]
        lit = [p for p in shown if self.scene.is_lit(p) and not self.scene.is_wrong(p)]
        plain = [p for p in shown if not self.scene.is_lit(p) and not self.scene.is_wrong(p)]
        self._ground()
        self._far_wall(plain, lit)
        for tie in (p for p in plain if p.zone == "tie"):
            self.sheet.line("tie" if self.place.tubes else "far", *self.line_of(tie))
        self._lengthwise()
        self._hoops()
        self._near_pieces([p for p in plain if p.zone != "tie" and not self.is_far(p)])
        self._asked(lit)
        self._breaks()
        self._rings()
        if self.place.figures:
            self._figures()
        self._say_gaps()
        self._marks(lit)
        self._wrong()
        return self.sheet

    def _wrong(self) -> None:
        """Things wrong, and what could not be seen, last and on top."""
        hoop_of = self.measures.spacing_in

        def shown(code: str, point: Point) -> bool:
            return self.axis.shows(round(point[1] / hoop_of) + 1)

        def project(point: Point) -> XY:
            return self.at(*point)

        draw_unseen(self.sheet, self.scene, project, shown)
        draw_flags(self.sheet, wrong_spots(self.scene, project, shown), words=self.place.figures)

    def _spans(self) -> list[tuple[float, float]]:
        return self.axis.spans(0.45 * self.measures.spacing_in)

    def _px(self, x: float, along: float, z: float) -> XY:
        """A place at `along` on the drawn (broken) length."""
        s, o = self.scale, self.origin
        return (o[0] + s * (x * ACROSS[0] + along * ALONG[0]),
                o[1] + s * (x * ACROSS[1] + along * ALONG[1] + z * RISE))

    def _ground(self) -> None:
        spans = self._spans()
        for x in (-self.half, self.half):
            for a, b in spans:
                self.sheet.line("foot", self._px(x, a, 0), self._px(x, b, 0))
        for along in (0.0, self.axis.end):
            self.sheet.line("foot", self._px(-self.half, along, 0), self._px(self.half, along, 0))

    def _hoop_points(self, s_from: float, s_to: float, tolerance: float = 0.25) -> list[tuple[float, float]]:
        """(x, z) along the hoop, s measured from the left foot over the ridge."""
        half = self.scene.profile.half_in
        points = []
        if s_from < half:
            points = [(-u, z) for u, z in self.scene.profile.polyline(s_from, min(s_to, half), tolerance)]
        if s_to > half:
            right = self.scene.profile.polyline(2 * half - s_to, min(half, 2 * half - s_from), tolerance)
            points += [(u, z) for u, z in reversed(right)][1 if points else 0:]
        return points

    def _far_wall(self, plain: list[Piece], lit: list[Piece]) -> None:
        wall = self._hoop_points(0.0, self._turn(), 0.4)
        for hoop in reversed(self.axis.drawn):
            along = self.axis.px(self.scene.y(hoop))
            self.sheet.polyline("far", [self._px(x, along, z) for x, z in wall])
        for thing in self.scene.runs + self.scene.boards:
            if thing.side == "left":
                kind = "lit-far" if self.scene.lights(thing) else "far thin"
                for a, b in self._spans():
                    self.sheet.line(kind, self._px(thing.x, a, thing.z), self._px(thing.x, b, thing.z))
        for piece in plain:
            if piece.zone != "tie" and self.is_far(piece):
                self.sheet.line("far", *self.line_of(piece))
        for piece in lit:
            if self.is_far(piece):
                self.sheet.line("lit-far", *self.line_of(piece))

    def _lengthwise(self) -> None:
        for run in self.scene.runs:
            if run.side != "left" or self._faces(run.x, run.z):
                for a, b in self._spans():
                    points = [self._px(run.x, a, run.z), self._px(run.x, b, run.z)]
                    if self.place.tubes:
                        self.sheet.tube("t1", points)
                    else:
                        self.sheet.polyline("obj1", points, solid=True)
        for board in self.scene.boards:
            if board.side == "right":
                for a, b in self._spans():
                    self.sheet.line("obj1", self._px(board.x, a, board.z), self._px(board.x, b, board.z), solid=True)

    def _faces(self, x: float, z: float) -> bool:
        """Whether a run on the left lies above the turn of the far wall."""
        return z > self.scene.profile.point(self._turn())[1]

    def _hoops(self) -> None:
        developed = self.measures.developed_in
        near = self._hoop_points(self._turn(), developed)
        whole = self._hoop_points(0.0, developed)
        for hoop in reversed(self.axis.drawn):
            along = self.axis.px(self.scene.y(hoop))
            points = [self._px(x, along, z) for x, z in (whole if hoop == 1 else near)]
            if self.place.tubes:
                self.sheet.tube("t2", points)
            else:
                self.sheet.polyline("obj2" if hoop == 1 else "obj15", points, solid=True)

    def _near_pieces(self, pieces: list[Piece]) -> None:
        for piece in sorted(pieces, key=lambda p: -p.start[1]):
            if self.place.tubes:
                self.sheet.tube("t1", self.line_of(piece))
            else:
                self.sheet.line("obj1", *self.line_of(piece), solid=True)

    def _asked(self, lit: list[Piece]) -> None:
        small = not self.place.tubes
        near = sorted((p for p in lit if not self.is_far(p)), key=lambda p: -p.start[1])
        along = [(self._px(line.x, a, line.z), self._px(line.x, b, line.z)) for line in self._lit_lengthwise()
                 for a, b in self._spans()]
        pencils.lit_lines(self.sheet, along, small=small, holes=False)
        pencils.lit_lines(self.sheet, [self.line_of(p) for p in near], small=small)
        for piece in self.scene.phantoms:
            if self.axis.shows(*piece.hoops):
                pencils.phantom(self.sheet, *self.line_of(piece))
        for piece in self.scene.pieces:
            if self.scene.is_wrong(piece) and self.axis.shows(*piece.hoops):
                pencils.broken_piece(self.sheet, *self.line_of(piece), loose=self.scene.loose_end(piece))

    def _lit_lengthwise(self) -> list[Lengthwise]:
        """Runs and boards that were asked for, on the near side; a board along its upper edge."""
        found = {(line.code, line.side): line for line in sorted(self.scene.runs + self.scene.boards, key=lambda line: line.z)
                 if self.scene.lights(line) and (line.side != "left" or self._faces(line.x, line.z))}
        return list(found.values())

    def _breaks(self) -> None:
        """A short zigzag across every lengthwise line that runs into a break."""
        for i, (a, b) in enumerate(self._spans()):
            ends = ([a] if i else []) + ([b] if i < len(self.axis.shown) - 1 else [])
            for along in ends:
                for run in self.scene.runs + self.scene.boards:
                    if run.side != "left":
                        self._break_end(self._px(run.x, along, run.z))
                self._break_end(self._px(self.half, along, 0))

    def _break_end(self, at: XY) -> None:
        x, y = at
        reach = 7 if self.place.tubes else 4
        self.sheet.polyline("brk", [(x - 1, y - reach), (x - 1, y - 2), (x - 3.5, y - 1), (x + 3.5, y + 1),
                                    (x + 1, y + 2), (x + 1, y + reach)])

    def _rings(self) -> None:
        p = self.place
        named = self.scene.named_hoops or self.scene.brace_hoops
        bay = self.measures.spacing_in * self.scale * math.hypot(*ALONG)
        every = math.ceil((2 * p.ring + 3) / bay)
        shown = self._numbered(every, named)
        for hoop in sorted(shown, reverse=True):
            foot = self.at(self.half, self.scene.y(hoop), 0)
            centre = self._off(foot, ACROSS, p.ring_out)
            self.sheet.line("ext", foot, self._off(foot, ACROSS, p.ring_out - p.ring))
            self.sheet.bubble(centre, self.scene.number(hoop), named=hoop in named, radius=p.ring, size=p.ring_type)

    def _numbered(self, every: int, named: frozenset[int]) -> set[int]:
        """Which hoops get their number: all, or first and last of each stretch and every so many between."""
        if every == 1:
            return set(self.axis.drawn)
        shown: set[int] = set()
        for stretch in self.axis.shown:
            ends = {stretch.first, stretch.last}
            between = set(range(stretch.first + every, stretch.last - every + 1, every))
            shown |= ends | between
        return shown

    def _figures(self) -> None:
        """The length along the right side, the width across the tag end, each with its figure."""
        m, out = self.measures, self.place.ring_out
        ends = []
        for hoop in (1, m.hoops):
            foot = self.at(self.half, self.scene.y(hoop), 0)
            tip = self._off(foot, ACROSS, out * 2 - 0.5)
            self.sheet.line("ext", self._off(foot, ACROSS, out + 12), self._off(tip, ACROSS, 5))
            ends.append(tip)
        a, b = self._off(ends[0], ALONG, -4.5), self._off(ends[1], ALONG, 4.5)
        self.sheet.line("dim", a, b)
        for at in ends:
            pencils.tick(self.sheet, at, math.atan2(ALONG[1], ALONG[0]) - 0.9)
        middle = pencils.along(ends[0], ends[1], 0.5)
        words = f"{m.bays} bays at {self.scene.figure(m.spacing_in)} = {self.scene.figure(m.length_in)}"
        self.words_at = (middle[0] + 6, middle[1] + 22)
        self.sheet.text(self.words_at, words, size=13, kind="num")
        self._width()

    def _say_gaps(self) -> None:
        """Which bays are left out, below the figures, or in the empty corner of the narrow drawing."""
        bays = self.measures.bays
        gaps = " and ".join(f"{bays + 1 - last} to {bays + 1 - first}" if self.scene.asked.turned else f"{first} to {last}"
                            for _, first, last in self.axis.gaps())
        if not gaps:
            return
        words = f"bays {gaps} left out"
        if self.place.figures:
            self.sheet.text((self.words_at[0], self.words_at[1] + 18), words, size=13, kind="num q")
        else:
            at = (self.place.width - 6, self.sheet.height - 8)
            self.sheet.text(at, words, size=12, kind="num q", anchor="end")

    def _width(self) -> None:
        ends = []
        for x in (-self.half, self.half):
            foot = self.at(x, 0.0, 0)
            tip = self._off(foot, ALONG, -36.7)
            self.sheet.line("ext", self._off(foot, ALONG, -8.6), self._off(tip, ALONG, -8.6))
            ends.append(tip)
        self.sheet.line("dim", *ends)
        for at in ends:
            pencils.tick(self.sheet, at, math.atan2(ACROSS[1], ACROSS[0]) - 0.25)
        middle = pencils.along(ends[0], ends[1], 0.5)
        self.sheet.text((middle[0] - 8, middle[1] + 18), self.scene.figure(self.measures.width_in), size=13,
                        kind="num", anchor="end")
        self.sheet.text((middle[0] - 8, middle[1] + 36), self.scene.near_end, size=13, kind="q", anchor="end")

    # labels of the pieces
    def line_of(self, piece: Piece) -> tuple[XY, XY]:
        """A piece on the sheet, hole to hole."""
        return self.at(*piece.start), self.at(*piece.end)

    def _marks(self, lit: list[Piece]) -> None:
        phantoms = [p for p in self.scene.phantoms if self.axis.shows(*p.hoops)]
        called = Callouts(self).draw(lit, phantoms) if self.place.lane else set()
        lines = [self.line_of(p) for p in lit + phantoms]
        p = self.place
        marked: set[str] = set()
        for pieces, is_lit in ((lit, True), (phantoms, False)):
            for group in self._groups(pieces):
                ends, letter = self.line_of(group[0]), self.scene.letters[group[0].part]
                if group[0].id in called or (letter in marked and self._reach(group) < 3.6 * p.mark):
                    continue
                if pencils.place_mark(self.sheet, *ends, letter, lines, lit=is_lit, radius=p.mark, size=p.mark_type,
                                      ringed=bool(self.scene.date_added(group[0]))):
                    marked.add(letter)

    def _reach(self, group: list[Piece]) -> float:
        """How long a group is on the sheet, end to end."""
        points = [xy for piece in group for xy in self.line_of(piece)]
        return max(math.dist(a, b) for a in points for b in points)

    def _groups(self, pieces: list[Piece]) -> list[list[Piece]]:
        """Groups to be marked, nearest first; of ties only the first, so that they don't crowd."""
        groups = pencils.mark_groups(pieces)
        ties = [g for g in groups if g[0].zone == "tie"][:1]
        return sorted([g for g in groups if g[0].zone != "tie"], key=lambda g: g[0].start[1]) + ties

def draw_frame(scene: Scene, size: str) -> Sheet:
    """The whole-frame view; `size` is "wide", "desk" or "narrow"."""
    return FrameView(scene, size).draw()
