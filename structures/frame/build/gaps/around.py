"""What lies around a piece: other pieces, runs, boards, channel, doors and posts, found by the hoops they lie between."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from structures.frame.build.frame import Frame
from structures.frame.build.gaps.rods import Rod, hoops_about, runners_of
from structures.frame.document import Bar, Box, Point, Swing
from structures.frame.solids import Block, Quarter, Solid

DOOR = ("leaf", "header")


@dataclass(frozen=True, slots=True)
class Body:
    """Something that is no round piece. `kind` is what its gaps are called, `word` names it to a person, from y0 to y1."""

    id: str
    kind: str
    word: str
    solid: Solid
    low: Point
    high: Point
    y0: float
    y1: float


class Around:
    """The neighbours of a piece: what lies between the same hoops or up to a bay beyond, and every run."""

    def __init__(self, frame: Frame, pieces: Iterable[Rod], runs: Iterable[Rod]):
        self._runs = [*runs, *runners_of(frame)]
        self._hoops = frame.hoops
        self._at: dict[int, list[Rod | Body]] = defaultdict(list)
        for rod in pieces:
            self._put(rod, rod.first, rod.last)
        for body in bodies_of(frame):
            self._put(body, *hoops_about(frame, body.y0, body.y1))
        self._webs = _joined_by_webs(frame)

    def _put(self, item: Rod | Body, first: int, last: int) -> None:
        for hoop in range(first, last + 1):
            self._at[hoop].append(item)

    def near(self, rod: Rod) -> list[Rod | Body]:
        """The neighbours of a piece, less those that it touches by design. A run's own kind are all of its neighbours of two ends."""
        found: dict[str, Rod | Body] = {run.id: run for run in self._runs}
        for hoop in range(max(rod.first - 1, 1), min(rod.last + 1, self._hoops) + 1):
            for item in self._at.get(hoop, ()):
                found[item.id] = item
        if rod.sticks:
            found = {ident: item for ident, item in found.items() if isinstance(item, Body) or item.sticks}
        found.pop(rod.id, None)
        for ident in self._webs.get(rod.id, ()):
            found.pop(ident, None)
        return list(found.values())


def _joined_by_webs(frame: Frame) -> dict[str, set[str]]:
    """By each web and each piece that it is joined to, what it touches by design."""
    webs = {member.id for member in frame.members if member.role == "web"}
    joined: dict[str, set[str]] = defaultdict(set)
    if webs:
        for joint in frame.joints:
            if not webs.isdisjoint(joint.holds):
                for ident in joint.holds:
                    joined[ident].update(joint.holds)
    return joined


def bodies_of(frame: Frame) -> list[Body]:
    """Boards, channel, pipes, end-wall posts, headers, door leaves and the room that these sweep."""
    kinds = {strip.code: frame.part(strip.part).role for strip in frame.family.strips}
    return [*(_bar(bar, kinds.get(bar.kind, bar.kind)) for bar in frame.bars),
            *(_box(box) for box in frame.boxes), *(_swing(swing) for swing in frame.swings)]


def _bar(bar: Bar, kind: str) -> Body:
    across = bar.along_x, 0.0, bar.along_z
    solid = Block((bar.x, (bar.y0 + bar.y1) / 2, bar.z), (across, (0.0, 1.0, 0.0), (-across[2], 0.0, across[0])),
                  (bar.wide_in / 2, abs(bar.y1 - bar.y0) / 2, bar.thick_in / 2))
    return _body(bar.id, kind, bar.name, solid)


def _box(box: Box) -> Body:
    return _body(box.id, "door" if box.kind in DOOR else box.kind, box.name, Block.upright(box.low, box.high))


def _swing(swing: Swing) -> Body:
    return _body(swing.id, "door", swing.name, Quarter(swing.x, swing.y, swing.radius_in, swing.closed, swing.opens,
                                                       swing.z0, swing.z1))


def _body(ident: str, kind: str, name: str, solid: Solid) -> Body:
    low, high = solid.bounds()
    return Body(ident, kind, f"the {name} ({ident})", solid, low, high, low[1], high[1])
