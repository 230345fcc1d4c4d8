"""Gaps: how near each brace comes to film, hoops, purlins, ties and other braces, less the tubes' radii."""

from __future__ import annotations

import dataclasses
from bisect import bisect_left
from collections import defaultdict

from structures.frame.build.frame import Frame
from structures.frame.build.purlins import purlin_axis, run_sides
from structures.frame.document import Brace, Point, Tie
from structures.frame.family import Chain, PurlinRun
from structures.frame.lengths import inches_only
from structures.frame.refusal import Refusal
from structures.frame.vectors import along, point_gap_2d, segment_gap

SLIGHT_IN = 1e-6
Near = tuple[float, str]           # gap, and the place id or word of what is near


def measure_gaps(frame: Frame) -> None:
    """Fill every brace's gaps and clearance; refuse a piece that runs through another."""
    around = _Around(frame)
    frame.braces = [_measured(frame, around, brace) for brace in frame.braces]
    for tie in {(tie.part, round(tie.station_in, 6)): tie for tie in frame.ties}.values():
        _tie_against_purlins(frame, around, tie)


class _Around:
    """The neighbours of a piece, found by side and place so that the work grows with the bays and not their square."""

    def __init__(self, frame: Frame):
        self.braces: dict[str, list[Brace]] = defaultdict(list)
        for brace in sorted(frame.braces, key=_low_y):
            self.braces[brace.landing_from.side].append(brace)
        self.starts = {side: [_low_y(brace) for brace in braces] for side, braces in self.braces.items()}
        self.reach = max((abs(b.landing_from.hole[1] - b.landing_to.hole[1]) for b in frame.braces), default=0.0)
        self.ties: dict[int, list[Tie]] = defaultdict(list)
        for tie in frame.ties:
            self.ties[tie.hoop].append(tie)
        self.runs: dict[str, list[tuple[PurlinRun, tuple[float, float], float]]] = defaultdict(list)
        for run in frame.family.runs:
            if frame.has(run.option):
                axis, radius = purlin_axis(frame, run), frame.family.tubes[frame.part(run.stick).tube].radius_in
                for side in run_sides(run) if run.station != "ridge" else ("left", "right"):
                    self.runs[side].append((run, axis, radius))

    def beside(self, brace: Brace, clear_in: float) -> list[Brace]:
        """The braces of the same side whose length of the structure meets this one's, but for a little."""
        side = brace.landing_from.side
        low, high = _low_y(brace), max(brace.landing_from.hole[1], brace.landing_to.hole[1])
        first = bisect_left(self.starts[side], low - self.reach - clear_in)
        last = bisect_left(self.starts[side], high + clear_in)
        return [other for other in self.braces[side][first:last] if other.id != brace.id]


def _low_y(brace: Brace) -> float:
    return min(brace.landing_from.hole[1], brace.landing_to.hole[1])


def radius_of(frame: Frame, part: str) -> float:
    """The outside radius, in inches, of the tube that a part is cut from."""
    return frame.family.tubes[frame.part(part).tube].radius_in


def _measured(frame: Frame, around: _Around, brace: Brace) -> Brace:
    radius = radius_of(frame, brace.part)
    a, b = brace.landing_from.hole, brace.landing_to.hole
    nears: dict[str, list[Near]] = {
        "film": [_film(frame, a, b, radius)],
        "own hoop": [_own_hoop(frame, brace)],
        "hoop": _hoops_between(frame, brace, a, b, radius),
        "purlin": [_purlin(run, axis, r, a, b, radius) for run, axis, r in around.runs[brace.landing_from.side]],
        "tie": _ties(frame, around, brace, a, b, radius),
        "brace": [(segment_gap(a, b, o.landing_from.hole, o.landing_to.hole) - radius - radius_of(frame, o.part), o.id)
                  for o in around.beside(brace, frame.spacing_in)],
    }
    least = {kind: min(found) for kind, found in nears.items() if found}
    for kind, (gap, near) in least.items():
        if gap < -SLIGHT_IN:
            _refuse(frame, brace.id, near, kind, gap)
    gap, near = min(least.values())
    return dataclasses.replace(
        brace, clearance_in=gap, clearance_to=near, gaps={kind: found[0] for kind, found in least.items()}
    )


def _refuse(frame: Frame, piece: str, near: str, kind: str, gap: float) -> None:
    frame.refusals.append(Refusal(
        "runs-through", "{piece} runs through {near} by {overlap} in.: move a landing so that they clear.",
        {"piece": piece, "near": near if kind != "film" else "the film line", "overlap": inches_only(-gap)}, "stations",
    ))


def _film(frame: Frame, a: Point, b: Point, radius: float) -> Near:
    """The depth under the film line, which lies the hoop's radius outside its axis.

    Depth inside a convex outline is least at a segment's ends, which lie on the hoops' own axis; a profile of segments
    need not be convex, so the middle is looked at too.
    """
    depth = min(frame.profile.depth(abs(point[0]), point[2]) for point in (a, along(a, b, 0.5), b))
    return depth + frame.hoop_radius_in - radius, "film"


def _own_hoop(frame: Frame, brace: Brace) -> Near:
    """The flattened end, rounded about its hole, beside the hoop that it lands on: room for the band's strap."""
    chain = _chain(frame, brace)
    offset = frame.family.fittings[chain.fitting].hole_offset_in or 0.0
    return offset - frame.hoop_radius_in - chain.flat_round_in, brace.landing_from.code


def _chain(frame: Frame, brace: Brace) -> Chain:
    return next(chain for chain in frame.family.chains if chain.code == brace.chain)


def _hoops_between(frame: Frame, brace: Brace, a: Point, b: Point, radius: float) -> list[Near]:
    """Hoops that the piece passes and doesn't land on: where it crosses their plane, how far from their tube."""
    first, last = sorted((brace.landing_from.hoop, brace.landing_to.hoop))
    found = []
    for hoop in range(first + 1, last):
        share = (frame.y(hoop) - a[1]) / (b[1] - a[1])
        x, _, z = along(a, b, share)
        found.append((abs(frame.profile.depth(abs(x), z)) - frame.hoop_radius_in - radius, f"hoop {hoop}"))
    return found


def _purlin(
    run: PurlinRun, axis: tuple[float, float], purlin_radius: float, a: Point, b: Point, radius: float
) -> Near:
    """A run lies along the structure, so the gap is a plane distance seen from the end."""
    gap = point_gap_2d(axis, (abs(a[0]), a[2]), (abs(b[0]), b[2]))
    return gap - purlin_radius - radius, f"the {run.name}"


def _ties(frame: Frame, around: _Around, brace: Brace, a: Point, b: Point, radius: float) -> list[Near]:
    first, last = sorted((brace.landing_from.hoop, brace.landing_to.hoop))
    return [
        (segment_gap(a, b, tie.landing_from.hole, tie.landing_to.hole) - radius - radius_of(frame, tie.part), tie.id)
        for hoop in range(first, last + 1) for tie in around.ties[hoop]
    ]


def _tie_against_purlins(frame: Frame, around: _Around, tie: Tie) -> None:
    radius = radius_of(frame, tie.part)
    left, right = tie.landing_from.hole, tie.landing_to.hole
    for run, (u, z), purlin_radius in around.runs["right"]:
        gap = point_gap_2d((u, z), (left[0], left[2]), (right[0], right[2])) - radius - purlin_radius
        if gap < -SLIGHT_IN:
            _refuse(frame, tie.id, f"the {run.name}", "purlin", gap)
