"""A hoop's shape, its named places and sections, and what it stands on."""

from __future__ import annotations

from dataclasses import dataclass


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
class Base:
    """What the hoops stand on: "fixed" on driven posts, "skid" or "rolling" on a runner along each side.

    A runner is laid of `runner` sticks with a `splice` where two meet, and each hoop's foot stands on it, held by `foot`. It
    reaches `past_in` beyond each end hoop, and its splices stay `splice_clear_in` from every hoop. `posts` says whether ground
    posts are driven as well. No landing may be nearer to the foot than `lowest_in`, and boards at the foot rise by
    `boards_up_in`.
    """

    code: str
    name: str
    posts: bool = True
    runner: str = ""               # part number
    runner_stock_in: float = 0.0
    splice: str = ""
    foot: str = ""
    lowest_in: float = 0.0
    boards_up_in: float = 0.0
    past_in: float = 0.0
    splice_clear_in: float = 0.0
