"""The whole frame laid flat: left foot on top, ridge in the middle, each hoop its developed length true to scale.

A place lies at y along the structure and at s along the tube from the LEFT foot over the ridge, both at one scale. Braces run
from hole to hole as they are developed.
"""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Joint, Landing, Member, Point

from . import pencils
from .breaks import Axis, fitted, stretches
from .codes import draw_codes
from .flags import draw_flags, draw_unseen, wrong_spots
from .hardware import draw_signs, drawn_bay
from .kitlines import draw_sections, draw_sticks
from .lanes import down
from .scene import PIPE_WORDS, Piece, Scene
from .sheet import XY, Sheet, text_box

_SKIN_IN = 8.0                     # what is joined farther off the hoops than this, as on a tie or in a door, is not on the frame laid flat
_RUN_WORDS = {"purlin": "side purlin"}


@dataclass(frozen=True, slots=True)
class Place:
    """Room and weights of one size, px; the least px to a bay before bays are left out."""

    width: float
    left: float
    right: float
    tallest: float
    top: float
    bay_px: float
    roomy_px: float
    gap: float
    ring: float
    type: int
    names: bool
    foot_rings: bool


PLACES = {
    "wide": Place(1120, 140, 170, 700, 78, 30, 44, 72, 11, 13, True, True),
    "desk": Place(768, 100, 132, 560, 66, 24, 34, 60, 11, 12, True, True),
    "narrow": Place(358, 58, 14, 430, 52, 24, 30, 46, 10, 11, False, False),
}


