"""The nearest twins of a part: what could be taken for it in a half-lit aisle.

Pure: dataclasses in, dataclasses out; lengths are inches.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

NEAR_IN = 3.0  # a piece this much longer or shorter goes on all the same, with its band off the mark
SAME_IN = 1 / 32  # nobody reads a tape finer: half a sixteenth


@dataclass(frozen=True, slots=True)
class Piece:
    """What tells one part from another by eye and tape. `length_in` None is a part that has no length.

    `role` is what it is for; two things that are no tube (bolts, bands, boards) look alike only within one role.
    """

    number: str
    tube: str
    ends: str
    hand: str
    length_in: float | None
    role: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True)
class Twin:
    """A look-alike: `longer_in` is how much longer than the part it is (negative: shorter), `other_hand` whether the
    twist runs the other way."""

    piece: Piece
    longer_in: float
    other_hand: bool


def twins(part: Piece, others: Iterable[Piece]) -> list[Twin]:
    """All twins of a part, nearest first: the same ends on the same tube and a length within 3 in.; of things that are no
    tube those of the same role, within 3 in. where they have a length (bolts), or in another size (bands, nuts).

    A piece of the same length and the other hand is the nearest of all, since no tape tells it apart; after it comes
    the least difference in length, then the number.
    """
    found = [twin for other in others if (twin := _twin(part, other)) is not None]
    return sorted(found, key=lambda twin: (abs(twin.longer_in), not twin.other_hand, twin.piece.number))


def nearest(part: Piece, others: Iterable[Piece]) -> Twin | None:
    """The first of `twins`, or None when nothing looks like this part."""
    return next(iter(twins(part, others)), None)


def _twin(part: Piece, other: Piece) -> Twin | None:
    if other.number == part.number or not _same_look(part, other):
        return None
    if part.length_in is None or other.length_in is None:
        both_without = part.length_in is None and other.length_in is None
        return Twin(other, 0.0, other.hand != part.hand) if both_without else None
    longer_in = other.length_in - part.length_in
    if abs(longer_in) > NEAR_IN + SAME_IN:
        return None
    return Twin(other, 0.0 if abs(longer_in) <= SAME_IN else longer_in, other.hand != part.hand)


def _same_look(part: Piece, other: Piece) -> bool:
    if (other.tube, other.ends) != (part.tube, part.ends):
        return False
    return bool(part.tube) or (part.role == other.role and part.role != "")
