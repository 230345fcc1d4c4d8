"""The side view: an elevation from outside the right or the left side. From the left, hoop 1 stands on the RIGHT."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Joint, Member, Point

from . import pencils
from .breaks import Axis, fitted, stretches
from .codes import draw_codes
from .flags import draw_flags, draw_unseen, wrong_spots
from .hardware import draw_arrows, draw_signs, drawn_bay
from .kitlines import draw_posts, draw_sections, draw_sticks
from .lanes import down
from .scene import PIPE_WORDS, Piece, Scene
from .sheet import XY, Sheet, text_box
from .side_words import SideWords


@dataclass(frozen=True, slots=True)
class Place:
    """Room and weights of one size: margins in px, the least px to a bay, ring sizes."""

    width: float
    left: float
    right: float
    top: float
    tallest: float
    bay_px: float
    roomy_px: float
    gap: float
    stub: float
    ring: float
    ring_type: int
    type: int
    words: bool


PLACES = {
    "wide": Place(1120, 128, 132, 63, 260, 30, 42, 72, 30, 11, 12, 13, True),
    "desk": Place(768, 104, 104, 44, 230, 28, 36, 60, 24, 11, 12, 13, False),
    "narrow": Place(358, 30, 30, 32.5, 165, 30, 36, 56, 24, 10, 11, 12, False),
}


class SideView:
    """One side, drawn once. `side` is "right" or "left"."""

    def __init__(self, scene: Scene, side: str, size: str):
        self.scene, self.side, self.place = scene, side, PLACES[size]
        self.axis = self._axis()
        measures = scene.document.measures
        self.scale = self.axis.scale
        self.top = self.place.top + (22 if self._rows_above() > 1 else 0)
        self.soil = self.top + measures.peak_in * self.scale
        self.posts = scene.post_depth_in * self.scale
        self.rings = self.soil + max(26.0 if size == "narrow" else 52.0, self.posts + (26 if size != "narrow" else 20))
        foot = self.rings + (58 if size == "narrow" else 56)
        self.sheet = Sheet(self.place.width, foot, size, scene.asked.layers)

    # layout
    def _axis(self) -> Axis:
        p, document = self.place, self.scene.document
        room = p.width - p.left - p.right
        shown = stretches(self.scene.hoops, self.scene.brace_hoops, int(room / p.bay_px),
                          max(4, int((room - p.gap) / p.roomy_px)))
        gap, stub = p.gap, p.stub
        if len(shown) > 2 and p.width < 400:
            gap = 38.0
        scale = min(fitted(shown, document.measures.spacing_in, room, gap), p.tallest / document.measures.peak_in)
        self.stub = min(stub, gap / 2 - 4)
        used = sum(s.bays for s in shown) * document.measures.spacing_in * scale + gap * (len(shown) - 1)
        start = p.left + (room - used) / 2
        mirrored = self.side == "left"
        return Axis(shown, document.measures.spacing_in, scale, start + used if mirrored else start, gap, mirrored)

    def _rows_above(self) -> int:
        return 1 if self.place.words else 0

    def at(self, y: float, z: float) -> XY:
        """Where (y along, z up) lies on the sheet."""
        return self.axis.px(y), self.soil - z * self.scale

    def _of_side(self, side: str) -> bool:
        return side in ("", self.side)

    def of_side(self, pieces: tuple[Piece, ...]) -> list[Piece]:
        """The braces of this side whose hoops are both drawn."""
        sign = 1 if self.side == "right" else -1
        return [p for p in pieces if p.zone != "tie" and (p.start[0] + p.end[0]) * sign > 0
                and self.axis.shows(*p.hoops)]

    def line_of(self, piece: Piece) -> tuple[XY, XY]:
        """A piece on the sheet, hole to hole."""
        return self.at(piece.start[1], piece.start[2]), self.at(piece.end[1], piece.end[2])

    # drawing
    def draw(self) -> Sheet:
        """Draw everything, far to near, labels last."""
        self._below_ground()
        self._lengthwise()
        self._hoops()
        self._kit_lines()
        with self.sheet.layer("names"):
            self._ends()
        self._breaks()
        self._plain_pieces()
        self._asked_pieces()
        self._hardware()
        self._rings()
        self._lengths()
        if self.place.width > 400:
            self._heights()
            with self.sheet.layer("names"):
                self._names()
        with self.sheet.layer("marks"):
            SideWords(self).draw()
        self._wrong()
        with self.sheet.layer("places"):
            draw_codes(self.sheet, self.scene, self._joint_at, [self.line_of(p) for p in self.of_side(self.scene.lit)])
        return self.sheet

    def _kit_lines(self) -> None:
        """Hoop sections, posts and purlin sticks, each to be lit by itself."""
        hoops, top = self.axis.drawn, self.scene.document.measures.peak_in

        def upright(member: Member) -> list[XY]:
            x = self.axis.px(self.scene.y(member.hoop or 1))
            return [(x, self.soil - z * self.scale) for z in self._heights_of(member)]

        def stick(member: Member) -> list[tuple[XY, XY]]:
            if _side_of(member) not in (self.side, ""):
                return []
            y = self.soil - (member.start[2] if _side_of(member) else top) * self.scale
            return [((a, y), (b, y)) for a, b in self.axis.clipped(member.start[1], member.end[1])]

        draw_sections(self.sheet, self.scene, hoops, upright)
        draw_posts(self.sheet, self.scene, hoops, upright)
        draw_sticks(self.sheet, self.scene, stick)

    def _heights_of(self, member: Member) -> list[float]:
        """From where to where an upright member is seen from this side; nothing where it lies on the other."""
        if member.role == "post":
            return [member.start[2], member.end[2]] if _side_of(member) == self.side else []
        half, developed = self.scene.profile.half_in, 2 * self.scene.profile.half_in
        low, high = member.s_from_in or 0.0, member.s_to_in or 0.0
        if self.side == "right":
            low, high = developed - high, developed - low
        low, high = max(low, 0.0), min(high, half)
        return [self.scene.profile.point(low)[1], self.scene.profile.point(high)[1]] if high - low > 1 else []

    def _joint_at(self, joint: Joint) -> XY | None:
        """A joint of this side or the ridge, where its hoop is drawn; a band where its hole lies beside the hoop."""
        if joint.side not in ("", self.side) or joint.hoop is None or not self.axis.shows(joint.hoop):
            return None
        return self.at(joint.at[1], max(joint.at[2], 0.0))

    def _hardware(self) -> None:
        """A sign for each joint, and which way its bolt points as seen from this side."""
        across = 1.0 if self.side == "right" else -1.0
        joints = self.scene.document.joints

        def at(joint: Joint) -> XY | None:
            seen = self._of_side(joint.side) and drawn_bay(self.axis, joint)
            return self.at(joint.at[1], max(joint.at[2], 0.0)) if seen else None

        draw_signs(self.sheet, self.scene, joints, at)
        with self.sheet.layer("hardware"):
            draw_arrows(self.sheet, self.scene, joints, self._joint_at, lambda d: (d[1] * across, -d[2], -d[0] * across))

    def _wrong(self) -> None:
        """Things wrong, and what could not be seen, on this side and the ridge."""
        spacing, letter = self.scene.document.measures.spacing_in, "L" if self.side == "left" else "R"

        def shown(code: str, point: Point) -> bool:
            other = f"-{'R' if letter == 'L' else 'L'}-"
            return other not in code and self.axis.shows(round(point[1] / spacing) + 1)

        def project(point: Point) -> XY:
            return self.at(point[1], max(point[2], 0.0))

        draw_unseen(self.sheet, self.scene, project, shown)
        draw_flags(self.sheet, wrong_spots(self.scene, project, shown), words=self.place.width > 400)

    def _below_ground(self) -> None:
        half = max(2.3, self.scene.document.tubes.get("hoop", 1.9) * self.scale / 2)
        for hoop in self.axis.drawn:
            x = self.axis.px(self.scene.y(hoop))
            if self.posts and self.place.width > 400:
                bottom = self.soil + self.posts
                self.sheet.polyline("hid", [(x - half, self.soil), (x - half, bottom), (x + half, bottom),
                                            (x + half, self.soil)])
                self.sheet.line("ext", (x, bottom + 5), (x, self.rings - self.place.ring - 1))

    def _lengthwise(self) -> None:
        spans = self.axis.spans(self.stub)
        top = self.scene.document.measures.peak_in
        for run in self.scene.runs:
            if self._of_side(run.side):
                y = self.soil - (top if run.code == "ridge" else run.z) * self.scale
                for a, b in spans:
                    self.sheet.tube("t1", [(a, y), (b, y)])
        along = [(board, "obj1") for board in self.scene.boards] + [(pipe, "obj15") for pipe in self.scene.pipes]
        for line, kind in (one for one in along if one[0].side == self.side):
            y = self.soil - line.z * self.scale
            for a, b in spans:
                self.sheet.line(kind, (a, y), (b, y), solid=True)
        self._seams(spans)

    def _seams(self, spans: list[tuple[float, float]]) -> None:
        for seam in self.scene.seams:
            if seam.side == self.side:
                y = self.soil - self.scene.profile.point(seam.from_foot_in)[1] * self.scale
                for a, b in spans:
                    out = 0 if self.place.width < 400 else 14
                    first, last = (a - out, b + out) if a < b else (a + out, b - out)
                    self.sheet.line("cen", (first if (a, b) == spans[0] else a, y), (last if (a, b) == spans[-1] else b, y))

    def _hoops(self) -> None:
        for hoop in self.axis.drawn:
            x = self.axis.px(self.scene.y(hoop))
            self.sheet.tube("t2", [(x, self.soil), (x, self.top)])
        out = 40 if self.place.width > 400 else 22
        spans = self.axis.spans(self.stub)
        for i, (a, b) in enumerate(spans):
            low, high = min(a, b), max(a, b)
            first = i == 0 if a < b else i == len(spans) - 1
            last = i == len(spans) - 1 if a < b else i == 0
            pencils.soil(self.sheet, low - (out if first else 0), high + (out if last else 0), self.soil)

    def _breaks(self) -> None:
        for middle, first_bay, last_bay in self.axis.gaps():
            for x in (middle - self.axis.gap / 2 + self.stub, middle + self.axis.gap / 2 - self.stub):
                pencils.zigzag(self.sheet, x, self.top - 12, self.soil + 12)
            self._say_gap(middle, first_bay, last_bay)

    def _say_gap(self, middle: float, first_bay: int, last_bay: int) -> None:
        bays = f"bays {first_bay} to {last_bay}"
        for words in (f"{bays} alike", bays, f"{first_bay} to {last_bay}"):
            at = (middle, self.top - 17)
            if pencils.fits(self.sheet, at, words, self.place.type, "middle", 6):
                self.sheet.text(at, words, size=self.place.type, kind="q", anchor="middle")
                return

    def _plain_pieces(self) -> None:
        for piece in self.of_side(self.scene.pieces):
            if not self.scene.is_lit(piece) and not self.scene.is_wrong(piece):
                with self.sheet.piece(piece.id, piece.part):
                    self.sheet.tube("t1", self.line_of(piece))

    def _asked_pieces(self) -> None:
        for piece in self.of_side(self.scene.phantoms):
            pencils.phantom(self.sheet, *self.line_of(piece))
        lit = [p for p in self.of_side(self.scene.lit) if not self.scene.is_wrong(p)]
        pencils.lit_lines(self.sheet, self._lit_lengthwise(), holes=False)
        pencils.lit_pieces(self.sheet, [(p.id, p.part, *self.line_of(p)) for p in lit])
        for piece in self.of_side(self.scene.pieces):
            if self.scene.is_wrong(piece):
                pencils.broken_piece(self.sheet, *self.line_of(piece), loose=self.scene.loose_end(piece))
        for tie in self.scene.pieces + self.scene.phantoms:
            if tie.zone == "tie" and self.axis.shows(tie.hoops[0]):
                self._tie(tie)

    def _lit_lengthwise(self) -> list[tuple[XY, XY]]:
        """Purlin runs and boards that were asked for; a board along its upper edge."""
        top = self.scene.document.measures.peak_in
        heights = {(line.code, line.side): top if line.code == "ridge" else line.z
                   for line in sorted(self.scene.runs + self.scene.boards, key=lambda line: line.z)
                   if self._of_side(line.side) and self.scene.lights(line)}
        return [((a, self.soil - z * self.scale), (b, self.soil - z * self.scale))
                for z in heights.values() for a, b in self.axis.spans(self.stub)]

    def _tie(self, tie: Piece) -> None:
        """A tie is seen end on, so it is a ring on its hoop."""
        if tie in self.scene.phantoms:
            self.sheet.circle("gone-end", self.at(tie.start[1], tie.start[2]), 3.4)
        elif self.scene.is_lit(tie):
            self.sheet.circle("bolt", self.at(tie.start[1], tie.start[2]), 3.4)

    def _rings(self) -> None:
        named = self.scene.named_hoops or self.scene.brace_hoops
        step = self.scene.document.measures.spacing_in * self.scale
        every = 1 if step >= 2 * self.place.ring + 3 else 2
        for hoop in self.axis.drawn:
            if every == 1 or hoop in named or hoop in (1, self.scene.hoops):
                at = (self.axis.px(self.scene.y(hoop)), self.rings)
                self.sheet.bubble(at, hoop, named=hoop in named, radius=self.place.ring, size=self.place.ring_type)

    def _lengths(self) -> None:
        m, ring, p = self.scene.document.measures, self.place.ring, self.place
        first, second, last = (self.axis.px(self.scene.y(h)) for h in (1, 2, self.scene.hoops))
        bay = self.scene.figure(m.spacing_in)
        words = f"{m.bays} bays at {bay} = {self.scene.figure(m.length_in)}"
        if p.width < 400:
            words = f"{self.scene.figure(m.length_in)}, {m.bays} bays"
        y = self.rings + 34
        below = y + (18 if p.width < 400 else 16)
        wide_enough = text_box(0, 0, bay, p.type).x1 + 6 < abs(second - first)
        if wide_enough:
            for x in (first, second):
                self.sheet.line("ext", (x, self.rings + ring + 3), (x, y + 5))
            pencils.dimension_across(self.sheet, first, second, y, bay, p.type)
        for x in (first, last):
            self.sheet.line("ext", (x, (y if wide_enough and x == first else self.rings + ring + 3)), (x, below + 5))
        pencils.dimension_across(self.sheet, first, last, below, words, p.type)

    def _heights(self) -> None:
        """Heights above ground beside the last upright on the left: the hip board, and from there to the peak."""
        m = self.scene.document.measures
        edge = min(self.axis.px(0.0), self.axis.px(m.length_in))
        x = edge - (56 if self.place.words else 30)
        hip = self.scene.hip
        steps = [0.0, self.scene.profile.point(hip[1])[1], m.peak_in] if hip else [0.0, m.peak_in]
        for z in steps:
            self.sheet.line("ext", (edge - (44 if not z and self.place.words else 10 if z else 44), self.soil - z * self.scale),
                            (x - 5, self.soil - z * self.scale))
        for low, high in zip(steps, steps[1:], strict=False):
            pencils.dimension_up(self.sheet, x, self.soil - low * self.scale, self.soil - high * self.scale,
                                 self.scene.figure_between(low, high), right=False)

    def _names(self) -> None:
        """What the lengthwise lines are, in the right margin, sorted by height."""
        named: dict[str, float] = {}
        top = self.scene.document.measures.peak_in
        for run in self.scene.runs:
            if self._of_side(run.side):
                word = {"ridge": "ridge", "purlin": "side purlin"}.get(run.code, f"{run.code} purlin")
                named[word] = top if run.code == "ridge" else run.z
        for seam in self.scene.seams:
            if seam.side == self.side:
                named["seam"] = self.scene.profile.point(seam.from_foot_in)[1]
        if self.scene.hip:
            named[self.scene.hip[0]] = self.scene.profile.point(self.scene.hip[1])[1]
        named.update({PIPE_WORDS[pipe.code]: pipe.z for pipe in self.scene.pipes if pipe.side == self.side})
        named.setdefault("ridge", top)
        edge = max(self.axis.px(0.0), self.axis.px(self.scene.document.measures.length_in))
        wanted = sorted((self.soil - z * self.scale, word) for word, z in named.items())
        places = down([y for y, _ in wanted], 18.0, 10, self.soil - 8)
        for (y, word), label_y in zip(wanted, places, strict=True):
            start = edge + (18 if word == "seam" else 5)
            self.sheet.polyline("lead", [(start, y), (edge + 22, label_y), (edge + 28, label_y)])
            self.sheet.text((edge + 31, label_y + 4.5), word, size=self.place.type, kind="q")

    def _ends(self) -> None:
        """Which end is which, beside the first and last ring."""
        for end, hoop in ((1, 1), (2, self.scene.hoops)):
            x = self.axis.px(self.scene.y(hoop))
            left = (end == 1) == (self.side == "right")
            narrow = self.place.width < 400
            room = 70.0 if narrow else (x if left else self.place.width - x) - 48
            words = self.scene.end_words(end, room, 12 if narrow else self.place.type)
            if self.place.width < 400:
                at = (x - 10 if left else x + 10, self.top - 17)
                self.sheet.text(at, words, size=12, kind="q", anchor="start" if left else "end")
                continue
            at = (x - 46, self.rings + 4.5) if left else (x + 46, self.rings + 4.5)
            self.sheet.line("lead", (x - 42 if left else x + 42, self.rings),
                            (x - self.place.ring - 3 if left else x + self.place.ring + 3, self.rings))
            self.sheet.text(at, words, size=self.place.type, kind="q", anchor="end" if left else "start")


def _side_of(member: Member) -> str:
    """The side that a member lies on, "" at the ridge."""
    return "" if abs(member.start[0]) < 0.01 else "right" if member.start[0] > 0 else "left"


def draw_side(scene: Scene, side: str, size: str) -> Sheet:
    """The elevation of one side; `size` is "wide", "desk" or "narrow"."""
    return SideView(scene, side, size).draw()
