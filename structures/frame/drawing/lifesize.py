"""A flattened end at its own size: laid on the paper, the steel covers the drawing. Also the ruler that proves the paper.

Everything is drawn at 96 px to the inch, which is what a CSS inch is, inside an `<svg>` whose width, height and view box are
millimetres: one group scales the px to them.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from html import escape

from structures.frame.document import Brace, Document, Flat, Member, Piece
from structures.frame.lengths import MM_PER_INCH, inches_only, millimetres, show_length

from . import pencils
from .joints.metal import flat_outline, piece_edge
from .joints.panel import Panel
from .joints.sizes import tube_words
from .scene import letters
from .sheet import XY, Box, Sheet, n
from .style import flat_style

PX_PER_INCH = 96.0
MM_PER_PX = MM_PER_INCH / PX_PER_INCH
_WIDTH = 672.0                     # 7 in.: it fits a page with usual margins
_HOLE_X = 132.0
_REACH_IN = 4.9                    # of the piece that is shown beyond its hole


@dataclass(frozen=True, slots=True)
class LifeEnd:
    """One part whose end can be drawn at its own size: a piece of that part, and which of its ends is shown."""

    part: str
    piece: str
    end: str                       # "from" or "to"; the turned one where one is


def life_ends(document: Document) -> tuple[LifeEnd, ...]:
    """One end for each brace, tie and web part whose flattened end the document states; none for one of schema 1. Parts
    with a letter come first, in its order."""
    found: dict[str, LifeEnd] = {}
    for piece in _pieces(document):
        if piece.flat is not None and piece.part not in found:
            turned = piece.turned_end if isinstance(piece, Brace) and piece.twist_made else ""
            found[piece.part] = LifeEnd(piece.part, piece.id, turned or "from")
    order = {part: place for place, part in enumerate(letters(document))}
    return tuple(sorted(found.values(), key=lambda one: order.get(one.part, len(order))))


def _pieces(document: Document) -> tuple[Piece, ...]:
    return (*document.braces, *document.ties, *document.members)


def render_life_end(document: Document, piece_id: str, end: str, *, palette: Mapping[str, str] | None = None, units: str = "us",
                    name: str = "") -> str:
    """One end of a brace, tie or web at 1:1, as an `<svg>` in millimetres: face, edge, the twist as it is, a ruler to check by.

    `end` is "from" or "to". Raises `ValueError` for a piece that is not there or whose flattened end no document states.
    """
    piece = next((one for one in _pieces(document) if one.id == piece_id), None)
    if piece is None or end not in ("from", "to"):
        raise ValueError(f"There is no end {end!r} of a piece {piece_id!r}.")
    if piece.flat is None:
        raise ValueError(f"The size of the flattened end of {piece.part} is not in this document.")
    card = _Card(document, piece, piece.flat, end, units)
    return card.draw(name or f"life-{piece.part.lower()}", palette)


class _Card:
    def __init__(self, document: Document, piece: Piece, flat: Flat, end: str, units: str):
        self.document, self.piece, self.flat, self.end, self.units = document, piece, flat, end, units
        self.tube_in = 2 * piece.radius_in if isinstance(piece, Member) else document.tubes.get(piece.role, 1.315)
        half = max(y for _, y in flat_outline(flat, self.tube_in)) * PX_PER_INCH
        self.face_y = 74 + half
        self.edge_y = self.face_y + half + 44 + self.tube_in / 2 * PX_PER_INCH
        self.turn_y = self.edge_y + self.tube_in / 2 * PX_PER_INCH + 84
        self.ruler_y = self.turn_y + 92
        self.sheet = Sheet(_WIDTH, math.ceil(self.ruler_y + 62), "life")

    def small(self, inches: float) -> str:
        """A small measure in a person's units."""
        return millimetres(inches) if self.units == "metric" else f"{inches_only(inches)} in."

    def draw(self, name: str, palette: Mapping[str, str] | None) -> str:
        """Draw the card and hand it back as text."""
        self._title()
        self._face()
        self._edge()
        self._turn()
        self._ruler()
        return self._svg(name, palette)

    def _hand(self) -> str:
        brace = self.piece
        if not isinstance(brace, Brace):
            return "no twist"
        made = f"{brace.hand} twist, {abs(brace.twist_deg):.1f}°"
        if brace.hand == "none":
            return "no twist"
        return f"{made}, made at the press" if brace.twist_made else f"no twist made; the bands take up {abs(brace.twist_deg):.1f}°"

    def _title(self) -> None:
        piece = self.piece
        line = next((one for one in self.document.lines if one.part == piece.part), None)
        letter = letters(self.document).get(piece.part, "")
        if letter:
            self.sheet.mark((18, 18), letter, radius=11, size=13)
        left = 38 if letter else 6
        self.sheet.text((left, 23), f"{piece.part}  {line.name if line else piece.role}", size=15, kind="lab")
        words = f"{show_length(piece.length_in, self.units)} hole to hole; {self._hand()}"
        self.sheet.text((left, 43), words, size=14, kind="num")
        self.sheet.text((_WIDTH - 6, 23), "full size: 1 to 1", size=14, kind="q", anchor="end")
        if isinstance(piece, Brace) and piece.turned_end == self.end and piece.twist_made:
            landing = piece.landing_from if self.end == "from" else piece.landing_to
            self.sheet.text((_WIDTH - 6, 43), f"this end is turned last: {landing.code}", size=13, kind="q", anchor="end")

    def _panel(self, y: float) -> Panel:
        return Panel(self.sheet, (_HOLE_X, y), PX_PER_INCH, Box(0, 0, _WIDTH, self.sheet.height))

    def _face(self) -> None:
        panel, flat = self._panel(self.face_y), self.flat
        half = [*flat_outline(flat, self.tube_in), (_REACH_IN, self.tube_in / 2)]
        outline = [panel.at(u, v) for u, v in half] + [panel.at(u, -v) for u, v in reversed(half)]
        self.sheet.path("obj2 pap", "M" + "L".join(f"{n(x)} {n(y)}" for x, y in _closed(outline)))
        self._break(panel)
        hole = flat.hole_in
        if hole is not None:
            self.sheet.circle("obj2 pap", panel.at(0, 0), hole / 2 * PX_PER_INCH)
        cross = (hole or 0.34) / 2 + 0.14
        self.sheet.line("cen", panel.at(-cross, 0), panel.at(cross, 0))
        self.sheet.line("cen", panel.at(0, cross), panel.at(0, -cross))
        self._figures(panel)
        words = f"hole {_drill(hole, self.units)} across" if hole is not None else "hole: its middle; no size is stated"
        self.sheet.text(panel.at(2.55, 0.1), f"tube {tube_words(self.tube_in, self.units)} across", size=13, kind="num")
        self.sheet.text(panel.at(2.55, -0.12), words, size=13, kind="q")
        self.sheet.text((_WIDTH - 6, self.face_y - self.tube_in / 2 * PX_PER_INCH - 12), "face", size=13, kind="q", anchor="end")

    def _figures(self, panel: Panel) -> None:
        """How wide the flat is left, and how much of it beyond the hole."""
        flat, half = self.flat, self.flat.width_in / 2
        x = panel.at(-flat.length_in, 0)[0] - 16
        for v in (half, -half):
            self.sheet.line("ext", (x - 5, panel.at(0, v)[1]), (panel.at(0, v)[0] - 4, panel.at(0, v)[1]))
        self.sheet.line("dim", (x, panel.at(0, half)[1] - 5), (x, panel.at(0, -half)[1] + 5))
        for v in (half, -half):
            pencils.tick(self.sheet, (x, panel.at(0, v)[1]))
        self.sheet.text((x - 6, self.face_y + 4.5), self.small(flat.width_in), size=13, kind="num", anchor="end")
        y = self.face_y - half * PX_PER_INCH - 22
        a, b = panel.at(-flat.length_in, 0)[0], panel.at(0, 0)[0]
        for at in (a, b):
            self.sheet.line("ext", (at, y - 5), (at, y + 16))
        pencils.dimension_across(self.sheet, a, b, y, self.small(flat.length_in), 13)

    def _edge(self) -> None:
        panel = self._panel(self.edge_y)
        piece_edge(panel, (0, 0), (1, 0), self.flat, self.tube_in, _REACH_IN, kind="obj2 pap")
        thin, hole = self.flat.thick_in / 2, self.flat.hole_in
        for side in (-1, 1) if hole else ():
            self.sheet.line("hid", panel.at(side * (hole or 0) / 2, thin), panel.at(side * (hole or 0) / 2, -thin))
        self.sheet.line("cen", panel.at(0, 0.22), panel.at(0, -0.22))
        self.sheet.text((_WIDTH - 6, self.edge_y - self.tube_in / 2 * PX_PER_INCH - 12), "edge", size=13, kind="q", anchor="end")
        self.sheet.text((6, self.edge_y + 40), f"flat {_thick(self.flat.thick_in, self.units)} thick", size=13, kind="q")

    def _break(self, panel: Panel) -> None:
        half, (x, y) = self.tube_in / 2 * PX_PER_INCH, panel.at(_REACH_IN, 0)
        self.sheet.line("mask-l", (x, y - half), (x, y + half))
        self.sheet.polyline("brk", [(x, y - half - 6), (x, y - 6), (x - 6, y - 2), (x + 6, y + 3), (x, y + 7), (x, y + half + 6)])

    def _turn(self) -> None:
        """Looking along the piece: this end's flat as it lies, the other end's dashed, turned by the angle that there is."""
        twist = abs(self.piece.twist_deg) if isinstance(self.piece, Brace) else 0.0
        hand = self.piece.hand if isinstance(self.piece, Brace) else "none"
        angle = math.radians(twist if hand == "right" else -twist)
        at = (_HOLE_X + 26, self.turn_y)
        half, thin = self.flat.width_in / 2 * PX_PER_INCH, self.flat.thick_in / 2 * PX_PER_INCH
        self.sheet.circle("far", at, self.tube_in / 2 * PX_PER_INCH)
        arm = 224.0
        far = (at[0] + arm * math.cos(angle), at[1] + arm * math.sin(angle))
        self.sheet.line("cen", (at[0] - half - 22, at[1]), (at[0] + arm, at[1]))
        if hand != "none":
            self.sheet.polyline("hid", _bar(at, half, thin, angle), closed=True)
            self.sheet.line("cen", at, far)
            sweep = 1 if angle > 0 else 0
            near = (at[0] + (arm - 24), at[1])
            tip = (at[0] + (arm - 24) * math.cos(angle), at[1] + (arm - 24) * math.sin(angle))
            self.sheet.path("hand", f"M{n(near[0])} {n(near[1])}A{n(arm - 24)} {n(arm - 24)} 0 0 {sweep} {n(tip[0])} {n(tip[1])}")
        self.sheet.polyline("obj2 pap", _bar(at, half, thin, 0.0), closed=True)
        for i, words in enumerate(self._turn_words(twist, hand)):
            self.sheet.text((at[0] + arm + 14, self.turn_y - 22 + 18 * i), words, size=13, kind="num" if not i else "q")

    def _turn_words(self, twist: float, hand: str) -> list[str]:
        if hand == "none":
            return ["both ends flat alike: no twist", "seen along the piece from this end"]
        made = isinstance(self.piece, Brace) and self.piece.twist_made
        return [f"{hand} twist, {twist:.1f}°" if made else f"as made: none; where it lies {twist:.1f}° to the {hand}",
                "seen along the piece from this end:", "this end solid, the other end dashed,",
                f"a {hand} twist turns {'like a screw thread' if hand == 'right' else 'against a screw thread'}"]

    def _ruler(self) -> None:
        """Inches above, centimetres below one line; both begin at the same place."""
        y, x0 = self.ruler_y, 24.0
        inches = int((_WIDTH - 2 * x0) // PX_PER_INCH)
        end = x0 + inches * PX_PER_INCH
        self.sheet.line("obj2", (x0, y), (end, y))
        for i in range(inches * 8 + 1):
            x, high = x0 + i * PX_PER_INCH / 8, 18 if i % 8 == 0 else 12 if i % 4 == 0 else 7
            self.sheet.line("obj1", (x, y), (x, y - high))
            if i % 8 == 0:
                self.sheet.text((x + 3, y - 9), f"{i // 8} in." if i == 0 else str(i // 8), size=11, kind="num")
        mm = int(inches * MM_PER_INCH)
        for i in range(mm // 5 + 1):
            x, high = x0 + i * 5 / MM_PER_PX, 16 if i % 2 == 0 else 9
            self.sheet.line("obj1", (x, y), (x, y + high))
            if i % 2 == 0 and x + 20 < end:
                self.sheet.text((x + 3, y + 16), f"{i // 2} cm" if i == 0 else str(i // 2), size=11, kind="num")
        self.sheet.text((x0, y + 44), "Lay a rule here first: where the marks do not meet its own, the paper is not full size.", size=13,
                        kind="q")

    def _svg(self, name: str, palette: Mapping[str, str] | None) -> str:
        """The card in millimetres; the px drawing lies in one scaled group."""
        sheet = self.sheet
        wide, high = sheet.width * MM_PER_PX, sheet.height * MM_PER_PX
        style = f"<style>{flat_style(palette)}</style>" if palette is not None else ""
        title = f"One end of {self.piece.part} at full size"
        desc = (f"{self.piece.part}, {show_length(self.piece.length_in, self.units)} hole to hole, {self._hand()}. Face, edge, twist and a "
                f"ruler, drawn 1 to 1.")
        return (f'<svg class="dw life" xmlns="http://www.w3.org/2000/svg" width="{wide:.3f}mm" height="{high:.3f}mm" '
                f'viewBox="0 0 {wide:.3f} {high:.3f}" role="img" aria-labelledby="{name}-t {name}-d"><title id="{name}-t">'
                f'{escape(title)}</title><desc id="{name}-d">{escape(desc)}</desc>{style}\n'
                f'<g transform="scale({MM_PER_PX:.9f})">\n' + "\n".join(sheet.out) + "\n</g>\n</svg>")


def _closed(outline: list[XY]) -> list[XY]:
    """From the tube's upper edge round the tip to its lower edge, the broken side left open."""
    half = len(outline) // 2
    upper, lower = outline[:half], outline[half:]
    return [*reversed(upper), *reversed(lower)]


def _bar(at: XY, half: float, thin: float, angle: float) -> list[XY]:
    cos, sin = math.cos(angle), math.sin(angle)
    return [(at[0] + x * cos - y * sin, at[1] + x * sin + y * cos)
            for x, y in ((-half, -thin), (half, -thin), (half, thin), (-half, thin))]


def _drill(inches: float, units: str) -> str:
    """A drilled hole's size: drills go by thirty-seconds."""
    if units == "metric":
        return f"{inches * MM_PER_INCH:.1f} mm"
    whole, part = divmod(Fraction(round(inches * 32), 32), 1)
    return f"{whole} {part} in." if whole and part else f"{part or whole} in."


def _thick(inches: float, units: str) -> str:
    return f"{inches * MM_PER_INCH:.1f} mm" if units == "metric" else f"{inches:.3f} in."
