"""The corners on one sheet for the ladder in the rain: marks, letters and lengths, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.sheet.corners import CORNERS, CornerPage
from structures.frame.sheet.whole import BuildSheet


@dataclass(frozen=True, slots=True)
class RainMark:
    """One band: its number on the drawing, the edge, which way it is measured, and the letter of the piece in it."""

    number: str
    edge: str
    measured: str
    holds: str


@dataclass(frozen=True, slots=True)
class RainPiece:
    """One piece: letter, length, twist made ("" for none) and the number of the place where its turned end is bolted."""

    letter: str
    length: str
    twist: str
    turned_at: str


@dataclass(frozen=True, slots=True)
class RainCorner:
    """One corner, and those that are the same with other hoop numbers. `page` is the one that is drawn."""

    page: CornerPage
    title: str
    also: str
    marks: tuple[RainMark, ...]
    pieces: tuple[RainPiece, ...]


def rain_corners(sheet: BuildSheet) -> tuple[RainCorner, ...]:
    """The corners that differ, each with those that are alike: of a structure whose far end mirrors its tag end there are two."""
    alike: dict[tuple[object, ...], list[CornerPage]] = {}
    for page in sheet.corners:
        if page.corner in CORNERS and page.braces:
            alike.setdefault(_signature(page), []).append(page)
    return tuple(_corner(pages) for pages in alike.values())


def _signature(page: CornerPage) -> tuple[object, ...]:
    """What two corners share that are built alike: figures, letters and turned ends, but no hoop number and no side."""
    ends = {row.code: row.number for row in page.landings if row.number}
    marks = tuple((row.number, row.which, row.piece, row.measured, row.edge, row.holds) for row in page.landings)
    return marks, tuple((row.letter, row.length, row.twist, ends.get(row.turned, "")) for row in page.braces)


def _corner(pages: list[CornerPage]) -> RainCorner:
    first = pages[0]
    ends = {row.code: row.number for row in first.landings if row.number}
    marks = tuple(RainMark(row.number, row.edge, row.measured, row.holds) for row in first.landings)
    pieces = dict.fromkeys(
        RainPiece(row.letter, row.length, row.twist.partition(",")[0] if row.turned != "none" else "", ends.get(row.turned, ""))
        for row in first.braces
    )
    also = "; ".join(f"the same at the {_end_words(page).lower()}: {page.hoops}" for page in pages[1:])
    return RainCorner(first, _end_words(first), also, marks, tuple(pieces))


def _end_words(page: CornerPage) -> str:
    end, _, side = page.corner.partition(" ")
    return f"{end.capitalize()} end, {side}"
