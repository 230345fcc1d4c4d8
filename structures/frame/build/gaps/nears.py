"""The nearest of one kind to a piece, as every piece in like situation has it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from structures.frame.build.gaps.around import Body
from structures.frame.build.gaps.rods import Rod
from structures.frame.document import Point

FILM, OWN, HOOP = "film", "own hoop", "hoop"

Items = tuple[Rod | Body, ...]


class Near(NamedTuple):
    """A gap, the kind of what is near, and where on the axis of the piece that was measured it is met.

    `pick` is the number of the neighbour among those around the piece, or of the hoop counted from the piece's first.
    """

    kind: str
    gap_in: float
    at: Point
    pick: int

    def word(self, rod: Rod, items: Items) -> str:
        """What is near to one piece: a place id, or what people call it."""
        if self.kind == FILM:
            return FILM
        if self.kind == OWN:
            return rod.own
        if self.kind == HOOP:
            return f"hoop {rod.first + self.pick}"
        other = items[self.pick]
        return other.id if isinstance(other, Body) else other.word

    def name(self, rod: Rod, items: Items) -> str:
        """The same as a refusal names it."""
        if self.kind == FILM:
            return "the film line"
        return self.word(rod, items) if self.kind in (OWN, HOOP) else items[self.pick].word

    def place(self, rod: Rod, items: Items) -> str:
        """The same by its place id, wherever it has one: of a run the piece that is near."""
        if self.kind in (FILM, OWN, HOOP):
            return self.word(rod, items)
        other = items[self.pick]
        return other.id if isinstance(other, Body) else other.stick_at(self.at[1])

    def role(self, items: Items) -> str:
        """The role of the piece that is near, or the kind of anything else."""
        if self.kind in (FILM, OWN, HOOP):
            return self.kind
        other = items[self.pick]
        return other.kind if isinstance(other, Body) else other.role


@dataclass(frozen=True, slots=True)
class Situation:
    """What holds of every piece of one shape among neighbours of one kind of place: the nearest of each kind, and of all."""

    gaps: Mapping[str, float]
    least: Near
