"""The frame while it is built: hoops at their places, and the members, joints and panels that have been put in.

Each builder (`hoops`, `purlins`, `braces`, `ties`, `ends`, `skin`) adds its own; nothing is counted or measured in any
other way later. Sides are "left" and "right" as one stands outside the tag end looking in; "" is the ridge.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from structures.frame.document import Bar, Box, Brace, Cut, Joint, Member, Panel, Piece, Point, Swing, Tie, Tight
from structures.frame.family import Base, Configuration, Family, Part
from structures.frame.profile import Profile
from structures.frame.refusal import Refusal
from structures.frame.said import Said

SIDES = ("left", "right")
LETTER = {"left": "-L", "right": "-R", "": ""}


@dataclass
class Footage:
    """A length of lengthwise stock or film that the kit turns into whole sticks or rolls; `words` says its arithmetic."""

    code: str
    part: str
    length_in: float
    stock_in: float
    together: str
    words: Said
    where: tuple[str, ...]
    fixing: str = ""
    fixing_count: int = 0
    option: str = ""
    laid: bool = False             # its sticks are members already; only its fixings are counted from here


@dataclass
class Frame:
    """Everything that one configuration of a family consists of, with coordinates."""

    family: Family
    configuration: Configuration
    profile: Profile
    hoops: int
    members: list[Member] = field(default_factory=list)
    joints: list[Joint] = field(default_factory=list)
    braces: list[Brace] = field(default_factory=list)
    ties: list[Tie] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    panels: list[Panel] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    bars: list[Bar] = field(default_factory=list)
    swings: list[Swing] = field(default_factory=list)
    tight: list[Tight] = field(default_factory=list)
    footages: list[Footage] = field(default_factory=list)
    warnings: list[Said] = field(default_factory=list)
    refusals: list[Refusal] = field(default_factory=list)
    _ordinals: dict[tuple[str, str], int] = field(default_factory=dict)
    # Every hoop has the same places: (x, z) by side, inches from the foot and inches inward.
    _sections: dict[tuple[str, float, float], tuple[float, float]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        # Asked for tens of thousands of times in a long structure, so plain attributes.
        self.spacing_in = self.configuration.spacing_in
        self.length_in = self.configuration.length_in
        self.half_in = self.profile.half_in

    @property
    def hoop_radius_in(self) -> float:
        return self.family.tubes[self.family.hoop.tube].radius_in

    @property
    def base(self) -> Base | None:
        """The base as the family describes it; None for one of which it gives no more than the name."""
        return self.family.made_bases.get(self.configuration.base)

    def y(self, hoop: int) -> float:
        """Where hoop number `hoop` stands, along from hoop 1."""
        return (hoop - 1) * self.spacing_in

    def point(self, side: str, s: float, y: float, inward_in: float = 0.0) -> Point:
        """The point s inches up the tube from that side's foot, moved square to the tube by `inward_in`."""
        key = side, s, inward_in
        found = self._sections.get(key)
        if found is None:
            u, z = self.profile.point(s)
            if inward_in:
                nu, nz = self.profile.normal(s)
                u, z = u - inward_in * nu, z - inward_in * nz
            found = self._sections[key] = (-u if side == "left" else u), z
        return found[0], y, found[1]

    def code(self, hoop: int, side: str, station: str) -> str:
        return f"H{hoop}{LETTER[side]}-{station}"

    def place(self, code: str, kind: str) -> str:
        """A new place id: code, kind and the next free ordinal."""
        key = code, kind
        ordinal = self._ordinals.get(key, 0) + 1
        self._ordinals[key] = ordinal
        return f"{code}:{kind}:{ordinal}"

    def release(self, ident: str) -> None:
        """Give the ordinal of a piece that was taken out free again, if it was the last of its kind there."""
        code, kind, ordinal = ident.split(":")
        if self._ordinals.get((code, kind)) == int(ordinal):
            self._ordinals[code, kind] -= 1

    def pieces(self) -> Iterator[Piece]:
        """Every piece that is picked and carried: hoop sections, posts, runners, purlins, boards, pipes, webs, braces and ties."""
        yield from self.members
        yield from self.braces
        yield from self.ties

    def part(self, number: str) -> Part:
        return self.family.parts[number]

    def has(self, option: str) -> bool:
        return not option or option in self.configuration.options

    def refuse(self, code: str, template: str, field_: str = "", **values: object) -> None:
        self.refusals.append(Refusal(code, template, values, field_))

    def join(
        self, fitting: str, hoop: int, side: str, station: str, s: float, holds: tuple[str, ...], option: str = ""
    ) -> Joint:
        """Put the fitting set on a hoop, s inches up from that side's foot."""
        kind = self.family.fittings[fitting].kind
        code = f"H{hoop}{LETTER[side]}-{station}"
        joint = Joint(self.place(code, kind), code, kind, fitting, self.point(side, s, self.y(hoop)), hoop, side,
                      station, s, holds, option)
        self.joints.append(joint)
        return joint
