"""Spacer boards: cut to the clear gap between two hoops, with running totals from hoop 1 so that small errors don't add up."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Document


@dataclass(frozen=True, slots=True)
class SpacerBoards:
    """`count` boards cut to `clear_gap_in`. `totals_in[n - 1]` is how far the middle of hoop n lies from the middle of hoop 1, or
    a face of the one from the like face of the other."""

    count: int
    clear_gap_in: float
    totals_in: tuple[float, ...]


def spacers(hoops: int, spacing_in: float, hoop_diameter_in: float) -> SpacerBoards:
    """The boards for a row of hoops. A pair holds the bay that is being set while the pair before it stays: common practice, no
    source."""
    totals = tuple(spacing_in * i for i in range(hoops))
    return SpacerBoards(2 * min(hoops - 1, 2), spacing_in - hoop_diameter_in, totals)


def spacer_boards(document: Document) -> SpacerBoards:
    """The boards that a structure is set out with."""
    measures = document.measures
    return spacers(measures.hoops, measures.spacing_in, document.tubes["hoop"])
