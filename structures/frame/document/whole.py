"""The document itself: one configuration's computed frame with everything derived from it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from structures.frame.document.pieces import Brace, Joint, Member, Piece, Tie
from structures.frame.document.room import Bar, Box, Swing, Tight
from structures.frame.document.work import Cut, Hardware, Line, Mark, Step
from structures.frame.said import Said

SCHEMA = 2
ENGINE = "2.0.0"


@dataclass(frozen=True, slots=True)
class Measures:
    """The sizes of the whole. `ridge_mark_in` is half of `developed_in`; `clear_gap_in` the gap between two hoops."""

    bays: int
    hoops: int
    inner_hoops: int
    spacing_in: float
    length_in: float
    width_in: float
    peak_in: float
    developed_in: float
    ridge_mark_in: float
    clear_gap_in: float
    leg_in: float | None
    radius_in: float | None
    pitch_deg: float | None
    tube_end_in: float


@dataclass(frozen=True, slots=True)
class OptionAnswer:
    """One option as this configuration has it. `no_because` is "" when included, else one of `not made for this size`,
    `offered, not bought`, `replaced`, `not offered`; `no_words` says it to a person."""

    code: str
    name: str
    included: bool
    standard: bool
    no_because: str
    no_words: Said
    pieces: int
    bands: int


@dataclass(frozen=True, slots=True)
class Panel:
    """A piece of film between two hoops, or a bay's length of channel or board: something looked at on a walk."""

    id: str
    code: str
    kind: str                      # "film", "channel", "hip-board", "base-board", "end wall"
    bay: int | None
    end: int | None
    side: str
    zone: str
    s_from_in: float | None        # along the tube from that side's foot
    s_to_in: float | None
    option: str


@dataclass(frozen=True, slots=True)
class Totals:
    """`weight_lb` is tube and posts; `fittings_weight_lb` what is stated for the rest, None when any is unknown."""

    pieces: int
    weight_lb: float
    fittings_weight_lb: float | None
    heaviest: str
    heaviest_lb: float
    longest: str
    longest_in: float


@dataclass(frozen=True, slots=True)
class Document:
    """Everything about one configuration, computed once."""

    schema: int
    engine: str
    family: str
    family_name: str
    title: str
    revision: str
    effective: str
    changed: str
    rated_wind: str
    rated_snow: str
    family_sha256: str
    configuration: Mapping[str, Any]
    measures: Measures
    profile: tuple[Mapping[str, Any], ...]
    stations: Mapping[str, float]
    tubes: Mapping[str, float]     # role to outside diameter; "hoop", "post", "purlin", "side-brace", ...
    put_up: str
    options: tuple[OptionAnswer, ...]
    lines: tuple[Line, ...]
    members: tuple[Member, ...]
    joints: tuple[Joint, ...]
    braces: tuple[Brace, ...]
    ties: tuple[Tie, ...]
    marks: tuple[Mark, ...]
    cuts: tuple[Cut, ...]
    panels: tuple[Panel, ...]
    warnings: tuple[Said, ...]
    totals: Totals
    # Since schema 2. A document of schema 1 has none of them and the pages say so.
    hardware: tuple[Hardware, ...] = ()
    boxes: tuple[Box, ...] = ()
    bars: tuple[Bar, ...] = ()
    swings: tuple[Swing, ...] = ()
    tight: tuple[Tight, ...] = ()
    sequence: tuple[Step, ...] = ()
    bring: tuple[Said, ...] = ()   # what the customer must bring, a thing each

    def pieces(self) -> Iterator[Piece]:
        """Every piece that is picked and carried: hoop sections, posts, runners, purlins, boards, pipes, webs, braces and ties."""
        yield from self.members
        yield from self.braces
        yield from self.ties