class UnrolledView:
    """The frame laid flat, drawn once."""

    def __init__(self, scene: Scene, size: str):
        self.scene, self.size, self.place = scene, size, PLACES[size]
        self.developed = scene.document.measures.developed_in
        self.axis = self._axis()
        self.scale = self.axis.scale
        self.bottom = self.place.top + self.developed * self.scale
        foot = self.bottom + (44 if self.place.foot_rings else 30)
        self.sheet = Sheet(self.place.width, foot, size, scene.asked.layers)
        self.stub = self.place.gap / 2 - 5

    def _axis(self) -> Axis:
        """The drawn hoops at one scale both ways, whole where bays stay wide enough."""
        p, m = self.place, self.scene.document.measures
        left = max(p.left, max(text_box(0, 0, self._figure(s), p.type).x1 for _, _, _, s in self._lines()) + (42 if p.names else 22))
        room = p.width - left - p.right
        shown = stretches(self.scene.hoops, self.scene.brace_hoops, int(room / p.bay_px), max(4, int((room - p.gap) / p.roomy_px)))
        scale = min(fitted(shown, m.spacing_in, room, p.gap), p.tallest / self.developed)
        used = sum(s.bays for s in shown) * m.spacing_in * scale + p.gap * (len(shown) - 1)
        return Axis(shown, m.spacing_in, scale, left + (room - used) / 2, p.gap)

    # geometry
    def at(self, y: float, s: float) -> XY:
        """Where y along the structure and s along the tube from the left foot lie on the sheet."""
        return self.axis.px(y), self.place.top + s * self.scale

    def from_left(self, side: str, from_foot: float) -> float:
        """A place measured from its own side's foot, from the left foot."""
        return self.developed - from_foot if side == "right" else from_foot

    def hole(self, landing: Landing) -> XY:
        """A landing's hole as it is developed: beside its hoop, at its band's place along the tube."""
        return self.at(landing.hole[1], self.from_left(landing.side, landing.from_foot_in))

    def line_of(self, piece: Piece) -> tuple[XY, XY]:
        """A brace on the sheet, hole to hole."""
        return self.hole(piece.landings[0]), self.hole(piece.landings[1])

    def joint_at(self, joint: Joint) -> XY | None:
        """A joint on a hoop as it is developed; None for what lies on none."""
        if joint.from_foot_in is None or joint.hoop is None:
            return None
        side = joint.side or "left"
        return self.at(joint.at[1], self.from_left(side, joint.from_foot_in))

    def _sign_at(self, joint: Joint) -> XY | None:
        """A joint's sign: on its hoop, or where what runs along the structure is joined; None for what lies off the frame's skin."""
        if not drawn_bay(self.axis, joint):
            return None
        x, y, z = joint.at
        if joint.from_foot_in is None and abs(self.scene.profile.place(abs(x), max(z, 0.0))[1]) > _SKIN_IN:
            return None
        return self.joint_at(joint) or self.of((x, y, max(z, 0.0)))

    def of(self, point: Point) -> XY:
        """Any place of the frame, by the nearest place along its hoop."""
        s, _ = self.scene.profile.place(abs(point[0]), point[2])
        return self.at(point[1], self.from_left("right" if point[0] > 0 else "left", s))

    # drawing
    def draw(self) -> Sheet:
        """Draw everything, labels last."""
        self._lengthwise()
        self._hoops()
        draw_sections(self.sheet, self.scene, self.axis.drawn, self._section)
        draw_sticks(self.sheet, self.scene, self._stick)
        self._breaks()
        self._plain()
        self._ties()
        draw_signs(self.sheet, self.scene, self.scene.document.joints, self._sign_at)
        self._asked()
        self._rings()
        self._figures()
        self._names()
        self._marks()
        self._wrong()
        return self.sheet

    def _spans(self, out: float) -> list[tuple[float, float]]:
        """Lengthwise lines' px from and to, `out` px past both ends."""
        spans = self.axis.spans(self.stub)
        last = len(spans) - 1
        return [(a - (out if i == 0 else 0), b + (out if i == last else 0)) for i, (a, b) in enumerate(spans)]

    def _lines(self) -> list[tuple[str, str, str, float]]:
        """Everything that runs lengthwise: kind, words, side, s from the left foot; the feet and the ridge too."""
        found = [("foot", "foot", "left", 0.0), ("foot", "foot", "right", self.developed)]
        for board in self.scene.boards:
            s = self.scene.profile.place(abs(board.x), board.z)[0]
            words = "hip channel" if board.code == "channel" else board.code.replace("-", " ")
            found.append(("board", words, board.side, self.from_left(board.side, s)))
        for pipe in (one for one in self.scene.pipes if one.z > 0):
            s = self.scene.profile.place(abs(pipe.x), pipe.z)[0]
            found.append(("board", PIPE_WORDS[pipe.code], pipe.side, self.from_left(pipe.side, s)))
        for seam in self.scene.seams:
            found.append(("seam", "seam", seam.side, self.from_left(seam.side, seam.from_foot_in)))
        for run in self.scene.runs:
            found.append(("purlin", _RUN_WORDS.get(run.code, run.code if run.code == "ridge" else f"{run.code} purlin"), run.side,
                          self._run_at(run.code, run.side, run.x, run.z)))
        return sorted(found, key=lambda line: line[3])

    def _run_at(self, code: str, side: str, x: float, z: float) -> float:
        if code == "ridge":
            return self.developed / 2
        mark = self.scene.document.stations.get(code)
        return self.from_left(side, mark if mark is not None else self.scene.profile.place(abs(x), z)[0])

    def _lengthwise(self) -> None:
        lit = {(line.code, line.side) for line in self.scene.runs if self.scene.lights(line)}
        for kind, words, side, s in self._lines():
            y = self.place.top + s * self.scale
            for a, b in self._spans(10 if kind == "foot" else 6 if kind in ("board", "seam") else 0):
                if kind == "foot":
                    self.sheet.line("obj2", (a, y), (b, y), solid=True)
                elif kind == "purlin":
                    self.sheet.tube("t1", [(a, y), (b, y)])
                else:
                    self.sheet.line("obj1" if kind == "board" else "cen", (a, y), (b, y), solid=kind == "board")
            if kind == "purlin" and any((_RUN_WORDS.get(code, code), where) == (words, side) for code, where in lit):
                pencils.lit_lines(self.sheet, [((a, y), (b, y)) for a, b in self._spans(0)], holes=False)

    def _hoops(self) -> None:
        for hoop in self.axis.drawn:
            x = self.axis.px(self.scene.y(hoop))
            self.sheet.tube("t2", [(x, self.place.top), (x, self.bottom)])

    def _section(self, member: Member) -> list[XY]:
        x = self.axis.px(self.scene.y(member.hoop or 1))
        return [(x, self.place.top + s * self.scale) for s in (member.s_from_in or 0.0, member.s_to_in or 0.0)]

    def _stick(self, member: Member) -> list[tuple[XY, XY]]:
        x, _, z = member.start
        side = "" if abs(x) < 0.01 else "right" if x > 0 else "left"
        s = self.from_left(side, self.scene.profile.place(abs(x), z)[0]) if side else self.developed / 2
        y = self.place.top + s * self.scale
        return [((a, y), (b, y)) for a, b in self.axis.clipped(member.start[1], member.end[1])]

    def _breaks(self) -> None:
        for middle, _, _ in self.axis.gaps():
            for x in (middle - self.axis.gap / 2 + self.stub, middle + self.axis.gap / 2 - self.stub):
                pencils.zigzag(self.sheet, x, self.place.top - 12, self.bottom + 12)

    def _shown(self, pieces: tuple[Piece, ...]) -> list[Piece]:
        return [piece for piece in pieces if self.axis.shows(*piece.hoops)]

    def _plain(self) -> None:
        for piece in self._shown(self.scene.pieces):
            if piece.zone != "tie" and not self.scene.is_wrong(piece) and not self.scene.is_lit(piece):
                with self.sheet.piece(piece.id, piece.part):
                    self.sheet.tube("t1", self.line_of(piece))

    def _ties(self) -> None:
        """A tie lands on its hoop twice: a short stroke across the hoop at each landing."""
        for ties, phantom in ((self.scene.pieces, False), (self.scene.phantoms, True)):
            for tie in (piece for piece in self._shown(ties) if piece.zone == "tie"):
                with self.sheet.piece(tie.id, tie.part):
                    self._tie(tie, phantom)

    def _tie(self, tie: Piece, phantom: bool) -> None:
        for landing in tie.landings:
            x, y = self.at(self.scene.y(landing.hoop), self.from_left(landing.side, landing.from_foot_in))
            a, b = (x - 6.5, y), (x + 6.5, y)
            if phantom:
                self.sheet.line("far", (a[0] - 6, y), (b[0] + 6, y))
                self.sheet.circle("gone-end", (x, y), 3.4)
            elif self.scene.is_lit(tie):
                self.sheet.line("halo-s", a, b)
                self.sheet.line("lit", a, b)
                self.sheet.circle("bolt", (x, y), 2.7)
            else:
                self.sheet.line("tick", a, b)
            self.sheet.strokes.append((*a, *b))

    def _asked(self) -> None:
        for piece in self._shown(self.scene.phantoms):
            if piece.zone != "tie":
                pencils.phantom(self.sheet, *self.line_of(piece))
        lit = [p for p in self._shown(self.scene.lit) if p.zone != "tie" and not self.scene.is_wrong(p)]
        pencils.lit_pieces(self.sheet, [(p.id, p.part, *self.line_of(p)) for p in lit])
        for piece in self._shown(self.scene.pieces):
            if piece.zone != "tie" and self.scene.is_wrong(piece):
                pencils.broken_piece(self.sheet, *self.line_of(piece), loose=self.scene.loose_end(piece))

    def _rings(self) -> None:
        named = self.scene.named_hoops or self.scene.brace_hoops
        step = self.scene.document.measures.spacing_in * self.scale
        ring = max(8.0, min(self.place.ring, step / 2 - 0.6))
        every = 1 if step >= 2 * ring + 0.6 else 2
        rows = [self.place.top - 26] + ([self.bottom + 26] if self.place.foot_rings else [])
        for hoop in self.axis.drawn:
            if every == 1 or hoop in named or hoop in (1, self.scene.hoops):
                for y in rows:
                    self.sheet.bubble((self.axis.px(self.scene.y(hoop)), y), hoop, named=hoop in named, radius=ring,
                                      size=12 if ring > 10 else 11)
        self._ends(rows[0])

    def _ends(self, y: float) -> None:
        """Which end is which, and which bays are left out."""
        p = self.place
        with self.sheet.layer("names"):
            for end, hoop in ((1, 1), (2, self.scene.hoops)):
                x, left = self.axis.px(self.scene.y(hoop)), end == 1
                room = 70.0 if not p.names else (x if left else p.width - x) - 48
                words = self.scene.end_words(end, room, p.type)
                if p.names:
                    out = -1 if left else 1
                    self.sheet.line("lead", (x + out * (p.ring + 3), y), (x + out * 42, y))
                    self.sheet.text((x + out * 46, y + 4.5), words, size=p.type, kind="q", anchor="end" if left else "start")
                else:
                    at = (x - p.ring, 12.0) if left else (x + p.ring, 12.0)
                    self.sheet.text(at, words, size=11, kind="q", anchor="start" if left else "end")
        for middle, first, last in self.axis.gaps():
            for words in (f"bays {first} to {last} alike", f"bays {first} to {last}", f"{first} to {last}"):
                at = (middle, 16.0 if p.names else y + 4)
                if pencils.fits(self.sheet, at, words, 12 if p.names else 11, "middle", 4):
                    self.sheet.text(at, words, size=12 if p.names else 11, kind="q", anchor="middle")
                    break

    # labels
    def _figures(self) -> None:
        """How far along the tube each line lies from its own side's foot, at the left."""
        edge = min(self.axis.px(0.0), self.axis.px(self.scene.document.measures.length_in))
        rows = sorted({round(s, 2): s for _, _, _, s in self._lines()}.values())
        step = 17.0 if self.place.names else 15.0
        ys = [self.place.top + s * self.scale for s in rows]
        places = down(ys, step, self.place.top - 2, self.bottom + 4)
        end = edge - (28 if self.place.names else 12)
        with self.sheet.layer("marks"):
            for s, y, at in zip(rows, ys, places, strict=True):
                figure = self._figure(s)
                self.sheet.polyline("lead", [(edge - (10 if self.place.names else 5), y), (end + 4, at), (end, at)])
                self.sheet.text((end - 4, at + 4.5), figure, size=self.place.type, kind="num", anchor="end")

    def _figure(self, s: float) -> str:
        """A place's figure from its own side's foot; the narrow drawing leaves out the unit."""
        from_foot = min(s, self.developed - s)
        figure = self.scene.figure(from_foot) if from_foot > 0.01 else "0"
        return figure if self.place.names else figure.removesuffix(" mm")

    def _names(self) -> None:
        """What each line is, at the right; the parts of the roof and the walls in the middle."""
        edge = max(self.axis.px(0.0), self.axis.px(self.scene.document.measures.length_in))
        with self.sheet.layer("names"):
            if self.place.names:
                named: dict[float, list[str]] = {}
                for _, words, side, s in self._lines():
                    named.setdefault(round(s, 2), []).append(f"{side} {words}" if side and words != "ridge" else words)
                rows = sorted(named)
                ys = [self.place.top + s * self.scale for s in rows]
                places = down(ys, 17.0, self.place.top - 2, self.bottom + 4)
                for s, y, at in zip(rows, ys, places, strict=True):
                    said = self._fitting(named[s], self.place.width - edge - 40)
                    self.sheet.polyline("lead", [(edge + 12, y), (edge + 28, at), (edge + 32, at)])
                    self.sheet.text((edge + 35, at + 4.5), said, size=self.place.type, kind="q")
            self._parts()

    def _fitting(self, words: list[str], room: float) -> str:
        """As many of a line's names as there is room for, the first at least."""
        for count in range(len(words), 1, -1):
            said = ", ".join(dict.fromkeys(words[:count]))
            if text_box(0, 0, said, self.place.type).x1 <= room:
                return said
        return words[0]

    def _parts(self) -> None:
        """left side, left roof, right roof, right side: in the middle bay, over whatever runs there."""
        profile = self.scene.profile
        lines = sorted({s for _, _, _, s in self._lines()})
        eaves = next((s for s in lines if s > 0 and profile.point(min(s, profile.half_in))[1] > 0.4 * profile.peak_in), profile.half_in / 2)
        spots = [("left side", eaves / 2), ("left roof", (eaves + profile.half_in) / 2)]
        spots += [(words.replace("left", "right"), self.developed - s) for words, s in reversed(spots)]
        gaps = self.axis.gaps()
        middles = [gap[0] for gap in gaps] or [(self.axis.px(0.0) + self.axis.px(self.scene.document.measures.length_in)) / 2]
        for words, s in spots:
            self._part(words, s, eaves if "side" in words else profile.half_in - eaves, middles)

    def _part(self, words: str, s: float, room_in: float, middles: list[float]) -> None:
        """One part's words near its middle, not nearer to its edges than a line of type."""
        reach = room_in * self.scale / 2 - 12
        for shift in (0, -24, 24, -48, 48):
            for x in middles if abs(shift) <= reach else ():
                at = (x, self.place.top + s * self.scale + shift + 4)
                if pencils.fits(self.sheet, at, words, 12, "middle", 6) and self._open(at, words):
                    self.sheet.text(at, words, size=12, kind="q", anchor="middle")
                    return

    def _open(self, at: XY, words: str) -> bool:
        """Whether words would not lie along a lengthwise line; a hoop's upright tube may be broken."""
        box = text_box(*at, words, 12, "middle").grown(3)
        lit = [self.line_of(piece) for piece in self._shown(self.scene.lit + self.scene.phantoms) if piece.zone != "tie"]
        return not (any(box.y0 < self.place.top + s * self.scale < box.y1 for _, _, _, s in self._lines())
                    or any(box.grown(5).crossed_by(*a, *b) for a, b in lit))

    def _marks(self) -> None:
        lit, phantoms = self._shown(self.scene.lit), self._shown(self.scene.phantoms)
        lines = [self.line_of(p) for p in lit + phantoms if p.zone != "tie"]
        radius = 9 if self.place.names else 8.5
        with self.sheet.layer("marks"):
            for pieces, is_lit in ((lit, True), (phantoms, False)):
                for piece in pieces:
                    if piece.zone != "tie":
                        pencils.place_mark(self.sheet, *self.line_of(piece), self.scene.letters[piece.part], lines, lit=is_lit,
                                           radius=radius, ringed=bool(self.scene.date_added(piece)))
            self._tie_words(lit, phantoms)

    def _tie_words(self, lit: list[Piece], phantoms: list[Piece]) -> None:
        """One tie and one that was offered, by their letters."""
        for pieces, is_lit in (([p for p in lit if p.zone == "tie"], True), ([p for p in phantoms if p.zone == "tie"], False)):
            for tie in pieces[:1]:
                x, y = self.at(self.scene.y(tie.hoops[0]), tie.landings[0].from_foot_in)
                pencils.place_mark(self.sheet, (x - 7, y), (x + 7, y), self.scene.letters[tie.part], [], lit=is_lit,
                                   radius=9 if self.place.names else 8.5)

    def _wrong(self) -> None:
        spacing = self.scene.document.measures.spacing_in

        def shown(code: str, point: Point) -> bool:
            return self.axis.shows(round(point[1] / spacing) + 1)

        draw_unseen(self.sheet, self.scene, self.of, shown)
        draw_flags(self.sheet, wrong_spots(self.scene, self.of, shown), words=self.place.names)
        with self.sheet.layer("places"):
            lit = [self.line_of(p) for p in self._shown(self.scene.lit) if p.zone != "tie"]
            draw_codes(self.sheet, self.scene, self._shown_at, lit)

    def _shown_at(self, joint: Joint) -> XY | None:
        return self.joint_at(joint) if joint.hoop is not None and self.axis.shows(joint.hoop) else None


def draw_unrolled(scene: Scene, size: str) -> Sheet:
    """The frame laid flat; `size` is "wide", "desk" or "narrow"."""
    return UnrolledView(scene, size).draw()
