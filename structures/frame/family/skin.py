"""What closes the frame, and what is counted by measure or bought whole."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Door:
    """A door in the middle of an end wall, between its two innermost uprights: its opening, how many leaves, how thick they
    are, and whether they swing "out", "in" or "slide" (then they hang outside).

    `fitting` is the fitting set that the kit has for it (leaves, hinges, latch); "" where the door is the customer's own.
    """

    width_in: float
    height_in: float
    leaves: int
    opens: str
    fitting: str = ""
    option: str = ""
    thick_in: float = 1.5


@dataclass(frozen=True, slots=True)
class EndWall:
    """A kind of end wall: whether it takes the end hoop's tie, and its uprights by distance from the centre."""

    code: str                      # "open", "framed"
    name: str
    takes_tie: bool = False
    uprights_in: tuple[float, ...] = ()   # distances from the ridge plane; both sides get one
    upright_fitting: str = ""
    timber: str = ""               # in words, what the customer brings
    post_wide_in: float = 0.0      # section of an upright, across and along; 0 is not given
    post_deep_in: float = 0.0
    door: Door | None = None


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
    wide_in: float = 0.0           # its section: the wide side lies along the hoop; 0 is not given
    thick_in: float = 0.0
    lies: str = "outside"          # of the hoop's line, "outside" or "inside"; "hanging": outside, and fixed to no hoop
    splice: str = ""               # fitting set where two sticks meet; given, the strip is laid stick by stick
    role: str = ""                 # the role of those sticks: "board", "roll-pipe"
    middle_in: float | None = None  # where its middle lies along the tube; None is at its station
    on: str = ""                   # the strip that it is fixed to, where the configuration has that one


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
class Fixture:
    """Something bought whole that goes to known places: an anchor, a crank, a blower, a rope.

    `where` is "feet" (each hoop's, both sides, every `every`-th hoop and both ends), "corners" (the four feet), "sides" (once
    each side, at the tag end), "bays" (each bay, both sides) or "end wall" (once, at the tag end).
    """

    code: str
    name: str
    fitting: str
    where: str
    station: str = ""
    every: int = 1
    option: str = ""


@dataclass(frozen=True, slots=True)
class Allowance:
    """Parts counted from a measure and not from a place: `count` for every `every_in` of `measure`, or each."""

    part: str
    measure: str                   # "channel", "length", "hoops", "bays", "structure"
    count: float
    every_in: float | None = None
    option: str = ""
    why: str = ""
