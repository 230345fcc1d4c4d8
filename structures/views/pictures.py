"""Drawings on a page: each one wide and narrow, switched by the page's width and never scaled."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from structures.frame import drawing
from structures.frame.document import Brace, Document, Tie
from structures.frame.names import ends_named

LOW_PX = 330
CAPTIONS = {
    "frame": "The whole frame from outside the tag end, right front.",
    "side-right": "From outside the right side: hoop 1, the tag end, stands at the left.",
    "side-left": "From outside the left side: hoop 1, the tag end, stands at the right.",
    "section": "One hoop seen from outside the tag end, with the marks along its tube.",
}


@dataclass(frozen=True, slots=True)
class Picture:
    """One view drawn twice. `view` names it, `roomy` is shown from 768 px on, `narrow` below."""

    view: str
    roomy: str
    narrow: str
    caption: str

    @property
    def low(self) -> bool:
        """Whether on a phone it can stay in view while what is below it is gone through."""
        return float(self.narrow.partition('viewBox="')[2].partition('"')[0].split()[3]) <= LOW_PX


def picture(
    document: Document, view: str, *, roomy: str = "wide", lit: Collection[str] = (), caption: str = "", units: str = "us",
    names: Mapping[int, str] | None = None,
) -> Picture:
    """Draw one view for both widths; `roomy` is "wide" across the sheet or "desk" beside a form. `names` is what people call the
    ends of a structure."""
    shown = frozenset(lit)
    return Picture(
        view,
        drawing.render(document, view, roomy, lit=shown, units=units, names=names),
        drawing.render(document, view, "narrow", lit=shown, units=units, names=names),
        ends_named(caption or CAPTIONS[view], names or {}),
    )


def close_picture(
    document: Document, piece: Brace | Tie, *, roomy: str = "wide", units: str = "us", names: Mapping[int, str] | None = None
) -> Picture:
    """The nearest view of one piece, lit: a brace from inside facing its corner, or its side where it stands in none; a tie
    in its hoop's section."""
    view = "section" if isinstance(piece, Tie) else f"inside-{piece.corner.replace(' ', '-')}"
    if view not in drawing.views_of(document):
        view = f"side-{piece.landing_from.side}"
    codes = f"{piece.landing_from.code} to {piece.landing_to.code} is lit."
    said = drawing.caption(document, view, roomy) or CAPTIONS[view]
    return picture(document, view, roomy=roomy, lit={piece.id}, caption=f"{said} {codes}", units=units, names=names)


def lit_words(document: Document, lit: Collection[str]) -> str:
    """Which marks of the drawing the lit pieces have: "B roof brace, lower, left twist; D roof brace, upper"."""
    marks = drawing.letters(document)
    names = {line.part: line.name for line in document.lines}
    parts = {piece.part for piece in (*document.braces, *document.ties) if piece.id in lit}
    return "; ".join(f"{mark} {_lower(names[part])}" for part, mark in marks.items() if part in parts)


def _lower(name: str) -> str:
    return name[:1].lower() + name[1:]
