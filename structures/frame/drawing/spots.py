"""The words of a close-up: numbered landings, letters and lengths of pieces, names of lengthwise lines, the end's name."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from . import pencils
from .corner import Spot
from .corner_pieces import CornerPieces
from .corner_rows import spot_figure, spot_words
from .lanes import down
from .lengthwise import LengthwiseLines
from .scene import Piece
from .sheet import XY, Box, text_box, wrapped

if TYPE_CHECKING:
    from .closeup import CloseUp

_ANGLES = [math.radians(a) for a in (-40, -140, 40, 140, -75, -105, 0, 180, 75, 105)]
# where a number may stand about its landing: what the place costs in itself, how far off, at which angle; best first
_AROUND = sorted((reach / 4 + i / 4, reach, angle) for reach in (24, 32, 42, 54) for i, angle in enumerate(_ANGLES))
_RING = 9.5                         # of a landing's number
_LINE = 17.0                        # from line to line of its words
# where a line's name may stand, from its cut end: px outward and down
_BESIDE = (*((11, 4.5 + down) for down in (0, 13, -13, 26, -26, 39, -39)), (-8, -16), (-8, 26), (-8, -30), (-8, 40))
_FIGURE = re.compile(r"(\d) (\d+/\d+|mm)")
_SHORT = {"ridge purlin": "ridge", "hip channel": "channel"}


@dataclass(frozen=True, slots=True)
class _Words:
    """What is said of one spot: `lines` below its shelf, each with the layer that it belongs to ("" is always drawn)."""

    spot: Spot
    anchor: XY
    lines: tuple[tuple[str, str, str], ...]       # words, kind, layer


class SpotWords:
    """The labels of one close-up."""

    def __init__(self, view: CloseUp, lines: LengthwiseLines, pieces: CornerPieces):
        self.view, self.lines, self.pieces, self.scene, self.sheet = view, lines, pieces, view.scene, view.sheet
        self.corner = view.corner

    def draw(self) -> None:
        """Draw every label: fixed ones first, then those that look for clear space."""
        self._end_name()
        if self.view.place.columns:
            self._columns(self.view.place.columns)
            self._letters()
        else:
            self._letters()
            self._numbers()
        self._line_names()

    # which end
    def _end_name(self) -> None:
        """Which end this is, below its own hoop's ring, and what people call it."""
        if self.corner.end == "mid":
            return
        hoop = self.corner.hoops[0]
        x, y = self.view.at(self.view.foot(hoop, -13.0))
        y += 2 * self.view.place.ring + 19
        size, name = self.view.place.type, self.scene.asked.names.get(1 if self.corner.end == "tag" else 2, "")
        box = self.sheet.text((x, y), f"{self.corner.end} end", size=size, kind="q", anchor="middle")
        if name:
            right = self.view.camera.mirror < 0
            with self.sheet.layer("names"):
                self.sheet.text((box.x1 + 8, y) if right else (box.x0 - 8, y), name, size=size, kind="lab",
                                anchor="start" if right else "end")

    # landings
    def anchor(self, spot: Spot) -> XY:
        """The point that a spot's leader begins at: a lone hole, or the node of butted bands."""
        if len(spot.ends) == 1:
            return self.view.at(self.view.hole_of(spot.ends[0].landing))
        return self.view.at(self.view.on_hoop(spot.hoop, spot.node_in))

    def _at_own_end(self, spot: Spot) -> bool:
        """Whether a spot's words stand on the side where the corner's own end is."""
        hoops = self.corner.hoops
        if self.corner.end == "mid":
            return hoops.index(spot.hoop) < len(hoops) / 2
        return spot.hoop == hoops[0]

    def _columns(self, columns: tuple[float, float]) -> None:
        """Words in two lanes, left and right of the drawing, each with a leader from its landing."""
        right_is_own = self.view.camera.mirror > 0
        for side, edge in enumerate(columns):
            own = right_is_own == (side == 1)
            room = self.view.place.width - edge - 10 if side else edge - 10
            spots = [spot for spot in self.corner.spots if self._at_own_end(spot) == own]
            if spots:
                self._lane(spots, edge, room, side == 1)

    def _lane(self, spots: list[Spot], edge: float, room: float, right: bool) -> None:
        """One lane's words, as many of them as there is height for: all, else the marks alone, else the codes alone."""
        low, high = 34.0, self.sheet.height
        for fullness in (2, 1, 0):
            rows = sorted((self._words(spot, room, fullness) for spot in spots), key=lambda row: row.anchor[1])
            tallest = max(len(row.lines) for row in rows)
            step = 34 + _LINE * tallest
            if low + step * (len(rows) - 1) + 8 + _LINE * tallest <= high:
                break
        places = down([row.anchor[1] for row in rows], step, low, high - 8 - _LINE * tallest)
        for row, y in zip(self._uncrossed(rows, places, edge), places, strict=True):
            self._say(row, edge, y, right)

    def _words(self, spot: Spot, room: float, fullness: int) -> _Words:
        size, lines = self.view.place.type, []
        said = [(spot_words(self.corner, spot), "", "", 2), (spot_figure(self.corner, spot), "num q", "marks", 1)]
        if all(end.offered for end in spot.ends):
            said.append((self.scene.no_words(spot.ends[0].piece.option), "q", "", 1))
        turned = [end.piece for end in spot.ends if end.index is not None and end.index == end.piece.turned]
        if turned:
            letters = " and ".join(self.scene.letters[piece.part] for piece in turned)
            said.append(("this end is turned" if len(spot.ends) == 1 else f"this end of {letters} is turned", "lab", "", 1))
        for words, kind, layer, least in said:
            if fullness >= least:
                # a figure stays on one line
                whole = _FIGURE.sub(r"\1~\2", words)
                lines += [(line.replace("~", " "), kind, layer) for line in wrapped(whole, room, size)]
        return _Words(spot, self.anchor(spot), tuple(lines))

    def _uncrossed(self, rows: list[_Words], places: list[float], edge: float) -> list[_Words]:
        """The rows in an order in which no two leaders cross: neighbours that do change places."""
        rows = list(rows)
        for _ in rows:
            for i in range(len(rows) - 1):
                a, b = rows[i].anchor, rows[i + 1].anchor
                if pencils.crossing(a, (edge, places[i]), b, (edge, places[i + 1])):
                    rows[i], rows[i + 1] = rows[i + 1], rows[i]
        return rows

    def _say(self, row: _Words, edge: float, y: float, right: bool) -> None:
        """One spot's words: number and code on the shelf, what lands there and its mark below."""
        size, out = self.view.place.type, 1.0 if right else -1.0
        code_at, anchor = edge + out * (2 * _RING + 7), "start" if right else "end"
        code = text_box(code_at, y - 6, row.spot.code, size + 2, anchor)
        widths = [0.0, *(text_box(0, 0, words, size).x1 for words, _, _ in row.lines)]
        far = edge + out * max(abs(code.x1 - edge if right else edge - code.x0), *widths)
        self.sheet.polyline("lead", [row.anchor, (edge, y), (far, y)])
        self.sheet.circle("dot", row.anchor, 2.2)
        self.sheet.mark((edge + out * _RING, y - 5 - _RING / 2), str(row.spot.number), lit=False, radius=_RING)
        with self.sheet.layer("places"):
            self.sheet.text((code_at, y - 6), row.spot.code, size=size + 2, kind="code", anchor=anchor)
        for i, (words, kind, layer) in enumerate(row.lines):
            at = (edge, y + 16 + _LINE * i)
            if layer:
                with self.sheet.layer(layer):
                    self.sheet.text(at, words, size=size, kind=kind, anchor=anchor)
            else:
                self.sheet.text(at, words, size=size, kind=kind, anchor=anchor)

    def _numbers(self) -> None:
        """Numbers alone, each beside its landing where there is room: the table below says the rest."""
        away = [(a, b) for piece in self.corner.own for a, b in _parts(self.view.line_of(piece))]
        for spot in self.corner.spots:
            anchor = self.anchor(spot)
            at = self._clear(anchor, away)
            if at is None:
                continue
            self.sheet.line("lead", anchor, pencils.toward(at, anchor, _RING))
            self.sheet.mark(at, str(spot.number), lit=False, radius=_RING)

    def _clear(self, anchor: XY, away: list[tuple[XY, XY]]) -> XY | None:
        """The nearest place for a number clear of labels, leaders and pieces, with fewest lines behind it."""
        best: tuple[float, XY] | None = None
        outward = -1 if anchor[0] < self.view.place.width / 2 else 1
        for least, reach, angle in _AROUND:
            if best is not None and least >= best[0]:
                break
            at = (anchor[0] + outward * reach * math.cos(angle), anchor[1] + reach * math.sin(angle))
            box = Box(at[0] - _RING, at[1] - _RING, at[0] + _RING, at[1] + _RING)
            if not self.sheet.free(box, 2) or any(box.grown(3).crossed_by(*a, *b) for a, b in away):
                continue
            tip = pencils.toward(at, anchor, _RING)
            if self._hits(anchor, tip):
                continue
            cost = least + 5 * self.sheet.crossings(box)
            if best is None or cost < best[0]:
                best = (cost, at)
        return best[1] if best else None

    # pieces
    def _letters(self) -> None:
        """Each piece's letter beside it, and where there is room its length."""
        pieces = [*self.corner.own, *self.corner.offered]
        away = [part for piece in pieces for part in _parts(self.view.line_of(piece))]
        for piece in pieces:
            self._letter(piece, self.view.line_of(piece), away)
        if self.corner.end == "mid" and self.corner.ties:
            # they have no number there, so one of them carries the letter of all
            tie = self.corner.ties[-1]
            self._letter(tie, self.pieces.stub_of(tie), away)

    def _letter(self, piece: Piece, line: list[XY], away: list[tuple[XY, XY]]) -> None:
        place = self.view.place
        lit = self.scene.is_lit(piece) and piece not in self.scene.phantoms
        if not pencils.place_mark(self.sheet, line[0], line[-1], self.scene.letters[piece.part], away, lit=lit,
                                  radius=place.mark, size=12, ringed=bool(self.scene.date_added(piece)),
                                  half=self.view.px(self.pieces.diameter(piece)) / 2):
            return
        if self.view.size == "narrow":
            return
        box, words = self.sheet.boxes[-1], self.scene.figure(piece.length_in)
        middle = (box.y0 + box.y1) / 2 + 4.5
        for at, anchor in (((box.x1 + 4, middle), "start"), ((box.x0 - 4, middle), "end")):
            found = text_box(*at, words, place.type, anchor)
            if self.sheet.free(found, 2) and not any(found.grown(2).crossed_by(*a, *b) for a, b in away):
                with self.sheet.layer("marks"):
                    self.sheet.text(at, words, size=place.type, kind="num blue" if lit else "num", anchor=anchor)
                return

    # lengthwise lines
    def _line_names(self) -> None:
        """What each lengthwise line is, where it is cut; at its other end and on a narrow sheet only where that is clear."""
        named: set[str] = set()
        for end, name in self.lines.ends:
            words = _SHORT.get(name, name) if self.view.size == "narrow" else name
            found = self._beside(end, words)
            crowded = words in named or self.view.size == "narrow"
            if found and (not crowded or found[0] < len(_BESIDE)):
                at = found[1]
                if _is_far(end, at):
                    self.sheet.line("lead", end, _tip(end, at))
                self.sheet.text(at, words, size=self.view.place.type, kind="q", anchor=found[2])
                named.add(words)

    def _beside(self, end: XY, words: str) -> tuple[float, XY, str] | None:
        """The best free place for a name near a cut end: what it costs, where, and how the words run."""
        out, size = (-1 if end[0] < self.view.place.width / 2 else 1), self.view.place.type
        found: list[tuple[float, XY, str]] = []
        for i, (dx, dy) in enumerate(_BESIDE):
            at, anchor = (end[0] + out * dx, end[1] + dy), "start" if out * dx > 0 else "end"
            if pencils.fits(self.sheet, at, words, size, anchor, 2) and not (_is_far(end, at) and self._hits(end, _tip(end, at))):
                crossed = self.sheet.crossings(text_box(*at, words, size, anchor))
                found.append((i / 2 + len(_BESIDE) * crossed, at, anchor))
        return min(found, default=None)

    def _hits(self, a: XY, b: XY) -> bool:
        """Whether a leader from a to b would cross a label or another leader."""
        return (any(box.crossed_by(*a, *b) for box in self.sheet.boxes)
                or any(pencils.crossing(a, b, line[:2], line[2:]) for line in self.sheet.leaders))


def _is_far(end: XY, at: XY) -> bool:
    """Whether words stand so far from the end that they name that a leader must lead there."""
    return abs(at[1] - 4.5 - end[1]) > 16


def _tip(end: XY, at: XY) -> XY:
    """Where such a leader ends: beside the middle of the words."""
    return at[0] + (2 if at[0] < end[0] else -2), at[1] - 4.5


def _parts(line: list[XY]) -> list[tuple[XY, XY]]:
    return list(zip(line, line[1:], strict=False))
