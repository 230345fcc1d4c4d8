"""Pieces as their gaps are measured: an axis of two ends and a radius, and the hoops that they lie between and land on."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections import defaultdict
from dataclasses import dataclass

from structures.frame.build.frame import Frame
from structures.frame.build.purlins import purlin_axis, run_sides
from structures.frame.document import Brace, Landing, Member, Point, Tie
from structures.frame.family import Chain, TieSet

ALIKE_DIGITS = 9     # two pieces are of one shape if their ends agree to a billionth of an inch
PURLIN = ("stick", "end")
RUNNER = ("runner",)


@dataclass(frozen=True, slots=True)
class Rod:
    """One round piece, from `start` to `end`; it lies between the hoops `first` and `last`.

    `kind` is what it is to others and `word` what it is called then. `lands` are the hoops that it touches by design, `own_in`
    what its flattened end leaves to the hoop `own` that it lands on. `low` and `high` are the corners of the upright box
    around it, radius and all. Rods of equal `shape` differ by whole bays only. A purlin run is one rod of several `sticks`.
    """

    id: str
    role: str
    kind: str                      # "brace", "tie", "web", "purlin", "runner"
    word: str
    start: Point
    end: Point
    radius_in: float
    first: int
    last: int
    lands: tuple[int, ...]
    own: str
    own_in: float | None
    low: Point
    high: Point
    y0: float                      # the length of the structure that its axis covers
    y1: float
    shape: tuple[object, ...]
    sticks: tuple[Member, ...] = ()

    def stick_at(self, y: float) -> str:
        """The id of the piece that lies at y: of a run one of its sticks, else the rod itself."""
        if not self.sticks:
            return self.id
        return self.sticks[max(bisect_right(self.sticks, y, key=_low_y) - 1, 0)].id


def _low_y(stick: Member) -> float:
    return stick.start[1]


def pieces_of(frame: Frame) -> list[Rod]:
    """Every brace, tie and web of the frame."""
    radii = {number: frame.family.tubes[part.tube].radius_in for number, part in frame.family.parts.items() if part.tube}
    chains = {chain.code: chain for chain in frame.family.chains}
    sets: dict[tuple[str, str], TieSet] = {}
    for ties in frame.family.ties:
        sets.setdefault((ties.role, ties.option), ties)
    rods = [_landed(frame, brace, "brace", radii[brace.part], chains[brace.chain], brace.passes) for brace in frame.braces]
    rods += [_landed(frame, tie, "tie", radii[tie.part], sets[tie.role, tie.option], ()) for tie in frame.ties]
    rods += [_web(frame, member) for member in frame.members if member.role == "web"]
    return rods


def _landed(
    frame: Frame, piece: Brace | Tie, kind: str, radius: float, item: Chain | TieSet, passes: tuple[Landing, ...]
) -> Rod:
    """A piece with two flattened ends, each beside the hoop it lands on: room for the band's strap."""
    start, end = piece.landing_from, piece.landing_to
    offset = frame.family.fittings[item.fitting].hole_offset_in or 0.0
    hoops = tuple(sorted({start.hoop, end.hoop, *(landing.hoop for landing in passes)}))
    return _rod(frame, (piece.id, piece.role, kind, piece.id), (start.hole, end.hole), radius, hoops, hoops[0], hoops[-1],
                start.code, offset - frame.hoop_radius_in - _toward_hoop(piece, item))


def _toward_hoop(piece: Brace | Tie, item: Chain | TieSet) -> float:
    """How far a flattened end reaches from its hole toward the hoop: its rounding where it stands beside the hoop on edge,
    half its thickness where a brace in one piece lies flat against the hoop's inside."""
    lies_flat = isinstance(item, Chain) and item.one_piece
    return piece.flat.thick_in / 2 if lies_flat and piece.flat else item.flat_round_in


def _web(frame: Frame, web: Member) -> Rod:
    hoop = round(web.start[1] / frame.spacing_in) + 1
    return _rod(frame, (web.id, web.role, "web", web.id), (web.start, web.end), web.radius_in, (hoop,), hoop, hoop)


def _rod(
    frame: Frame, names: tuple[str, str, str, str], ends: tuple[Point, Point], radius: float, lands: tuple[int, ...],
    first: int, last: int, own: str = "", own_in: float | None = None, sticks: tuple[Member, ...] = (),
) -> Rod:
    (x0, ya, z0), (x1, yb, z1) = ends
    low_x, high_x = (x0, x1) if x0 <= x1 else (x1, x0)
    y0, y1 = (ya, yb) if ya <= yb else (yb, ya)
    low_z, high_z = (z0, z1) if z0 <= z1 else (z1, z0)
    y = frame.y(first)
    shape = (names[1], radius, own_in, x0, round(ya - y, ALIKE_DIGITS), z0, x1, round(yb - y, ALIKE_DIGITS), z1,
             tuple(hoop - first for hoop in lands))
    return Rod(*names, *ends, radius, first, last, lands, own, own_in, (low_x - radius, y0 - radius, low_z - radius),
               (high_x + radius, y1 + radius, high_z + radius), y0, y1, shape, sticks)


def hoops_about(frame: Frame, y0: float, y1: float) -> tuple[int, int]:
    """The numbers of the hoops between which a length of the structure lies; what stands before or behind it is at its end."""
    first = math.floor(y0 / frame.spacing_in + 1e-9) + 1
    last = math.ceil(y1 / frame.spacing_in - 1e-9) + 1
    return min(max(first, 1), frame.hoops), min(max(last, 1), frame.hoops)


def runs_of(frame: Frame) -> list[Rod]:
    """Every purlin run, from its first stick to its last."""
    lines = _lines(frame, PURLIN)
    rods = []
    for run in frame.family.runs:
        if frame.has(run.option):
            u, z = purlin_axis(frame, run)
            places = [(-u if side == "left" else u, z) for side in run_sides(run)]
            rods += [_run(frame, "purlin", f"the {run.name}", lines[place]) for place in places]
    return rods


def runners_of(frame: Frame) -> list[Rod]:
    """The runners that hoops stand on, from their first stick to their last: others come near them."""
    return [_run(frame, "runner", "the runner", sticks) for sticks in _lines(frame, RUNNER).values()]


def _lines(frame: Frame, roles: tuple[str, ...]) -> dict[tuple[float, float], list[Member]]:
    """The lengthwise members of some roles, by where their axis lies."""
    lines: dict[tuple[float, float], list[Member]] = defaultdict(list)
    for member in frame.members:
        if member.role in roles:
            lines[member.start[0], member.start[2]].append(member)
    return lines


def _run(frame: Frame, kind: str, word: str, sticks: list[Member]) -> Rod:
    first, hoops = sticks[0], range(1, frame.hoops + 1)
    return _rod(frame, (first.id, first.role if kind != "purlin" else "stick", kind, word), (first.start, sticks[-1].end),
                first.radius_in, tuple(hoops), 1, frame.hoops, sticks=tuple(sticks))
