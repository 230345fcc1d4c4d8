"""Questions about what a crew measured on a structure."""

from __future__ import annotations

from dataclasses import dataclass

from inventory.models import Part
from structures.frame.document import Document
from structures.frame.measured import Finding, LookAlike, Measured, read_back
from structures.models import MeasuredBack, Structure


@dataclass(frozen=True, slots=True)
class Kept:
    """A measurement that was kept, with what it says."""

    row: MeasuredBack
    findings: tuple[Finding, ...]


def look_alikes(document: Document) -> list[LookAlike]:
    """Parts of all families that could be taken for a brace or tie of this structure; one query.

    The same ends on a tube that the parts of this kit are cut from, as the picker's warning of a twin has it.
    """
    own = {piece.part for piece in (*document.braces, *document.ties)}
    mine = list(Part.objects.filter(number__in=own).values_list("tube", "ends").distinct())
    if not mine:
        return []
    parts = Part.objects.filter(tube__in={tube for tube, _ in mine}, ends__in={ends for _, ends in mine}, length_in__isnull=False)
    return [LookAlike(part.number, part.name, part.length_in) for part in parts]


def kept_of(structure: Structure, document: Document, more: list[LookAlike]) -> list[Kept]:
    """Every kept measurement of a structure with what it says, newest first; one query."""
    rows = structure.measured.select_related("kept_by")
    return [Kept(row, read_back(document, Measured.read(row.figures), more)) for row in rows]
