"""One corner of a structure: which hoops and pieces belong to it, and its landings, numbered from the ground up.

The numbers are the same on every drawing of the corner and in the table beside it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from structures.frame.document import Document, Landing

from .scene import Piece, Scene

CORNERS = ("tag-left", "tag-right", "far-left", "far-right")
MIDDLES = ("mid-left", "mid-right")
_ZONES = {"side": 0, "tie": 2}                # every other zone between them
_HOOPS_AT_LEAST = 3


@dataclass(frozen=True, slots=True)
class End:
    """One end of a piece at a spot: `index` is 0 for its first landing, 1 for its last; a hoop that it passes has none."""

    piece: Piece
    landing: Landing
    index: int | None
    offered: bool


@dataclass(frozen=True, slots=True)
class Spot:
    """A numbered place where ends land: one band, or bands butted at one node, lower first."""

    number: int
    code: str
    hoop: int
    node_in: float
    ends: tuple[End, ...]


class Corner:
    """The part of a structure that is seen at one corner, or at mid-length on one side.

    `toward` is +1 or -1, the direction in y toward the end that the corner belongs to (mid-length looks toward the tag
    end); `sign` the side's direction in x.
    """

    def __init__(self, scene: Scene, key: str):
        self.scene, self.key = scene, key
        self.end, self.side = key.split("-")
        self.name = key.replace("-", " ")
        self.sign = 1.0 if self.side == "right" else -1.0
        self.toward = 1.0 if self.end == "far" else -1.0
        self.spacing = scene.document.measures.spacing_in
        self.own = tuple(p for p in scene.pieces if p.corner == self.name)
        self.offered = tuple(p for p in scene.phantoms if p.corner == self.name)
        self.hoops = self._hoops()

    def _hoops(self) -> tuple[int, ...]:
        """The hoops that the corner's pieces touch, from the corner's own end inward; three where there are none."""
        count = self.scene.hoops
        touched = {hoop for piece in self.own + self.offered for hoop in piece.hoops}
        if self.end == "mid":
            return tuple(range(min(touched, default=1), max(touched, default=min(count, _HOOPS_AT_LEAST)) + 1))
        reach = min(count, _HOOPS_AT_LEAST)
        if self.end == "far":
            return tuple(range(count, min(touched | {count - reach + 1}) - 1, -1))
        return tuple(range(1, max(touched | {reach}) + 1))

    @cached_property
    def foreign(self) -> tuple[Piece, ...]:
        """Braces of another corner that land on a hoop drawn here, on this side: two corners of a short structure."""
        return tuple(p for p in self.scene.pieces
                     if p.zone != "tie" and p.corner != self.name and p.landings[0].side == self.side
                     and not set(p.hoops).isdisjoint(self.hoops))

    @cached_property
    def ties(self) -> tuple[Piece, ...]:
        """The ties across the hoops drawn here, and those offered."""
        return tuple(p for p in self.scene.pieces + self.scene.phantoms if p.zone == "tie" and p.hoops[0] in self.hoops)

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        """The corner's landings in the order in which they are numbered: side chain, roof chain, ties, each from below."""
        found: dict[str, list[End]] = {}
        chain = self._chains()
        # at mid-length a tie crosses every hoop, and none of them has to do with the braces
        for piece in self.own + self.offered + (() if self.end == "mid" else self.ties):
            for end in self._ends(piece):
                found.setdefault(end.landing.code, []).append(end)

        def order(ends: list[End]) -> tuple[int, int, float, int]:
            piece, landing = ends[0].piece, ends[0].landing
            return _ZONES.get(piece.zone, 1), chain.get(piece.id, 0), landing.node_in, landing.hoop

        rows = sorted(found.values(), key=order)
        return tuple(Spot(number, ends[0].landing.code, ends[0].landing.hoop, ends[0].landing.node_in,
                          tuple(sorted(ends, key=lambda end: end.landing.from_foot_in)))
                     for number, ends in enumerate(rows, 1))

    def _ends(self, piece: Piece) -> list[End]:
        offered = piece in self.scene.phantoms
        ends = [End(piece, landing, index, offered) for index, landing in enumerate(piece.landings)
                if landing.side == self.side]
        return ends + [End(piece, landing, None, offered) for landing in piece.passes]

    def _chains(self) -> dict[str, int]:
        """Which chain of its zone each piece belongs to, by the least hoop that its chain touches: mid-length has two."""
        found: dict[str, int] = {}
        for zone in {piece.zone for piece in self.own + self.offered}:
            groups: list[tuple[set[str], list[Piece]]] = []
            for piece in (p for p in self.own + self.offered if p.zone == zone):
                codes, members = {landing.code for landing in piece.landings}, [piece]
                for group in [g for g in groups if g[0] & codes]:
                    groups.remove(group)
                    codes |= group[0]
                    members += group[1]
                groups.append((codes, members))
            for _, members in groups:
                least = min(hoop for piece in members for hoop in piece.hoops)
                found.update((piece.id, least) for piece in members)
        return found


def corners_of(document: Document) -> tuple[str, ...]:
    """The corners that can be drawn: all four, and mid-length on both sides where braces stand there."""
    held = {brace.corner.replace(" ", "-") for brace in document.braces}
    return CORNERS + tuple(key for key in MIDDLES if key in held)


def landings_of(pieces: Iterable[Piece]) -> list[Landing]:
    """Every landing of some pieces, those that they pass included."""
    return [landing for piece in pieces for landing in (*piece.landings, *piece.passes)]
