"""Flattened ends as rows: how each is bent, and how far it stands outside the hoop's line, where film rubs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from structures.frame.document import Brace
from structures.frame.sheet.braces import piece_words
from structures.frame.sheet.telling import Telling, station_words

_LEVEL_DEG = 0.05
_NO_MORE_IN = 1 / 32
_SAME = "the same"


@dataclass(frozen=True, slots=True)
class FlatRow:
    """One end of one kind of piece. `made` is how far it stands out as the part is made, `unmade` as long as its twist is not."""

    letter: str
    piece: str
    end: str
    bend: str
    made: str
    unmade: str

    @property
    def turned(self) -> bool:
        """Whether the twist makes a difference here."""
        return self.unmade != _SAME


def flat_rows(telling: Telling) -> tuple[FlatRow, ...]:
    """Every flattened end of a brace whose tail the document holds; ends of equal figures share a row. Those of ties and webs lie
    inside their hoops."""
    rows = (row for brace in telling.document.braces for row in _rows(telling, brace))
    return tuple(sorted(dict.fromkeys(rows), key=lambda row: row.letter or "~"))


def _rows(telling: Telling, brace: Brace) -> Iterator[FlatRow]:
    for tail, landing, leaves_deg in (
        (brace.tail_from, brace.landing_from, brace.bend_from_deg), (brace.tail_to, brace.landing_to, -brace.bend_to_deg),
    ):
        if tail is not None:
            same = tail.unmade_in - tail.made_in < _NO_MORE_IN
            yield FlatRow(telling.letter(brace.part), piece_words(telling, brace), station_words(landing.station), bend_words(leaves_deg),
                          out_words(telling, tail.made_in), _SAME if same else out_words(telling, tail.unmade_in))


def bend_words(leaves_deg: float) -> str:
    """Which way the piece leaves its hoop there."""
    if abs(leaves_deg) < _LEVEL_DEG:
        return "none"
    return f"{abs(leaves_deg):.1f}° {'outward' if leaves_deg > 0 else 'inward'}"


def out_words(telling: Telling, out_in: float) -> str:
    """How far something stands outside the hoop's line, or lies within it."""
    if out_in > 0:
        return f"{telling.small(out_in)} outside the hoop’s line"
    return f"within it by {telling.small(-out_in)}"
