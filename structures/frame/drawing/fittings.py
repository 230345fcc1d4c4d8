"""Bands and connectors close up: a band is its strap round the hoop and the ear beside it, a connector a ring."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, nullcontext
from typing import TYPE_CHECKING

from structures.frame.document import Joint, Landing, Point

from . import pencils
from .sheet import XY

if TYPE_CHECKING:
    from .closeup import CloseUp

_EAR_PAST_HOLE_IN = 0.6             # how far an ear reaches beyond its hole's centre
_STRAP = 4 / 3                      # a strap's width across the hoop, in hoop diameters
_USUAL_IN = 1.25                    # of a band whose width no mark tells


class Fittings:
    """The hardware of one close-up."""

    def __init__(self, view: CloseUp):
        self.view, self.sheet = view, view.sheet
        self.joints = {joint.id: joint for joint in view.scene.document.joints}
        self.drawn: set[str] = set()

    def draw_bands(self, landings: Sequence[Landing]) -> None:
        """The bands at some landings on the drawn hoops: ear first, strap over it, the lower of two first."""
        shown = [landing for landing in landings if landing.hoop in self.view.corner.hoops]
        for landing in sorted(shown, key=lambda landing: (self._rank(landing.hoop), landing.from_foot_in)):
            if landing.joint in self.joints:
                self._band(landing)

    def _rank(self, hoop: int) -> int:
        return self.view.far_to_near.index(hoop)

    def width_of(self, landing: Landing) -> float:
        """What the band takes up along the hoop: twice the way from its edge to its centre, as its mark has it."""
        for mark in self.view.scene.document.marks:
            if (mark.kind == "band" and landing.hoop in mark.hoops and mark.side in ("both", landing.side)
                    and abs(mark.from_foot_in - landing.from_foot_in) < 0.01):
                return 2 * abs(mark.from_datum_in - mark.edge_in)
        return _USUAL_IN

    def _band(self, landing: Landing) -> None:
        view, joint = self.view, self.joints[landing.joint]
        half = view.factor * self.width_of(landing) / 2
        s = view.drawn_s(landing)
        low, high = (view.on_hoop(landing.hoop, s + step) for step in (-half, half))
        true, hole = view.on_hoop(landing.hoop, landing.from_foot_in), landing.hole
        offset = math.dist(true, hole)
        with self._piece(joint) as kind:
            if offset > 0.01:
                reach = view.factor * (offset + _EAR_PAST_HOLE_IN) / offset
                ends = [tuple(p + reach * (h - t) for p, h, t in zip(point, hole, true, strict=True)) for point in (high, low)]
                self.sheet.polyline(kind, [view.at(low), view.at(high), *(view.at((x, y, z)) for x, y, z in ends)], closed=True)
            self._strap(kind, low, high)

    @contextmanager
    def _piece(self, joint: Joint) -> Iterator[str]:
        """A joint's own group, lit or plain by its place or its parts; gives the class of its shapes. What was asked for
        belongs to no layer, so that it is seen whichever are hidden."""
        scene = self.view.scene
        self.drawn.add(joint.id)
        lit = scene.asks_for_joint(joint)
        with nullcontext() if lit else self.sheet.layer("hardware"), self.sheet.piece(joint.id, " ".join(scene.parts_at(joint.id))):
            yield "clamp-lit" if lit else "clamp"

    def _strap(self, kind: str, low: Point, high: Point) -> None:
        a, b = self.view.at(low), self.view.at(high)
        dx, dy = self.view.across(a, b, self.view.tube_px * _STRAP / 2)
        self.sheet.polyline(kind, [(a[0] - dx, a[1] - dy), (b[0] - dx, b[1] - dy), (b[0] + dx, b[1] + dy),
                                   (a[0] + dx, a[1] + dy)], closed=True)

    def draw_end_bands(self) -> None:
        """The bands of purlin ends on an end hoop, each side of their run's mark."""
        for joint, mark in self._end_bands():
            s = mark + self.view.factor * ((joint.from_foot_in or mark) - mark)
            half = self.view.factor * _USUAL_IN / 2
            hoop = joint.hoop or 1
            if joint.side != self.view.corner.side:
                s = 2 * self.view.profile.half_in - s
            with self._piece(joint) as kind:
                self._strap(kind, self.view.on_hoop(hoop, s - half), self.view.on_hoop(hoop, s + half))

    def _end_bands(self) -> list[tuple[Joint, float]]:
        """Each end band in view with its run's mark from the foot."""
        view = self.view
        held = {landing.joint for piece in view.scene.pieces for landing in (*piece.landings, *piece.passes)}
        found = [j for j in self.joints.values() if j.kind == "band" and j.id not in held and j.hoop in view.corner.hoops
                 and j.from_foot_in is not None and (j.side == view.corner.side or j.station == "ridge")]
        marks: dict[tuple[int | None, str], list[float]] = {}
        for joint in found:
            marks.setdefault((joint.hoop, joint.station), []).append(joint.from_foot_in or 0.0)
        half = view.profile.half_in
        return [(j, half if j.station == "ridge" else sum(marks[j.hoop, j.station]) / len(marks[j.hoop, j.station]))
                for j in found]

    def draw_connectors(self) -> None:
        """Connectors, where runs cross inner hoops, and the bolts of the purlin ends."""
        view = self.view
        radius = 5.5 if view.size == "wide" else 5 if view.size == "desk" else 4
        for joint in self.joints.values():
            if joint.kind == "connector" and joint.hoop in view.corner.hoops and joint.side in ("", view.corner.side):
                with self._piece(joint) as kind:
                    self.sheet.circle("conn" if kind == "clamp" else kind, self.place_of(joint), radius)

    def place_of(self, joint: Joint) -> XY:
        """Where a joint on a hoop lies on the sheet; a connector half way between the axes that it joins."""
        line = next((line for line in self.view.scene.runs if line.code == joint.station
                     and line.side in ("", self.view.corner.side)), None)
        if line is None or joint.hoop is None:
            return self.view.at(joint.at)
        axis = self.view.axis_of_run(line)
        return pencils.along(self.view.at(joint.at), self.view.at((axis[0], joint.at[1], axis[1])), 0.5)
