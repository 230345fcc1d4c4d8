"""The tightest gaps of the frame, as rows: a piece, what it is near to, how far."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Brace, Tight
from structures.frame.sheet.telling import Telling

_LENGTHWISE = ("channel", "board")
_KINDS = {"own hoop": "its own hoop", "hoop": "hoop", "film": "film line"}


@dataclass(frozen=True, slots=True)
class GapRow:
    """One gap. `code` is where the piece is, `near` what lies there."""

    letter: str
    piece: str
    code: str
    near: str
    gap: str


def gap_rows(telling: Telling) -> tuple[GapRow, ...]:
    """The document's tightest gaps in its own order."""
    return tuple(_row(telling, tight) for tight in telling.document.tight)


def _row(telling: Telling, tight: Tight) -> GapRow:
    piece = telling.by_id.get(tight.piece)
    part = piece.part if piece else ""
    code = f"{piece.from_} to {piece.to}" if isinstance(piece, Brace) else tight.piece.partition(":")[0]
    return GapRow(telling.letter(part), telling.name(part) if part else tight.piece, code, _near(telling, tight),
                  telling.small(tight.gap_in))


def _near(telling: Telling, tight: Tight) -> str:
    """The neighbour in words, with its code where it has one."""
    other = telling.by_id.get(tight.near)
    code, _, what = tight.near.partition(":")
    if other is not None:
        return f"{telling.name(other.part)}, {code}"
    if what and tight.kind in _LENGTHWISE:
        return f"{what.partition(':')[0].replace('-', ' ')}, {_side_of(code)}"
    kind = _KINDS.get(tight.kind, tight.kind)
    if tight.near in ("", tight.kind):
        return kind
    return tight.near if tight.near.startswith(kind) else f"{kind}, {code}"


def _side_of(code: str) -> str:
    """Where a board or channel lies, from the beginning of its id: "H1-L-13" is round hoop 1, "L-foot" along the left side."""
    first, _, rest = code.partition("-")
    side = {"L": "left", "R": "right"}.get(rest[:1] if first.startswith("H") else first, "")
    return f"hoop {first[1:]} {side}".strip() if first.startswith("H") else f"{side} side"
