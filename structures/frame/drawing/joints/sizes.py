"""The sizes of one joint's metal, read off the document; what no file states is drawn as usual and never dimensioned."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from structures.frame.document import Brace, Document, Flat, Hardware, Member, Tie
from structures.frame.lengths import inches_only, millimetres

# Drawn so where no file states it, and then without a figure: common practice, no source.
_USUAL_EAR_IN, _USUAL_BOLT_IN, _USUAL_WALL = 0.11, 0.3125, 0.045
_FIRST_FRACTION = re.compile(r"(\d+/\d+)")


@dataclass(frozen=True, slots=True)
class Bolt:
    """A bolt of diameter `d_in`: its length under the head, the head's and nut's heights, width across flats."""

    d_in: float
    length_in: float
    head_in: float
    nut_in: float
    flats_in: float


@dataclass(frozen=True, slots=True)
class Metal:
    """The sizes of one fitting set on one document."""

    document: Document
    hardware: Hardware
    units: str

    @property
    def hoop_in(self) -> float:
        """The hoop's outside diameter."""
        return self.document.tubes["hoop"]

    @property
    def radius(self) -> float:
        """The hoop's outside radius."""
        return self.hoop_in / 2

    @property
    def ear(self) -> float:
        """The thickness of an ear, and of the strap it belongs to."""
        return self.hardware.ear_in or _USUAL_EAR_IN

    @property
    def offset(self) -> float | None:
        """How far the hole lies from the hoop's axis: as stated, else as another set with the same band has it."""
        if self.hardware.hole_offset_in is not None:
            return self.hardware.hole_offset_in
        bands = {part for part, _ in self.hardware.parts} & self._roles("band")
        same = (h for h in self.document.hardware if h.hole_offset_in is not None and bands & {part for part, _ in h.parts})
        return next((h.hole_offset_in for h in same), None)

    def _roles(self, role: str) -> set[str]:
        return {line.part for line in self.document.lines if line.role == role}

    def part_name(self, *roles: str) -> str:
        """The name of the set's part with one of these roles, as the kit has it."""
        mine = [part for part, _ in self.hardware.parts]
        lines = [line for role in roles for line in self.document.lines if line.role == role and line.part in mine]
        return lines[0].name[:1].lower() + lines[0].name[1:] if lines else self.hardware.name

    def count(self, role: str) -> int:
        """How many parts of a role one set has."""
        return sum(count for part, count in self.hardware.parts if part in self._roles(role))

    def bolt(self, grip_in: float) -> Bolt:
        """Its bolt; one of unknown length is drawn to reach through `grip_in` and its nut."""
        mine = {part for part, _ in self.hardware.parts}
        line = next((one for one in self.document.lines if one.role == "bolt" and one.part in mine), None)
        found = _FIRST_FRACTION.search(line.name) if line else None
        d = float(Fraction(found[1])) if found else _USUAL_BOLT_IN
        length = (line.length_in if line else None) or grip_in + 1.6 * d
        return Bolt(d, length, self.hardware.head_in or 0.65 * d, 0.86 * d, 1.6 * d)

    def figure(self, inches: float) -> str:
        """A small measure in a person's units, as it stands on a dimension."""
        return millimetres(inches) if self.units == "metric" else inches_only(inches)

    def said(self, inches: float) -> str:
        """A small measure with its unit, as it stands among words."""
        return millimetres(inches) if self.units == "metric" else f"{inches_only(inches)} in."


def tube_words(diameter_in: float, units: str) -> str:
    """A tube's size as the trade writes it: 1.90, 1.315, or millimetres."""
    return millimetres(diameter_in) if units == "metric" else max(f"{diameter_in:g}", f"{diameter_in:.2f}", key=len)


def wall_in(diameter_in: float) -> float:
    """A tube wall as it is drawn; no document holds one."""
    return diameter_in * _USUAL_WALL


def flat_of(piece: Brace | Tie | Member, tube_in: float) -> tuple[Flat, bool]:
    """The flattened end of a piece, and whether the document states it; else one as wide as such ends usually are."""
    return (piece.flat, True) if piece.flat is not None else (usual_flat(tube_in), False)


def usual_flat(tube_in: float) -> Flat:
    """A flattened end that no document states, as wide as such ends usually are."""
    half = 0.43 * tube_in
    return Flat(half, 2 * half, half, 2 * wall_in(tube_in))
