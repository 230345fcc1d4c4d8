"""Holes moved: where a piece's hole comes to lie when its band sits elsewhere or its bay is wider than designed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from structures.frame.document import Brace, Document, Landing, Point, Tie
from structures.frame.profile import Profile
from structures.frame.vectors import length, subtract

STEPS = 60


@dataclass(frozen=True)
class Ends:
    """One brace or tie on its two hoops. The inward offset of its holes is read off the frozen ones."""

    profile: Profile
    piece: Brace | Tie

    @classmethod
    def of(cls, document: Document, piece: Brace | Tie) -> Ends:
        return cls(Profile.read(document.profile), piece)

    def landing(self, end: str) -> Landing:
        return self.piece.landing_from if end == "from" else self.piece.landing_to

    def hole(self, end: str, s: float, along_in: float = 0.0) -> Point:
        """The hole of one end with its band's centre s inches from the foot, moved along the structure by `along_in`."""
        at = self.landing(end)
        u, z = self.profile.point(s)
        nu, nz = self.profile.normal(s)
        inward = self._inward(at)
        x = u - inward * nu
        return (-x if at.side == "left" else x), at.hole[1] + along_in, z - inward * nz

    def _inward(self, at: Landing) -> float:
        """How far inside the tube's axis the hole lies: 0 for a lengthwise one."""
        u, z = self.profile.point(at.from_foot_in)
        return math.hypot(abs(at.hole[0]) - u, at.hole[2] - z)

    def span(self, s_from: float | None = None, s_to: float | None = None, wider_in: float = 0.0) -> float:
        """Hole to hole with the bands there, and the hoops further apart by `wider_in`."""
        a, b = self.landing("from"), self.landing("to")
        away = math.copysign(wider_in, b.hole[1] - a.hole[1]) if wider_in else 0.0
        start = self.hole("from", a.from_foot_in if s_from is None else s_from)
        end = self.hole("to", b.from_foot_in if s_to is None else s_to, away)
        return length(subtract(end, start))

    def wider_for(self, span_in: float, s_from: float | None = None, s_to: float | None = None) -> float | None:
        """How much wider the bay must be for the holes to lie that far apart; None where no spacing does it.

        The squares of the distance along the structure and of the distance across it add up to that of the span.
        """
        a, b = self.landing("from"), self.landing("to")
        start = self.hole("from", a.from_foot_in if s_from is None else s_from)
        end = self.hole("to", b.from_foot_in if s_to is None else s_to)
        across = math.hypot(end[0] - start[0], end[2] - start[2])
        if span_in <= across or a.hoop == b.hoop:
            return None
        return math.sqrt(span_in * span_in - across * across) - abs(end[1] - start[1])

    def lands_at(self, end: str, made_in: float, wider_in: float = 0.0) -> float | None:
        """Where the band of one end comes to lie for a piece that long, the other end at its place; None out of reach.

        Halving between the designed place and the ends of the tube, toward the side on which the span changes.
        """
        at = self.landing(end).from_foot_in

        def miss(s: float) -> float:
            return (self.span(s_from=s, wider_in=wider_in) if end == "from" else self.span(s_to=s, wider_in=wider_in)) - made_in

        if abs(miss(at)) < 1e-9:
            return at
        for far in sorted((0.0, self.profile.half_in), key=lambda s: abs(s - at)):
            near = _crossing(miss, at, far)
            if near is not None:
                return near
        return None


def _crossing(miss: Callable[[float], float], low: float, high: float) -> float | None:
    """The nearest place from `low` toward `high` where `miss` changes sign, looked for inch by inch, then halved."""
    count = max(1, math.ceil(abs(high - low)))
    before = low
    for step in range(1, count + 1):
        after = low + (high - low) * step / count
        if (miss(before) > 0) != (miss(after) > 0):
            return _halved(miss, before, after)
        before = after
    return None


def _halved(miss: Callable[[float], float], low: float, high: float) -> float:
    above = miss(low) > 0
    for _ in range(STEPS):
        middle = (low + high) / 2
        if (miss(middle) > 0) == above:
            low = middle
        else:
            high = middle
    return (low + high) / 2
