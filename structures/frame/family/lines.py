"""Purlin runs, brace chains and ties."""

from __future__ import annotations

from dataclasses import dataclass


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
    flat_hole_in: float | None = None
    one_piece: bool = False        # one tube from the first landing to the last, clamped inside every hoop between
    pass_fitting: str = ""         # what clamps it to those hoops
    pass_room_in: float = 0.0      # how much farther in than touching that clamp holds it


@dataclass(frozen=True, slots=True)
class Web:
    """A tube from a tie up to its hoop, one on each side: from `from_middle_in` along the tie to `station` on the hoop.

    Its flattened ends are as its tie's where the file doesn't say otherwise.
    """

    role: str
    from_middle_in: float
    station: str
    tie_fitting: str
    hoop_fitting: str
    flat_in: float
    flat_width_in: float
    flat_round_in: float
    flat_hole_in: float | None = None
    option: str = ""


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
    flat_hole_in: float | None = None
    webs: tuple[Web, ...] = ()
