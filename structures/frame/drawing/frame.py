"""The whole frame from outside the tag end, right front: an orthographic axonometric, far tubes drawn first.

Camera 56 degrees round from the ridge line and 35 degrees up: x runs right and down, y right and up, z straight up.
Walls whose outside faces away are the far wall, drawn thin.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from structures.frame.document import Joint, Point

from . import pencils
from .breaks import Axis, stretches
from .callouts import Callouts
from .codes import draw_codes
from .eye import ACROSS, ALONG, RISE, TO_EYE
from .flags import draw_flags, draw_unseen, wrong_spots
from .frame_figures import FrameFigures
from .frame_kit import draw_hardware, draw_kit_lines, draw_near_wall, draw_webs
from .scene import Lengthwise, Piece, Scene
from .sheet import XY, Sheet


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
        self.sheet = Sheet(self.place.width, math.ceil(front + (66 if self.place.figures else 38)), size, scene.asked.layers)
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
        return max(-x * ACROSS[1] - z * RISE for x, z in self.hoop_points(0.0, self.measures.developed_in, 1.0))

    # projection
    def at(self, x: float, y: float, z: float) -> XY:
        """Where a place in inches lies on the sheet."""
        y = self.axis.px(y)
        s, o = self.scale, self.origin
        return o[0] + s * (x * ACROSS[0] + y * ALONG[0]), o[1] + s * (x * ACROSS[1] + y * ALONG[1] + z * RISE)

    def off(self, at: XY, direction: XY, px: float) -> XY:
        length = math.hypot(*direction)
        return at[0] + direction[0] / length * px, at[1] + direction[1] / length * px

    def is_far(self, piece: Piece) -> bool:
        """Whether the piece lies on the far wall: the outside of the hoop there faces away from the eye."""
        if piece.zone == "tie" or piece.start[0] > 0:
            return False
        places = [landing.from_foot_in for landing in piece.landings]
        u, z = self.scene.profile.normal(sum(places) / 2)
        return -u * TO_EYE[0] + z * TO_EYE[2] < 0

    def turn(self) -> float:
        """How far up the left side the far wall reaches, along the tube."""
        profile, low, high = self.scene.profile, 0.0, self.scene.profile.half_in
        for _ in range(30):
            middle = (low + high) / 2
            u, z = profile.normal(middle)
            low, high = (middle, high) if -u * TO_EYE[0] + z * TO_EYE[2] < 0 else (low, middle)
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
            with self.sheet.piece(tie.id, tie.part):
                self.sheet.line("tie" if self.place.tubes else "far", *self.line_of(tie))
        draw_webs(self)
        self._lengthwise()
        self._hoops()
        draw_near_wall(self)
        draw_kit_lines(self)
        self._near_pieces([p for p in plain if p.zone != "tie" and not self.is_far(p)])
        draw_hardware(self)
        self._asked(lit)
        self._breaks()
        self._rings()
        FrameFigures(self).draw()
        with self.sheet.layer("marks"):
            self._marks(lit)
        self._wrong()
        with self.sheet.layer("places"):
            draw_codes(self.sheet, self.scene, self.joint_at, [self.line_of(p) for p in lit])
        return self.sheet

    def joint_at(self, joint: Joint) -> XY | None:
        """A joint of the near side or the ridge, where its hoop is drawn."""
        if joint.hoop is None or not self.axis.shows(joint.hoop) or (joint.at[0] < 0 and not self.faces(joint.at[0], joint.at[2])):
            return None
        return self.at(joint.at[0], joint.at[1], max(joint.at[2], 0.0))

    def _wrong(self) -> None:
        """Things wrong, and what could not be seen, last and on top."""
        hoop_of = self.measures.spacing_in

        def shown(code: str, point: Point) -> bool:
            return self.axis.shows(round(point[1] / hoop_of) + 1)

        def project(point: Point) -> XY:
            return self.at(*point)

        draw_unseen(self.sheet, self.scene, project, shown)
        draw_flags(self.sheet, wrong_spots(self.scene, project, shown), words=self.place.figures)

    def spans(self) -> list[tuple[float, float]]:
        return self.axis.spans(0.45 * self.measures.spacing_in)

    def px(self, x: float, along: float, z: float) -> XY:
        """A place at `along` on the drawn (broken) length."""
        s, o = self.scale, self.origin
        return (o[0] + s * (x * ACROSS[0] + along * ALONG[0]),
                o[1] + s * (x * ACROSS[1] + along * ALONG[1] + z * RISE))

    def _ground(self) -> None:
        spans = self.spans()
        for x in (-self.half, self.half):
            for a, b in spans:
                self.sheet.line("foot", self.px(x, a, 0), self.px(x, b, 0))
        for along in (0.0, self.axis.end):
            self.sheet.line("foot", self.px(-self.half, along, 0), self.px(self.half, along, 0))

    def hoop_points(self, s_from: float, s_to: float, tolerance: float = 0.25) -> list[tuple[float, float]]:
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
        wall = self.hoop_points(0.0, self.turn(), 0.4)
        for hoop in reversed(self.axis.drawn):
            along = self.axis.px(self.scene.y(hoop))
            self.sheet.polyline("far", [self.px(x, along, z) for x, z in wall])
        for thing in self.scene.runs + self.scene.boards:
            if thing.side == "left":
                kind = "lit-far" if self.scene.lights(thing) else "far thin"
                for a, b in self.spans():
                    self.sheet.line(kind, self.px(thing.x, a, thing.z), self.px(thing.x, b, thing.z))
        for piece in plain:
            if piece.zone != "tie" and self.is_far(piece):
                with self.sheet.piece(piece.id, piece.part):
                    self.sheet.line("far", *self.line_of(piece))
        for piece in lit:
            if self.is_far(piece):
                with self.sheet.piece(piece.id, piece.part):
                    self.sheet.line("lit-far", *self.line_of(piece))

    def _lengthwise(self) -> None:
        for run in self.scene.runs:
            if run.side != "left" or self.faces(run.x, run.z):
                for a, b in self.spans():
                    points = [self.px(run.x, a, run.z), self.px(run.x, b, run.z)]
                    if self.place.tubes:
                        self.sheet.tube("t1", points)
                    else:
                        self.sheet.polyline("obj1", points, solid=True)
        for board in self.scene.boards:
            if board.side == "right":
                for a, b in self.spans():
                    self.sheet.line("obj1", self.px(board.x, a, board.z), self.px(board.x, b, board.z), solid=True)

    def faces(self, x: float, z: float) -> bool:
        """Whether a run on the left lies above the turn of the far wall."""
        return z > self.scene.profile.point(self.turn())[1]

    def _hoops(self) -> None:
        developed = self.measures.developed_in
        near = self.hoop_points(self.turn(), developed)
        whole = self.hoop_points(0.0, developed)
        for hoop in reversed(self.axis.drawn):
            along = self.axis.px(self.scene.y(hoop))
            points = [self.px(x, along, z) for x, z in (whole if hoop == 1 else near)]
            if self.place.tubes:
                self.sheet.tube("t2", points)
            else:
                self.sheet.polyline("obj2" if hoop == 1 else "obj15", points, solid=True)

    def _near_pieces(self, pieces: list[Piece]) -> None:
        for piece in sorted(pieces, key=lambda p: -p.start[1]):
            with self.sheet.piece(piece.id, piece.part):
                if self.place.tubes:
                    self.sheet.tube("t1", self.line_of(piece))
                else:
                    self.sheet.line("obj1", *self.line_of(piece), solid=True)

    def _asked(self, lit: list[Piece]) -> None:
        small = not self.place.tubes
        near = sorted((p for p in lit if not self.is_far(p)), key=lambda p: -p.start[1])
        along = [(self.px(line.x, a, line.z), self.px(line.x, b, line.z)) for line in self._lit_lengthwise()
                 for a, b in self.spans()]
        pencils.lit_lines(self.sheet, along, small=small, holes=False)
        pencils.lit_pieces(self.sheet, [(p.id, p.part, *self.line_of(p)) for p in near], small=small)
        for piece in self.scene.phantoms:
            if self.axis.shows(*piece.hoops):
                pencils.phantom(self.sheet, *self.line_of(piece))
        for piece in self.scene.pieces:
            if self.scene.is_wrong(piece) and self.axis.shows(*piece.hoops):
                pencils.broken_piece(self.sheet, *self.line_of(piece), loose=self.scene.loose_end(piece))

    def _lit_lengthwise(self) -> list[Lengthwise]:
        """Runs and boards that were asked for, on the near side; a board along its upper edge."""
        found = {(line.code, line.side): line for line in sorted(self.scene.runs + self.scene.boards, key=lambda line: line.z)
                 if self.scene.lights(line) and (line.side != "left" or self.faces(line.x, line.z))}
        return list(found.values())

    def _breaks(self) -> None:
        """A short zigzag across every lengthwise line that runs into a break."""
        for i, (a, b) in enumerate(self.spans()):
            ends = ([a] if i else []) + ([b] if i < len(self.axis.shown) - 1 else [])
            for along in ends:
                for run in self.scene.runs + self.scene.boards:
                    if run.side != "left":
                        self._break_end(self.px(run.x, along, run.z))
                self._break_end(self.px(self.half, along, 0))

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
            centre = self.off(foot, ACROSS, p.ring_out)
            self.sheet.line("ext", foot, self.off(foot, ACROSS, p.ring_out - p.ring))
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
