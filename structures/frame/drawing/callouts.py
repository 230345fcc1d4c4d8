"""The right margin of the whole-frame view: a row for each part that is lit or offered, with a leader where one fits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from . import pencils
from .lanes import down
from .scene import Piece, by_part
from .sheet import XY, text_box, wrapped

if TYPE_CHECKING:
    from .frame import FrameView

_STEP, _LINE = 50.0, 17.0


@dataclass(slots=True)
class Row:
    """One part's row: mark and name on a shelf, below it count and length; `anchor` is where its leader begins."""

    part: str
    pieces: list[Piece]
    anchor: XY | None
    lit: bool
    date: str
    below: str

    @property
    def wanted(self) -> float:
        """The height at which the row would like to stand."""
        return self.anchor[1] - 40 if self.anchor else 0.0


class Callouts:
    """Rows beside one whole-frame view."""

    def __init__(self, view: FrameView):
        self.view, self.scene, self.sheet = view, view.scene, view.sheet

    def draw(self, lit: list[Piece], phantoms: list[Piece]) -> set[str]:
        """Draw every row; returns the ids of the pieces that leaders name, which need no mark of their own."""
        rows = [self._row(part, pieces) for part, pieces in (by_part(lit) | by_part(phantoms)).items()]
        led = sorted((row for row in rows if row.anchor), key=lambda row: row.wanted)
        free = [row for row in rows if not row.anchor]
        rows = led + free
        right, width = self.view.right, self.view.place.width
        widest = max((max(25 + text_box(0, 0, row.pieces[0].words, 14).x1, min(text_box(0, 0, row.below, 13).x1, 200))
                      for row in rows), default=0.0)
        foot = self.view.at(self.view.half, self.view.measures.length_in, 0)[1]
        step = _STEP if all(text_box(0, 0, row.below, 13).x1 <= width - right - 48 for row in rows) else _STEP + _LINE
        low, high = 34.0, foot - 26
        fits = low + step * (len(rows) - 1) <= high
        x = min(right + (40 if fits else 64), width - widest - 8)
        wanted = [row.wanted for row in led]
        first = wanted[-1] + step if wanted else low
        wanted += [first + step * i for i in range(len(free))]
        places = down(wanted, step, low, high if fits else self.sheet.height - 44)
        for row, y in zip(rows, places, strict=True):
            self._draw_row(row, x, y)
        return {piece.id for row in led for piece in row.pieces
                if piece.corner == max(row.pieces, key=self._reach).corner}

    def _row(self, part: str, pieces: list[Piece]) -> Row:
        piece = pieces[0]
        lit = self.scene.is_lit(piece)
        every = [p for p in (self.scene.lit if lit else self.scene.phantoms) if p.part == part]
        length, date = self.scene.figure(piece.length_in), self.scene.date_added(piece)
        below = f"{len(every)} piece{'s' if len(every) > 1 else ''} of {length}"
        if piece.zone == "roof" and not piece.hand and self.scene.has_hands:
            below += ", no twist"
        if not lit:
            below = f"{self.scene.no_words(piece.option)}: {len(every)} of {length}"
        elif date:
            below = f"{below}, added {date}"
        best = max(pieces, key=self._reach)
        anchor = pencils.along(*self.view.line_of(best), 0.5) if self._reach(best) > self.view.right - 240 else None
        return Row(part, pieces, anchor, lit, date, below)

    def _reach(self, piece: Piece) -> float:
        """How far right a piece lies on the near side; ties and the left side get no leader."""
        if piece.zone == "tie" or piece.start[0] < 0:
            return float("-inf")
        return pencils.along(*self.view.line_of(piece), 0.5)[0]

    def _draw_row(self, row: Row, x: float, y: float) -> None:
        lines = wrapped(row.below, self.view.place.width - x - 6, 13)
        words = row.pieces[0].words
        width = max(25 + text_box(0, 0, words, 14).x1, *(text_box(0, 0, line, 13).x1 for line in lines))
        shelf = [(x, y), (x + width, y)]
        self.sheet.polyline("lead", [row.anchor, *shelf] if row.anchor else shelf)
        if row.anchor:
            self.sheet.circle("dot", row.anchor, 2.4)
        self.sheet.mark((x + 9, y - 13), self.scene.letters[row.part], lit=row.lit, radius=9, ringed=bool(row.date))
        self.sheet.text((x + 25, y - 8), words, size=14, kind="lab")
        for i, line in enumerate(lines):
            self.sheet.text((x, y + 17 + _LINE * i), line, size=13, kind="num q")
