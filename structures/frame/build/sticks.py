"""Straight lines of sticks laid end to end along the structure: runners, boards and roll-up pipes with their splices."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from structures.frame.build.frame import LETTER, Frame
from structures.frame.document import Joint, Member
from structures.frame.said import Said


@dataclass(frozen=True, slots=True)
class Line:
    """What is laid along one side: `word` is its word in location codes, `name` what people call it, (x, z) its axis."""

    word: str
    name: str
    role: str
    part: str
    stock_in: float
    splice: str
    option: str
    side: str
    x: float
    z: float
    radius_in: float
    from_in: float
    to_in: float


def ends_of(from_in: float, to_in: float, stock_in: float) -> list[float]:
    """Where sticks meet, with both ends of the line: whole sticks from the tag end on, the last one sawn to what is left."""
    sticks = max(math.ceil((to_in - from_in) / stock_in - 1e-9), 1)
    return [*(from_in + stock_in * at for at in range(sticks)), to_in]


def lay(frame: Frame, line: Line) -> list[Member]:
    """Put the sticks of a line into the frame, and a splice wherever two meet."""
    marks = ends_of(line.from_in, line.to_in, line.stock_in)
    sticks = [_stick(frame, line, low, high) for low, high in itertools.pairwise(marks)]
    fitting = frame.family.fittings[line.splice]
    for mark, (before, after) in zip(marks[1:-1], itertools.pairwise(sticks), strict=True):
        code = f"B{bay_of(frame, mark)}{LETTER[line.side]}-{line.word}"
        frame.joints.append(Joint(
            frame.place(code, fitting.kind), code, fitting.kind, line.splice, (line.x, mark, line.z), None, line.side,
            line.word, None, (before.id, after.id), line.option,
        ))
    last_in = marks[-1] - marks[-2]
    if len(sticks) > 1 and last_in < fitting.width_in / 2 - 1e-9:
        frame.warnings.append(Said(
            "The last stick of the {line} is {last_in} long, and half of its {splice} takes {half_in}.",
            {"line": line.name, "last_in": last_in, "splice": fitting.name, "half_in": fitting.width_in / 2}))
    return sticks


def _stick(frame: Frame, line: Line, low: float, high: float) -> Member:
    letter = LETTER[line.side]
    code = f"B{bay_of(frame, low)}{letter}-{line.word}"
    stick = Member(
        frame.place(code, line.role), line.role, line.part, code,
        f"B{bay_of(frame, high, ends_there=True)}{letter}-{line.word}", high - low, (line.x, low, line.z),
        (line.x, high, line.z), line.radius_in, line.option, None, None, None,
    )
    frame.members.append(stick)
    return stick


def bay_of(frame: Frame, y: float, *, ends_there: bool = False) -> int:
    """The bay that y lies in; on a hoop the bay that begins there, or the one before for what ends there."""
    bays = frame.hoops - 1
    if ends_there:
        return min(max(math.ceil(y / frame.spacing_in - 1e-9), 1), bays)
    return min(int(y / frame.spacing_in + 1e-9) + 1, bays)
