"""Life-size cards: the flattened ends of one part at 1:1, to lay the piece on and to see that it is the right one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from structures.frame import drawing
from structures.frame.document import Brace, Piece
from structures.frame.names import listed
from structures.frame.sheet.telling import Telling
from structures.frame.sheet.whole import BuildSheet


@dataclass(frozen=True, slots=True)
class CardEnd:
    """One end at its own size, and the places where it is bolted."""

    title: str
    places: str
    svg: str


@dataclass(frozen=True, slots=True)
class Card:
    """The card of one part."""

    part: str
    name: str
    letter: str
    length: str
    count: int
    ends: tuple[CardEnd, ...]


def card_parts(sheet: BuildSheet) -> tuple[str, ...]:
    """The parts that have a card: braces, ties and webs whose flattened ends the document states."""
    return tuple(end.part for end in drawing.life_ends(sheet.document))


def make_card(sheet: BuildSheet, part: str, palette: Mapping[str, str] | None) -> Card | None:
    """The card of a part, by its number in capitals or not; None for one that has none."""
    found = next((end for end in drawing.life_ends(sheet.document) if end.part.lower() == part.lower()), None)
    if found is None:
        return None
    telling = Telling(sheet.document, sheet.units)
    pieces = [piece for piece in sheet.document.pieces() if piece.part == found.part]
    first = next(piece for piece in pieces if piece.id == found.piece)
    return Card(found.part, telling.name(found.part), telling.letter(found.part), telling.figure(first.length_in), len(pieces),
                tuple(_end(sheet, first, pieces, end, palette) for end in _ends(first, found.end)))


def _ends(piece: Piece, shown: str) -> tuple[str, ...]:
    """Both ends of a piece that is turned, the turned one last; one end where both are alike."""
    if not isinstance(piece, Brace) or not piece.twist_made:
        return (shown,)
    return ("to" if shown == "from" else "from", shown)


def _end(sheet: BuildSheet, piece: Piece, pieces: list[Piece], end: str, palette: Mapping[str, str] | None) -> CardEnd:
    svg = drawing.render_life_end(sheet.document, piece.id, end, palette=palette, units=sheet.units, name=f"life-{end}")
    if not isinstance(piece, Brace) or not piece.twist_made:
        return CardEnd("Both ends are alike", f"{_count(len(pieces))} in this order", svg)
    codes = [(one.landing_from if end == "from" else one.landing_to).code for one in pieces if isinstance(one, Brace)]
    title = "The end that is turned, bolted last" if piece.turned_end == end else "The end that is bolted first"
    return CardEnd(title, f"It goes to {listed(codes)}", svg)


def _count(pieces: int) -> str:
    return f"{pieces} piece{'' if pieces == 1 else 's'}"
