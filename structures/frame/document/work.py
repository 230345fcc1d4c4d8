"""What is done with a frozen frame: the kit's lines, marks, cuts and the order of work."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.said import Said


@dataclass(frozen=True, slots=True)
class Because:
    """One reason of a count: `count` = `per` for each place in `where`, or by a measure said in `words`."""

    kind: str
    count: int
    per: int
    where: tuple[str, ...]
    words: Said


@dataclass(frozen=True, slots=True)
class Line:
    """One part of the kit. `quantity` = `needed` + `spares` + `pack_rounding`; `needed` = the sum over `because`."""

    part: str
    name: str
    role: str
    kind: str
    unit: str
    quantity: int
    needed: int
    spares: int
    pack_rounding: int
    weight_lb: float | None        # of `quantity`; None is unknown
    length_in: float | None
    ends: str
    hand: str
    tube: str
    because: tuple[Because, ...]
    tool: str = ""                 # what it is driven with, as in "1/2 in. spanner"; "" is none or unknown


@dataclass(frozen=True, slots=True)
class Mark:
    """Where something goes on a group of hoops with equal marks.

    `from_foot_in` is the centre, `edge_in` the lower edge measured from `datum` on `piece`; `from_datum_in` the centre
    measured from there. `side` "both", "left", "right" or "" (ridge). `codes` are the places it makes.
    """

    hoops: tuple[int, ...]
    side: str
    code: str                      # the station's word
    kind: str
    name: str
    from_foot_in: float
    piece: str
    datum: str                     # "foot", "seam", "ridge"
    from_datum_in: float
    edge_in: float
    option: str


@dataclass(frozen=True, slots=True)
class Cut:
    """The sticks of one run. `saw_end` of the last stick is sawn to `cut_length_in`; `offcut_in` is left over.

    `lay_in` is what the last stick covers between its two joints.
    """

    run: str                       # "ridge", "L-purlin", "R-purlin", ...
    part: str
    sticks: int
    stick_in: float
    cut_length_in: float
    lay_in: float
    saw_end: str
    offcut_in: float
    joints_in: tuple[float, ...]   # mouths of the slip joints, from hoop 1


@dataclass(frozen=True, slots=True)
class Hardware:
    """The hardware of one joint of its kind: part numbers with counts, and how it goes on.

    `width_in` is what it takes up along the hoop, `hole_offset_in` how far its bolt hole lies from the tube's axis. `ear_in`
    is an ear's thickness and `head_in` the bolt's head; None is not given. `bolt_points` says which way a bolt's thread
    points, `nut` on which side its nut lies.
    """

    code: str
    name: str
    kind: str
    parts: tuple[tuple[str, int], ...]
    width_in: float
    hole_offset_in: float | None
    hole_direction: str
    goes_on: str
    bolt_points: str
    nut: str
    ear_in: float | None
    head_in: float | None


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the order of work.

    `how` is "fit now", "hang and tie" (only the lower end has its section: bolted there, the loose end tied), "wait" (what
    had to wait for a later section: a hung piece's upper end, or a whole piece) or "" for work that puts in nothing that can
    wait. `needs` are the numbers of the steps before it that it cannot do without. `pieces` and `joints` are the place ids
    that it puts in: each of them stands in exactly one step. `not_yet`
    says what is not yet in where a crew may stop after it for the night; empty where it may not.
    """

    step: int
    stage: str                     # "posts", "hoops", "ridge", "side braces", ...: steps of a stage follow one another
    does: Said
    pieces: tuple[str, ...]
    joints: tuple[str, ...]
    how: str
    why: Said
    needs: tuple[int, ...]
    cautions: tuple[Said, ...]
    not_yet: Said
