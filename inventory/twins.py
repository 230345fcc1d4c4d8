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
    """What tells one part from another by eye and tape. `length_in` None is a part that has no length."""

    number: str
    tube: str
    ends: str
    hand: str
    length_in: float | None


@dataclass(frozen=True, slots=True)
class Twin:
    """A look-alike: `longer_in` is how much longer than the part it is (negative: shorter), `other_hand` whether the
    twist runs the other way."""

    piece: Piece
    longer_in: float
    other_hand: bool


def twins(part: Piece, others: Iterable[Piece]) -> list[Twin]:
    """All twins of a part, nearest first: the same ends on the same tube and a length within 3 in.

    A piece of the same length and the other hand is the nearest of all, since no tape tells it apart; after it comes
    the least difference in length, then the number.
    """
    found = [twin for other in others if (twin := _twin(part, other)) is not None]
    return sorted(found, key=lambda twin: (abs(twin.longer_in), not twin.other_hand, twin.piece.number))


def nearest(part: Piece, others: Iterable[Piece]) -> Twin | None:
    """The first of `twins`, or None when nothing looks like this part."""
    return next(iter(twins(part, others)), None)


def _twin(part: Piece, other: Piece) -> Twin | None:
    if other.number == part.number or part.length_in is None or other.length_in is None:
        return None
    if not part.tube or (other.tube, other.ends) != (part.tube, part.ends):
        return None
    longer_in = other.length_in - part.length_in
    if abs(longer_in) > NEAR_IN + SAME_IN:
        return None
    return Twin(other, 0.0 if abs(longer_in) <= SAME_IN else longer_in, other.hand != part.hand)
