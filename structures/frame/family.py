"""What a family file says, once read: plain frozen dataclasses, all lengths in inches.

`structures.frame.reader` makes a `Family` from TOML text and refuses what can't be; `structures.frame.build` turns a
`Family` and a `Configuration` into a frame. Nothing in here computes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Tube:
    """A round tube: its name in the file, outside diameter and wall in inches, coating in words."""

    name: str
    diameter_in: float
    wall_in: float
    coating: str = "unknown"

    @property
    def radius_in(self) -> float:
        return self.diameter_in / 2


@dataclass(frozen=True, slots=True)
class Part:
    """One part number of ours.

    `length_in` is the made length: hole to hole for pieces with flattened ends, over all for everything else.
    `cut_in` is the length of tube that it is made from (weight is taken from it).
    `hand` is "left", "right" or "" (no twist made). `spares` is a fraction of what is needed; `pack` the count in
    which it leaves the shelf (1 for single pieces). `weight_lb` is stated only for what is no tube.
    """

    number: str
    name: str
    role: str
    kind: str                      # "tube", "fitting", "fastener", "lengthwise", "film"
    tube: str = ""
    length_in: float | None = None
    cut_in: float | None = None
    ends: str = ""
    hand: str = ""
    spacing_in: float | None = None
    unit: str = "each"
    spares: float = 0.0
    pack: int = 1
    weight_lb: float | None = None


@dataclass(frozen=True, slots=True)
class Shape:
    """Half a hoop from ground to ridge along the tube's centre line.

    `kind` is "round", "gothic" or "segments". Figures not stated in the file are None; the reader has solved the
    tangent arc already, so `segments` is always complete: ("line", length_in, 0) or ("arc", length_in, radius_in),
    each tangent to the one before, the first one straight up from the foot unless `lean_deg` says otherwise.
    `tube_end_in` is how far the tube's end lies above (+) or below (-) the ground line.
    """

    kind: str
    width_in: float
    peak_in: float
    segments: tuple[tuple[str, float, float], ...]
    leg_in: float | None = None
    radius_in: float | None = None
    pitch_deg: float | None = None
    lean_deg: float = 0.0
    tube_end_in: float = 0.0


@dataclass(frozen=True, slots=True)
class Station:
    """A named place along the tube, measured from the foot; `text` is how the file put it."""

    name: str
    from_foot_in: float
    text: str


@dataclass(frozen=True, slots=True)
class Seam:
    """Where two hoop sections meet. `side` is "both", "left", "right" or "ridge"; `from_foot_in` on that side.

    `swaged` says which section's end goes into the other: "lower" or "upper" (for a seam at or past the ridge "left" or
    "right"). `screw_from_mouth_in` is measured from the mouth of the plain end.
    """

    side: str
    from_foot_in: float
    swage_in: float
    swaged: str
    screw_from_mouth_in: float
    fitting: str
    may_be_covered: bool = False


@dataclass(frozen=True, slots=True)
class Hoop:
    """`put_up` is "whole" (joined on the ground and raised) or "sides first"."""

    tube: str
    put_up: str
    sections: tuple[str, ...]      # part numbers from the left foot over the ridge to the right foot
    seams: tuple[Seam, ...]        # in the same order, with side "both" meaning one on each side


@dataclass(frozen=True, slots=True)
class Posts:
    """`inside` true: the post stands inside the leg. `stands_in` above ground; the foot bolt `bolt_at_in` above it."""

    part: str
    inside: bool
    stands_in: float
    bolt_at_in: float
    fitting: str


@dataclass(frozen=True, slots=True)
class FittingSet:
    """The hardware of one joint.

    `kind` is what the place is called: "band", "connector", "screw", "bolt", "bracket".
    `width_in` is what it takes up along the hoop. `hole_offset_in` is the bolt hole's distance from the tube's axis;
    `hole_direction` "lengthwise" or "inward" (ties), "" where there is no hole to measure to.
    """

    code: str
    name: str
    kind: str
    parts: tuple[tuple[str, int], ...]
    width_in: float = 0.0
    hole_offset_in: float | None = None
    hole_direction: str = ""
    goes_on: str = "opens"         # "opens" or "slips over an end"
    bolt_points: str = "in"
    nut: str = "inside"


@dataclass(frozen=True, slots=True)
class PurlinRun:
    """A lengthwise line of sticks: one at the ridge (`station` "ridge") or a left-right pair."""

    code: str                      # "ridge", "purlin", "upper": also the word in location codes
    name: str
    station: str
    stick: str                     # part number
    stick_in: float
    swage_in: float
    near_end: str                  # part number of the tag-end fitting
    far_end: str
    end_lay_in: float              # from the end hoop's axis to the mouth of its slip joint
    near_swaged: bool              # the tag-end purlin end goes into the first stick
    far_swaged: bool
    swages_point: str              # "away" from the tag end, or "toward" it
    joint_clear_in: float          # least distance of a slip joint's mouth from a connector's axis
    connector: str                 # fitting set codes
    end_bands: str
    slip: str
    bands_per_end: int = 2
    band_gap_in: float = 0.0       # at the ridge: each band's centre stays this far from the ridge
    saw_end: str = "swaged"        # which end of the last stick is sawn
    option: str = ""               # option code that it belongs to; "" means always


@dataclass(frozen=True, slots=True)
class Landing:
    """`hoop` counted from the end that the chain belongs to, 1 = end hoop; `set` = placed by its mark."""

    hoop: int
    station: str
    set: bool = False


@dataclass(frozen=True, slots=True)
class Chain:
    """Braces of one zone, one piece to each pair of landings in order.

    `where` is "corners" or "mid-length"; a mid-length chain counts its hoop 1 as hoop m toward the tag end and m + 1
    away from it, m = hoops // 2, and exists only where the structure is longer than `over_in`.
    """

    code: str                      # unique within the family
    zone: str                      # "side" or "roof": the word in location codes
    option: str
    landings: tuple[Landing, ...]
    roles: tuple[str, ...]         # one for each piece
    fitting: str
    flat_in: float                 # flattened end: length beyond the hole
    flat_width_in: float
    flat_round_in: float           # radius about the hole
    twist_made: str                # "press" or "site"
    slack_deg: float               # below this none is made
    where: str = "corners"
    over_in: float = 0.0
    may_share_bay: bool = False


@dataclass(frozen=True, slots=True)
class TieSet:
    """Ties across hoops. `station` "" means that the made length of the part decides the place.

    `hoops` is "all", "inner", "even inner" or "odd inner"; "all" leaves out an end hoop behind an end wall that takes
    its tie.
    """

    code: str
    option: str
    role: str
    hoops: str
    fitting: str
    flat_in: float
    flat_width_in: float
    flat_round_in: float
    station: str = ""


@dataclass(frozen=True, slots=True)
class EndWall:
    """A kind of end wall: whether it takes the end hoop's tie, and its uprights by distance from the centre."""

    code: str                      # "open", "framed"
    name: str
    takes_tie: bool = False
    uprights_in: tuple[float, ...] = ()   # distances from the ridge plane; both sides get one
    upright_fitting: str = ""
    timber: str = ""               # in words, what the customer brings


@dataclass(frozen=True, slots=True)
class Strip:
    """Lengthwise stock on both sides (channel, hip board, base board), or along the end hoops (`run` "end hoops")."""

    code: str                      # "channel", "hip-board", "base-board"
    name: str
    part: str
    stock_in: float
    run: str                       # "sides" or "end hoops"
    station: str                   # "" for end hoops
    option: str
    fixing: str                    # fitting set for each fixing
    fixing_every_in: float
    together: str = ""             # strips with the same word are added up before rounding to whole sticks


@dataclass(frozen=True, slots=True)
class FilmSheet:
    """One sheet over the covered stations. `hold_in` at each edge, `hold_end_in` at each end."""

    code: str
    name: str
    part: str
    from_station: str              # the sheet runs from here on the left over the ridge to the same on the right
    hold_in: float
    hold_end_in: float
    roll_width_in: float
    roll_length_in: float
    option: str


@dataclass(frozen=True, slots=True)
class Allowance:
    """Parts counted from a measure and not from a place: `count` for every `every_in` of `measure`, or each."""

    part: str
    measure: str                   # "channel", "length", "hoops", "bays", "structure"
    count: float
    every_in: float | None = None
    option: str = ""
    why: str = ""


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
