"""Pieces and joints of a frozen frame: what is carried to the site, where each one comes to lie and what holds it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Flat:
    """The flattened end of a brace, tie or web, once trimmed: what is left of it beyond the hole, its width, the radius it is
    rounded to about the hole, its thickness (two walls), and the hole's diameter, None where the file doesn't give it."""

    length_in: float
    width_in: float
    round_in: float
    thick_in: float
    hole_in: float | None = None


@dataclass(frozen=True, slots=True)
class Member:
    """One piece of tube or lengthwise stock. `from_` and `to` are location codes (`from`, `to` in JSON).

    `start` and `end` are the ends of its axis (hole to hole for flattened ends). A hoop section follows the hoop's
    centre line from `start` to `end`: `hoop`, `s_from_in`, `s_to_in` measured along the tube from the LEFT foot over
    the ridge. `flat` is a web's flattened end.
    """

    id: str
    role: str
    part: str
    from_: str
    to: str
    length_in: float
    start: Point
    end: Point
    radius_in: float
    option: str
    hoop: int | None
    s_from_in: float | None
    s_to_in: float | None
    flat: Flat | None = None


@dataclass(frozen=True, slots=True)
class Joint:
    """Where members meet: a band, connector, screw or bolt. `at` lies on the hoop's or stick's axis.

    `code` is the location code, `id` is code:kind:ordinal. `holds` are the ids of the members that it joins.
    """

    id: str
    code: str
    kind: str
    fitting: str
    at: Point
    hoop: int | None
    side: str
    station: str
    from_foot_in: float | None
    holds: tuple[str, ...]
    option: str


@dataclass(frozen=True, slots=True)
class Landing:
    """Where one end of a brace or tie meets a hoop. `hole` is the bolt hole's centre.

    `nominal_in` is the mark as designed, `from_foot_in` where the band's centre comes to lie for the made length;
    `node_in` the mark of the node (the butt line where two bands meet). `set` is true for the end placed by its mark.
    """

    code: str
    joint: str
    hoop: int
    side: str
    station: str
    node_in: float
    from_foot_in: float
    nominal_in: float
    set: bool
    hole: Point


@dataclass(frozen=True, slots=True)
class Tail:
    """How far one flattened end stands outside its hoop's line, where the film would rub; 0 and less is within it.

    `made_in` is with the twist as the part is made, `unmade_in` with no twist made at all.
    """

    made_in: float
    unmade_in: float


@dataclass(frozen=True, slots=True)
class Reach:
    """How far the free end of a piece may come to lie from its designed place, along its hoop.

    `end` is "from" or "to". `low_in` and `high_in` are the furthest places of the band's centre from the foot, `low_stop`
    and `high_stop` what is met there: a place id, or "foot", "seam", "ridge" or a board's word. `moves_in` is how far the
    free end goes up the hoop (down is negative) for each 1/2 in. that its own bay is too wide; None where it no longer
    reaches at all.
    """

    end: str
    low_in: float
    low_stop: str
    high_in: float
    high_stop: str
    moves_in: float | None


@dataclass(frozen=True, slots=True)
class Brace:
    """One brace piece. `hand` is "left", "right" or "none" as the geometry has it; the part says what is made.

    `gaps` are the shortest gaps to each kind of neighbour, less radii; `clearance_in` is the least of them and
    `clearance_to` the place id or word of that neighbour. `set_end` is the end that is bolted first, by its mark or where the
    piece before it came to lie; `turned_end` is the other, which is bolted last and so turned by the
    twist. `proud_in` is the greater of its two tails as made; `passes` are the hoops that a one-piece chain is clamped to
    between its ends. A document of schema 1 has none of these: they are None or empty.
    """

    id: str
    role: str
    zone: str
    option: str
    part: str
    corner: str                    # "tag left", "tag right", "far left", "far right", "mid left", "mid right"
    chain: str
    from_: str
    to: str
    length_in: float
    computed_in: float
    twist_deg: float
    hand: str
    twist_made: bool
    bend_from_deg: float
    bend_to_deg: float
    clearance_in: float
    clearance_to: str
    gaps: Mapping[str, float]
    set_end: str                   # "from" or "to"
    landing_from: Landing
    landing_to: Landing
    turned_end: str = ""           # "from", "to"; "" is unknown
    proud_in: float | None = None
    tail_from: Tail | None = None
    tail_to: Tail | None = None
    reach: Reach | None = None
    passes: tuple[Landing, ...] = ()
    flat: Flat | None = None


@dataclass(frozen=True, slots=True)
class Tie:
    """One collar tie, left landing to right landing. Its gaps are as a brace's; schema 1 measured none."""

    id: str
    role: str
    option: str
    part: str
    from_: str
    to: str
    length_in: float
    hoop: int
    station_in: float
    from_ridge_in: float
    landing_from: Landing
    landing_to: Landing
    gaps: Mapping[str, float] = field(default_factory=dict)
    clearance_in: float | None = None
    clearance_to: str = ""
    flat: Flat | None = None


Piece = Member | Brace | Tie       # what is picked and carried
