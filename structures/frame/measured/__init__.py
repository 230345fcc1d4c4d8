"""Measured back: what a crew's tape says, held against the frozen frame.

`read_back` says what the last sticks, the bay gaps and the bands off their marks mean; `causes_of` ranks what could make a
piece not meet its band, each with the one measurement that settles it. Both read the document only, and neither says a
word on strength.
"""

from __future__ import annotations

from structures.frame.measured.bands import bands_off
from structures.frame.measured.causes import Cause, causes_of
from structures.frame.measured.spacing import end_hoop, gaps_off
from structures.frame.measured.tape import Finding, LookAlike, Measured, alike, band_places
from structures.frame.measured.whole import read_back

__all__ = [
    "Cause", "Finding", "LookAlike", "Measured", "alike", "band_places", "bands_off", "causes_of", "end_hoop", "gaps_off",
    "read_back",
]
