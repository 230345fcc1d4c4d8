"""Acts: what a crew does in one go, before the acts are sorted and numbered as steps."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

from structures.frame.build import Frame
from structures.frame.document import Joint, Member, Piece
from structures.frame.said import Said

# In the trade's order. Steps of one stage follow one another; a structure has those that it needs.
STAGES = (
    "site", "base", "marks", "hoops", "side sections", "braces before the roof", "roof sections", "hung braces", "ridge",
    "side purlins", "ties", "square", "side braces", "roof braces", "tighten", "anchors", "boards", "end walls", "fittings",
    "channel", "film", "roll-up", "doors", "blower", "later",
)
# The ends of these are no place to stop: nothing was put in that has to be looked after.
NO_STOP = ("site", "marks", "square", "later")
GROUND_ROLES = ("post", "runner")


@dataclass(frozen=True, slots=True)
class Told:
    """The sentences of one act."""

    does: Said
    why: Said
    cautions: tuple[Said, ...] = ()


@dataclass(eq=False)
class Act:
    """One act. `after` are the keys of acts that it needs beside those that its joints speak of; `puts_in` is what is missing
    until it is done, in words; `loose` that it leaves an end hanging. `tell` is asked once all its joints are known."""

    key: str
    stage: str
    tell: Callable[[Act], Told]
    pieces: list[Piece] = field(default_factory=list)
    joints: list[Joint] = field(default_factory=list)
    how: str = ""
    after: tuple[str, ...] = ()
    puts_in: str = ""
    loose: bool = False
    order: Callable[[Joint], Any] | None = None

    @property
    def rank(self) -> int:
        return STAGES.index(self.stage)


@dataclass
class Site:
    """The frame with its joints by the pieces that they hold; `slides` are those that go on before what they sit on."""

    frame: Frame
    pieces: dict[str, Piece] = field(init=False)
    held: dict[str, list[Joint]] = field(init=False)
    slides: frozenset[str] = field(init=False)

    def __post_init__(self) -> None:
        self.pieces = {piece.id: piece for piece in self.frame.pieces()}
        self.held = defaultdict(list)
        for joint in self.frame.joints:
            for ident in joint.holds:
                self.held[ident].append(joint)
        self.slides = frozenset(joint.id for joint in self.frame.joints if self._slides_on(joint))

    def _slides_on(self, joint: Joint) -> bool:
        """Whether it goes on over an end of the section that it sits on, and so before that one is joined or stood."""
        return self.frame.family.fittings[joint.fitting].goes_on != "opens" and bool(self.sections(joint))

    def sections(self, joint: Joint) -> list[Member]:
        """The hoop sections that a joint holds."""
        return [piece for piece in self.on(joint) if isinstance(piece, Member) and piece.role == "section"]

    def on(self, joint: Joint) -> list[Piece]:
        """The pieces that a joint holds."""
        return [self.pieces[ident] for ident in joint.holds if ident in self.pieces]

    def joints(self, pieces: Iterable[Piece]) -> list[Joint]:
        """Every joint of these pieces once, in their order."""
        found = {joint.id: joint for piece in pieces for joint in self.held.get(piece.id, ())}
        return list(found.values())
