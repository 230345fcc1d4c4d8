"""The pieces of a close-up: braces hole to hole, another corner's as stubs, ties and webs cut short, offered ones as phantoms."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from structures.frame.document import Member

from . import pencils
from .fittings import Fittings
from .scene import Piece
from .sheet import XY

if TYPE_CHECKING:
    from .closeup import CloseUp

_TIE_IN = 32.0                      # how much of a tie or web is shown


class CornerPieces:
    """What is bolted to the hoops of one close-up."""

    def __init__(self, view: CloseUp):
        self.view, self.scene, self.sheet, self.corner = view, view.scene, view.sheet, view.corner

    def draw_washes(self, pieces: list[Piece]) -> None:
        """The wash under every lit piece, before anything that may lie over it."""
        for piece in pieces:
            if self.scene.is_lit(piece):
                self.view.thick("halo-b", self.view.line_of(piece), self.view.px(self.diameter(piece)) + 12)

    def diameter(self, piece: Piece) -> float:
        """A piece's outside diameter, inches."""
        return self.scene.document.tubes.get(piece.role, self.scene.document.tubes.get("stick", 1.315))

    def inside_face(self, piece: Piece) -> bool:
        """Whether a piece lies inside the hoops, clamped to their inside faces, and not between them."""
        return bool(piece.passes) or any(abs(end.hole[1] - self.scene.y(end.hoop)) < 0.1 for end in piece.landings)

    def draw(self, pieces: list[Piece]) -> None:
        """Braces from hole to hole, lit or plain, their holes on top."""
        for piece in pieces:
            with self.sheet.piece(piece.id, piece.part):
                self._piece(piece)

    def draw_others(self) -> None:
        """Another corner's pieces as stubs, offered ones as phantoms, wrong ones in red."""
        for piece in self.corner.foreign:
            self._stub(piece)
        for piece in self.corner.offered:
            line = self.view.line_of(piece)
            with self.sheet.piece(piece.id, piece.part):
                pencils.phantom(self.sheet, line[0], line[-1])
        for piece in self.corner.own:
            if self.scene.is_wrong(piece):
                line = self.view.line_of(piece)
                with self.sheet.piece(piece.id, piece.part):
                    pencils.broken_piece(self.sheet, line[0], line[-1], loose=self.scene.loose_end(piece))

    def _piece(self, piece: Piece) -> None:
        line, width, lit = self.view.line_of(piece), self.view.px(self.diameter(piece)), self.scene.is_lit(piece)
        if lit:
            self.view.thick("lit-b", line, width)
            self.sheet.strokes.extend((*a, *b) for a, b in zip(line, line[1:], strict=False))
        else:
            self.view.tube(line, width)
        for at in (line[0], line[-1]):
            self.sheet.circle("bolt" if lit else "bolt-q", at, self.view.place.hole)

    def _stub(self, piece: Piece) -> None:
        """The part of another corner's piece that lies in view, cut where it goes on."""
        here, there = sorted(piece.landings, key=lambda landing: landing.hoop not in self.corner.hoops)
        a, b = self.view.hole_of(here), self.view.hole_of(there)
        limit = self.view.high if b[1] > a[1] else self.view.low
        if abs(b[1] - a[1]) < 1e-6:
            return
        t = min(1.0, (limit - a[1]) / (b[1] - a[1]))
        end = tuple(p + (q - p) * t for p, q in zip(a, b, strict=True))
        line = [self.view.at(a), self.view.at((end[0], end[1], end[2]))]
        with self.sheet.piece(piece.id, piece.part):
            self.view.tube(line, self.view.px(self.diameter(piece)))
            if t < 1:
                self.view.cut(line[0], line[1], self.view.px(self.diameter(piece)))
            else:
                self.sheet.circle("bolt-q", line[1], self.view.place.hole)
            self.sheet.circle("bolt-q", line[0], self.view.place.hole)

    def draw_ties(self, ties: list[Piece], fittings: Fittings) -> None:
        """Ties from their band inward, cut short: they go on to the other side."""
        fittings.draw_bands([end for tie in ties for end in tie.landings if end.side == self.corner.side])
        for web in (m for m in self.scene.document.members if m.role == "web"):
            self._web(web)
        for tie in self.corner.ties:
            with self.sheet.piece(tie.id, tie.part):
                self._tie(tie, self.stub_of(tie))

    def _web(self, web: Member) -> None:
        """A web from its band on the hoop toward its tie, cut short as the tie is."""
        top, foot = sorted((web.start, web.end), key=lambda point: -point[2])
        hoop = round(top[1] / self.corner.spacing) + 1
        if hoop not in self.corner.hoops or top[0] * self.corner.sign <= 0:
            return
        share = min(1.0, _TIE_IN / math.dist(top, foot))
        a, b = (self.view.at((x, y, z)) for x, y, z in (top, tuple(p + (q - p) * share for p, q in zip(top, foot, strict=True))))
        with self.sheet.piece(web.id, web.part):
            self.view.tube([a, b], self.view.px(2 * web.radius_in), lit=self.scene.asks_for(web.id, web.part, web.option))
            self.view.cut(a, b, self.view.px(2 * web.radius_in))

    def stub_of(self, tie: Piece) -> list[XY]:
        """The part of a tie that is drawn: from its hole on this side a little way inward."""
        a = self.view.hole_of(next(end for end in tie.landings if end.side == self.corner.side))
        reach = min(_TIE_IN, abs(a[0]))
        return [self.view.at(a), self.view.at((a[0] - self.corner.sign * reach, a[1], a[2]))]

    def _tie(self, tie: Piece, line: list[XY]) -> None:
        width = self.view.px(self.diameter(tie))
        if tie in self.scene.phantoms:
            self.sheet.line("gone2", *line)
            self.sheet.circle("gone-end", line[0], self.view.place.hole)
            return
        lit = self.scene.is_lit(tie)
        if lit:
            self.view.thick("halo-b", line, width + 12)
            self.view.thick("lit-b", [line[0], pencils.toward(line[1], line[0], width / 2)], width)
            self.sheet.strokes.append((*line[0], *line[1]))
        else:
            self.view.tube(line, width)
        self.view.cut(line[0], line[1], width)
        self.sheet.circle("bolt" if lit else "bolt-q", line[0], self.view.place.hole)
