"""What takes up room on the site and is no piece of the kit: end-wall posts, doors, the section of a board or channel."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document.pieces import Point


@dataclass(frozen=True, slots=True)
class Box:
    """An upright block between two opposite corners, such as an end-wall post, a header or a closed door leaf."""

    id: str                        # its place id, as in "E1-post:post:2"
    kind: str                      # "post", "header", "leaf"
    name: str                      # in words, as people call it
    low: Point
    high: Point


@dataclass(frozen=True, slots=True)
class Bar:
    """Something of rectangular section that runs lengthwise from `y0` to `y1`: a board, channel or roll-up pipe's place.

    (x, z) is the middle of the section, (along_x, along_z) the unit direction of its wide side; `wide_in` and `thick_in` are
    whole, not halves.
    """

    id: str                        # code:kind, as in "L-hip:hip-board"
    kind: str                      # the strip's code: "hip-board", "base-board", "channel", ...
    name: str
    side: str
    x: float
    z: float
    along_x: float
    along_z: float
    wide_in: float
    thick_in: float
    y0: float
    y1: float


@dataclass(frozen=True, slots=True)
class Swing:
    """The room that a door leaf sweeps: a quarter cylinder about a hinge, from closed to fully open.

    (x, y) is the hinge; the leaf closed lies from there along `closed` (+1 or -1 in x) and opens to `opens` (+1 or -1 in y).
    """

    id: str
    name: str
    x: float
    y: float
    radius_in: float
    closed: int
    opens: int
    z0: float
    z1: float


@dataclass(frozen=True, slots=True)
class Tight:
    """One of the tightest gaps of the frame: a piece, what it is near to (a place id or a word), its kind, the gap."""

    piece: str
    near: str
    kind: str                      # "film", "own hoop", "hoop", "purlin", "tie", "brace", "web", "runner", "door", "post", "ground post",
    # or the role of a lengthwise strip's part: "board", "channel", "roll-pipe", ...
    gap_in: float
    at: Point                      # on the piece's axis, where it is nearest
