"""What was measured, and what is said of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from structures.frame.document import Brace, Document, Tie
from structures.frame.said import Said

NOTHING_IN = 1 / 16      # nobody reads a tape finer on a ladder


@dataclass(frozen=True, slots=True)
class Measured:
    """A crew's figures, inches. `last_sticks` by run as in `Cut.run`: the length that the last stick was sawn to. `gaps` by
    bay: the clear gap between its two hoops. `bands` by the band's place id: its middle, along the tube from the foot."""

    last_sticks: Mapping[str, float] = field(default_factory=dict)
    gaps: Mapping[int, float] = field(default_factory=dict)
    bands: Mapping[str, float] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return bool(self.last_sticks or self.gaps or self.bands)

    @classmethod
    def read(cls, data: Mapping[str, Mapping[str, float]]) -> Measured:
        """The figures that `write` wrote."""
        return cls(dict(data["last_sticks"]), {int(bay): gap for bay, gap in data["gaps"].items()}, dict(data["bands"]))

    def write(self) -> dict[str, dict[str, float]]:
        """The figures as plain JSON values, to a thousandth of an inch."""
        return {
            "last_sticks": {run: round(value, 3) for run, value in self.last_sticks.items()},
            "gaps": {str(bay): round(value, 3) for bay, value in self.gaps.items()},
            "bands": {place: round(value, 3) for place, value in self.bands.items()},
        }


@dataclass(frozen=True, slots=True)
class LookAlike:
    """A part that could be taken for another: number, name, hole to hole."""

    part: str
    name: str
    length_in: float


@dataclass(frozen=True, slots=True)
class Finding:
    """What one measurement, or several together, mean. `off_in` is how far off; 0 is as designed."""

    about: str                     # a run, "bay 3", a place id, "end hoop", "ridge"
    off_in: float
    says: Said


def band_places(document: Document) -> dict[str, tuple[Brace | Tie, str]]:
    """Every band of a brace or tie by its place id, with its piece and which end of it ("from", "to")."""
    pieces: list[Brace | Tie] = [*document.braces, *document.ties]
    return {
        landing.joint: (piece, end)
        for piece in pieces for end, landing in (("from", piece.landing_from), ("to", piece.landing_to))
    }


def alike(document: Document, piece: Brace | Tie, more: Iterable[LookAlike] = ()) -> list[LookAlike]:
    """The parts that could be in this piece's place: those of the same tube and ends in its own kit, and `more`."""
    own = next((line for line in document.lines if line.part == piece.part), None)
    kit = [
        LookAlike(line.part, line.name, line.length_in) for line in document.lines
        if own and line.length_in is not None and (line.tube, line.ends) == (own.tube, own.ends)
    ]
    found = {one.part: one for one in (*kit, *more) if one.part != piece.part}
    return [one for one in found.values() if abs(one.length_in - piece.length_in) > NOTHING_IN]
