"""What lies around a piece: other pieces, runs, boards, channel, doors and posts, found by the hoops they lie between."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from structures.frame.build.frame import Frame
from structures.frame.build.gaps.rods import Rod, hoops_about, runners_of
from structures.frame.build.hoops import posts_reach_up
from structures.frame.document import Bar, Box, Point, Swing
from structures.frame.solids import Block, Pillar, Quarter, Solid

DOOR = ("leaf", "header")


@dataclass(frozen=True, slots=True)
class Body:
    """Something that is no rod. `kind` is what its gaps are called, `word` names it to a person, from y0 to y1. What stands at every
    hoop alike has the number of its hoop and `alike`: bodies with equal ones differ by whole bays only."""

    id: str
    kind: str
    word: str
    solid: Solid
    low: Point
    high: Point
    y0: float
    y1: float
    hoop: int = 0
    alike: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Hood:
    """What lies between some hoops and up to a bay beyond. Hoods of equal `key` differ by whole bays only."""

    items: tuple[Rod | Body, ...]
    key: int


class Around:
    """The neighbours of a piece: what lies between the same hoops or up to a bay beyond, and every run."""

    def __init__(self, frame: Frame, pieces: Iterable[Rod], runs: Iterable[Rod]):
        self._runs = [*runs, *runners_of(frame)]
        bodies = bodies_of(frame)
        self._about_runs = [body for body in bodies if body.hoop <= 1]
        self._frame = frame
        self._at: dict[int, list[Rod | Body]] = defaultdict(list)
        self._hoods: dict[tuple[int, int, bool], Hood] = {}
        self._keys: dict[tuple[object, ...], int] = {}
        for rod in pieces:
            self._put(rod, rod.first, rod.last)
        for body in bodies:
            self._put(body, *hoops_about(frame, body.y0, body.y1))
        self._joined = _joined_by_webs(frame)

    def _put(self, item: Rod | Body, first: int, last: int) -> None:
        for hoop in range(first, last + 1):
            self._at[hoop].append(item)

    def hood(self, rod: Rod) -> Hood:
        """What lies about the hoops of a piece, the piece itself and what it touches by design among it.

        About a run lie only other runs and bodies: its gaps to pieces are measured from these. Of what stands at every hoop
        alike, hoop 1's is as near to it as any.
        """
        about = rod.first, rod.last, bool(rod.sticks)
        hood = self._hoods.get(about)
        if hood is None:
            others = self._about_runs if rod.sticks else self._between(rod.first, rod.last)
            hood = self._hoods[about] = self._look(rod.first, rod.last, others)
        return hood

    def _between(self, first: int, last: int) -> Iterator[Rod | Body]:
        for hoop in range(max(first - 1, 1), min(last + 1, self._frame.hoops) + 1):
            yield from self._at.get(hoop, ())

    def _look(self, first: int, last: int, others: Iterable[Rod | Body]) -> Hood:
        found = {item.id: item for item in (*self._runs, *others)}
        y0, y1 = self._frame.y(first), self._frame.y(last)
        places = first > 1, last < self._frame.hoops, *(_place(item, first, y0, y1) for item in found.values())
        return Hood(tuple(found.values()), self._keys.setdefault(places, len(self._keys)))

    def touch(self, rod: Rod, other: Rod | Body) -> bool:
        """Whether there is no gap to measure: the two are one, or touch by design."""
        return other.id == rod.id or other.id in self._joined.get(rod.id, ())


def _place(item: Rod | Body, first: int, y0: float, y1: float) -> object:
    """Where something is, seen from a hoop: equal places are equally far. What runs past all the hoops is so from each of them."""
    if isinstance(item, Rod) and not item.sticks:
        return item.shape, item.first - first
    if isinstance(item, Body) and item.alike is not None:
        return item.alike, item.hoop - first
    return item.id if item.y0 <= y0 and y1 <= item.y1 else (item.id, first)


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
    """Boards, channel, pipes, end-wall posts, headers, door leaves and the room that these sweep, and posts round the legs."""
    kinds = {strip.code: frame.part(strip.part).role for strip in frame.family.strips}
    return [*(_bar(bar, kinds.get(bar.kind, bar.kind)) for bar in frame.bars),
            *(_box(box) for box in frame.boxes), *(_swing(swing) for swing in frame.swings), *_posts(frame)]


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


def _posts(frame: Frame) -> Iterator[Body]:
    """Ground posts that stand round the legs, above the ground; those inside the legs are nearer to nothing than these are."""
    up = posts_reach_up(frame)
    for member in frame.members if up else ():
        if member.role == "post" and member.hoop is not None:
            x, y, _ = member.end
            body = _body(member.id, "ground post", "ground post", Pillar(x, y, member.radius_in, 0.0, up))
            yield replace(body, hoop=member.hoop, alike=("ground post", "left" if x < 0 else "right"))


def _body(ident: str, kind: str, name: str, solid: Solid) -> Body:
    low, high = solid.bounds()
    return Body(ident, kind, f"the {name} ({ident})", solid, low, high, low[1], high[1])
