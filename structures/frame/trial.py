"""A family tried out before anything is sold from it: every spacing, short and long, each option, base and end wall."""

from __future__ import annotations

import math
from collections.abc import Iterator

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.family import Configuration, Family
from structures.frame.refusal import Refusal, Refused

LONG_BAYS = 30


def try_out(family: Family) -> None:
    """Build the family in all its ways. Raises `Refused` with what no size can be built with, each thing once.

    A made length that the computed one misses by over 1/8 in. is found here, or bands that have no room. A size that is
    too short for its braces is no fault of the file: whoever asks for it is told how long it must be.
    """
    found: dict[str, Refusal] = {}
    for configuration in _ways(family):
        try:
            build_frame(family, configuration)
        except Refused as refused:
            found |= {str(refusal): refusal for refusal in refused.refusals if refusal.field != "length"}
    if found:
        raise Refused(found.values())


def _ways(family: Family) -> Iterator[Configuration]:
    """On each base as it comes and with each optional thing in turn, and with each kind of end wall."""
    optional = [option for option in family.options if option.offer == "optional"]
    for spacing in family.spacings_in:
        for length in _lengths(family, spacing):
            asked: list[tuple[set[str], tuple[str, str] | None, str | None]] = []
            for base in family.bases:
                asked += [(set(), None, base), *(({option.code, *option.needs}, None, base) for option in optional)]
            asked += [(set(), (end, end), None) for end in family.end_walls]
            for codes, ends, on in asked:
                try:
                    yield choose(family, length_in=length, spacing_in=spacing, ends=ends, with_=codes, base=on)
                except Refused:
                    continue        # this option is not made for this size


def _lengths(family: Family, spacing: float) -> tuple[float, ...]:
    """The shortest and a long whole number of bays on offer; past `LONG_BAYS` more of the same follows."""
    shortest = max(math.ceil(family.shortest_in / spacing - 1e-9), 1)
    longest = min(math.floor(family.longest_in / spacing + 1e-9), LONG_BAYS)
    return shortest * spacing, max(longest, shortest) * spacing
