"""Lots: the batch that a piece came from, as it stands on its tag. Pure."""

from __future__ import annotations

import re

UNKNOWN_LOT = "unknown"
_LOT = re.compile(r"[A-Z0-9][A-Z0-9 ./-]{0,39}")


class LotError(ValueError):
    """The words are no lot; the message is one sentence."""


def read_lot(words: str) -> str:
    """A lot in the one way it is kept: capitals, single blanks; "unknown" stays a word.

    Raises `LotError` for an empty text, since unknown is something to say and not to leave out.
    """
    text = " ".join(str(words).split())
    if not text:
        raise LotError("The lot is missing: write it as it stands on the tag, or say unknown.")
    if text.lower() == UNKNOWN_LOT:
        return UNKNOWN_LOT
    if not _LOT.fullmatch(text.upper()):
        raise LotError(f"Lot {text[:60]!r} has other signs than letters, figures, blanks, . / and -: write it like C-0417, or say unknown.")
    return text.upper()
