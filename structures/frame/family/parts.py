"""Tubes, part numbers and the hardware of each kind of joint."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tube:
    """A round tube: its name in the file, outside diameter and wall in inches, coating in words."""

    name: str
    diameter_in: float
    wall_in: float
    coating: str = "unknown"

    @property
    def radius_in(self) -> float:
        return self.diameter_in / 2


@dataclass(frozen=True, slots=True)
class Part:
    """One part number of ours.

    `length_in` is the made length: hole to hole for pieces with flattened ends, over all for everything else.
    `cut_in` is the length of tube that it is made from (weight is taken from it).
    `hand` is "left", "right" or "" (no twist made). `spares` is a fraction of what is needed; `pack` the count in
    which it leaves the shelf (1 for single pieces). `weight_lb` is stated only for what is no tube.
    """

    number: str
    name: str
    role: str
    kind: str                      # "tube", "fitting", "fastener", "lengthwise", "film"
    tube: str = ""
    length_in: float | None = None
    cut_in: float | None = None
    ends: str = ""
    hand: str = ""
    spacing_in: float | None = None
    unit: str = "each"
    spares: float = 0.0
    pack: int = 1
    weight_lb: float | None = None
    tool: str = ""                 # what it is driven with, as in "1/2 in. spanner"


@dataclass(frozen=True, slots=True)
class FittingSet:
    """The hardware of one joint.

    `kind` is what the place is called: "band", "connector", "screw", "bolt", "bracket".
    `width_in` is what it takes up along the hoop. `hole_offset_in` is the bolt hole's distance from the tube's axis;
    `hole_direction` "lengthwise", "inward" (ties) or "upward" (a web on its tie), "" where there is no hole to measure to.
    """

    code: str
    name: str
    kind: str
    parts: tuple[tuple[str, int], ...]
    width_in: float = 0.0
    hole_offset_in: float | None = None
    hole_direction: str = ""
    goes_on: str = "opens"         # "opens" or "slips over an end"
    bolt_points: str = "in"
    nut: str = "inside"
    ear_in: float | None = None    # thickness of a band's ear; None is not given
    head_in: float | None = None   # height of its bolt's head
