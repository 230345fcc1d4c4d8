"""All that the measurements say, together."""

from __future__ import annotations

from collections.abc import Iterable

from structures.frame.document import Document
from structures.frame.measured.bands import bands_off
from structures.frame.measured.spacing import end_hoop, gaps_off
from structures.frame.measured.tape import Finding, LookAlike, Measured


def read_back(document: Document, measured: Measured, more: Iterable[LookAlike] = ()) -> tuple[Finding, ...]:
    """Everything that the measurements say, the whole before the single: end hoop, bays, bands.

    `more` are parts of other kits that could be taken for one of this structure's.
    """
    return (*end_hoop(document, measured), *gaps_off(document, measured), *bands_off(document, measured, tuple(more)))
