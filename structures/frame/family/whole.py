"""A family as a whole, and what is chosen of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from structures.frame.family.hoop import Base, Hoop, Posts, Shape, Station
from structures.frame.family.lines import Chain, PurlinRun, TieSet
from structures.frame.family.parts import FittingSet, Part, Tube
from structures.frame.family.skin import Allowance, EndWall, FilmSheet, Fixture, Strip


@dataclass(frozen=True, slots=True)
class Option:
    """Something a configuration has or has not. `offer` is "standard", "optional" or "not offered"."""

    code: str
    name: str
    offer: str
    note: str = ""                 # why it is not offered, in words
    replaced_by: str = ""          # words: what took its place
    needs: tuple[str, ...] = ()
    excludes: tuple[str, ...] = ()
    over_in: float | None = None   # made only for structures longer than this
    up_to_in: float | None = None
    spacings_in: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Family:
    """One revision of one family."""

    code: str
    name: str
    title: str
    revision: str
    effective: date
    changed: str
    rated_wind: str
    rated_snow: str
    shape: Shape
    developed_in: float            # both halves
    stations: Mapping[str, Station]
    tubes: Mapping[str, Tube]
    parts: Mapping[str, Part]
    fittings: Mapping[str, FittingSet]
    hoop: Hoop
    posts: Posts | None
    spacings_in: tuple[float, ...]
    shortest_in: float
    longest_in: float
    bases: tuple[str, ...]
    end_walls: Mapping[str, EndWall]
    default_ends: tuple[str, str]
    runs: tuple[PurlinRun, ...]
    chains: tuple[Chain, ...]
    ties: tuple[TieSet, ...]
    strips: tuple[Strip, ...]
    film: tuple[FilmSheet, ...]
    allowances: tuple[Allowance, ...]
    options: tuple[Option, ...]
    crown_clear_in: float = 0.0    # least distance of a band's centre from a ridge that is a bend
    made_bases: Mapping[str, Base] = field(default_factory=dict)
    fixtures: tuple[Fixture, ...] = ()


@dataclass(frozen=True, slots=True)
class OneOff:
    """The maker's own change to one order: a piece left out, added or moved; signed and dated.

    `act` is "leave out", "add" or "move". `target` is the place id of the piece (leave out, move) or of the hoop
    station it goes to (add, as a brace from `target` to `target_2`); `by_in` is how far along the tube it is moved.
    """

    act: str
    target: str
    who: str
    why: str
    on: str                        # ISO date
    target_2: str = ""
    part: str = ""
    by_in: float = 0.0


@dataclass(frozen=True, slots=True)
class Configuration:
    """What was chosen. `options` holds the codes that are included, after defaults."""

    length_in: float
    spacing_in: float
    base: str
    ends: tuple[str, str]
    options: frozenset[str]
    one_offs: tuple[OneOff, ...] = ()
