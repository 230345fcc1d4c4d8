"""Following ends: how far each may come to lie from its designed place, and how far it moves when its bay is out."""

from __future__ import annotations

import dataclasses
import math
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from structures.frame.build.chains import band_of, chain_of
from structures.frame.build.frame import SIDES, Frame
from structures.frame.build.hoops import posts_reach_up, seam_places
from structures.frame.build.landing import follow
from structures.frame.document import Bar, Brace, Joint, Landing, Reach

OUT_IN = 0.5         # how much too wide a bay is asked about
SLIGHT_IN = 1e-6
LIES_ON_IN = 0.25    # a board this near to the hoop's tube lies on it, so a band can't go under


@dataclass(frozen=True, slots=True)
class Stop:
    """What a band meets on its hoop: from `low_in` to `high_in`, measured from the foot. A line has no width."""

    low_in: float
    high_in: float
    name: str


def measure_reach(frame: Frame) -> None:
    """Fill every brace's reach, once all that takes up room on the hoops is in the frame."""
    around = _Around(frame)
    moved: dict[tuple[object, ...], float | None] = {}
    braces = []
    for brace in frame.braces:
        held, loose = _ends(brace)
        # Mirrored corners are alike but for the last digits.
        alike = (brace.chain, brace.length_in, abs(loose.hoop - held.hoop), round(held.from_foot_in, 9), round(loose.from_foot_in, 9))
        if alike not in moved:
            moved[alike] = moves(frame, brace, OUT_IN)
        braces.append(dataclasses.replace(brace, reach=_reach(around, brace, loose, moved[alike])))
    frame.braces = braces


class _Around:
    """What takes up room on the hoops on which an end is free, and which bands go along with that end's."""

    def __init__(self, frame: Frame):
        self.frame = frame
        self.joints: dict[tuple[int, str], list[Joint]] = {(loose.hoop, loose.side): [] for _, loose in map(_ends, frame.braces)}
        for joint in frame.joints:
            if joint.hoop is not None and joint.from_foot_in is not None:
                for side in (joint.side,) if joint.side else SIDES:
                    if (joint.hoop, side) in self.joints:
                        self.joints[joint.hoop, side].append(joint)
        self.lengthwise = {side: [(stop, bar) for bar in frame.bars if bar.side == side for stop in _bar(frame, bar)]
                           for side in SIDES}
        self.seams = {side: [Stop(place.from_foot_in, place.from_foot_in, "seam") for place in seam_places(frame)
                             if place.side == side and not place.seam.may_be_covered] for side in SIDES}
        self.posts_up_in = posts_reach_up(frame)
        self.taken_along = _taken_along(frame)

    def width(self, joint: Joint) -> float:
        return self.frame.family.fittings[joint.fitting].width_in

    def stops(self, loose: Landing, going: set[str]) -> Iterator[Stop]:
        """What stands in the way on a free end's hoop and side, but for the joints that go."""
        yield from self.seams[loose.side]
        if self.posts_up_in:
            yield Stop(-math.inf, self.posts_up_in, f"{self.frame.code(loose.hoop, loose.side, 'foot')}:post:1")
        for joint in self.joints[loose.hoop, loose.side]:
            half = self.width(joint) / 2
            if half and joint.id not in going and joint.from_foot_in is not None:
                yield Stop(joint.from_foot_in - half, joint.from_foot_in + half, joint.id)
        y = self.frame.y(loose.hoop)
        for stop, bar in self.lengthwise[loose.side]:
            if bar.y0 - SLIGHT_IN <= y <= bar.y1 + SLIGHT_IN:
                yield stop


def _taken_along(frame: Frame) -> Mapping[str, list[str]]:
    """By the joint of a following end, the joints of the held ends butted to it: the next pieces of its chain, which are
    bolted after it and go where it comes to lie."""
    free: dict[tuple[str, str, int, float], str] = {}
    for brace in frame.braces:
        _, loose = _ends(brace)
        free[brace.chain, brace.corner, loose.hoop, round(loose.node_in, 6)] = loose.joint
    along: dict[str, list[str]] = defaultdict(list)
    for brace in frame.braces:
        held, _ = _ends(brace)
        leader = free.get((brace.chain, brace.corner, held.hoop, round(held.node_in, 6)))
        if leader is not None and not held.set:
            along[leader].append(held.joint)
    return along


def _ends(brace: Brace) -> tuple[Landing, Landing]:
    """The end that is bolted first, and the free one."""
    if brace.set_end == "from":
        return brace.landing_from, brace.landing_to
    return brace.landing_to, brace.landing_from


def _reach(around: _Around, brace: Brace, loose: Landing, moves_in: float | None) -> Reach:
    """The furthest places of a free end's band. What the band lies on as designed stops nothing: other checks speak of that."""
    going = {loose.joint, *around.taken_along.get(loose.joint, ())}
    bands = [(joint.from_foot_in or 0.0, around.width(joint) / 2) for joint in around.joints[loose.hoop, loose.side]
             if joint.id in going]
    low = min(at - half for at, half in bands)
    high = max(at + half for at, half in bands)
    foot, ridge = _ends_of_hoop(around.frame, bands[0][1])
    between = list(around.stops(loose, going))
    below = max((stop for stop in (foot, *between) if stop.high_in <= low + SLIGHT_IN), key=_high, default=foot)
    above = min((stop for stop in (ridge, *between) if stop.low_in >= high - SLIGHT_IN), key=_low, default=ridge)
    centre = loose.from_foot_in
    return Reach("to" if loose is brace.landing_to else "from", centre - max(low - below.high_in, 0.0), below.name,
                 centre + max(above.low_in - high, 0.0), above.name, moves_in)


def _ends_of_hoop(frame: Frame, half: float) -> tuple[Stop, Stop]:
    """The foot, or as near to it as the base lets a landing come, and the ridge with the room that its bend asks for; `half` is
    half a band's width."""
    base = frame.family.made_bases.get(frame.configuration.base)
    lowest = max(0.0, frame.family.shape.tube_end_in, base.lowest_in - half if base else 0.0)
    crown = frame.half_in - max(frame.family.crown_clear_in - half, 0.0)
    return Stop(-math.inf, lowest, "foot"), Stop(crown, math.inf, "ridge")


def _low(stop: Stop) -> float:
    return stop.low_in


def _high(stop: Stop) -> float:
    return stop.high_in


def _bar(frame: Frame, bar: Bar) -> Iterator[Stop]:
    """What a board or channel takes up of the hoops that it lies on. What is shorter than a bay follows its hoop, as the channel
    of an end does, and bands go on over it."""
    if bar.y1 - bar.y0 < frame.spacing_in - SLIGHT_IN:
        return
    s, depth = frame.profile.place(abs(bar.x), bar.z)
    if abs(depth) > frame.hoop_radius_in + bar.thick_in / 2 + LIES_ON_IN:
        return
    tu, tz = frame.profile.tangent(s)
    along_u = -bar.along_x if bar.side == "left" else bar.along_x
    half = (bar.wide_in * abs(along_u * tu + bar.along_z * tz) + bar.thick_in * abs(along_u * tz - bar.along_z * tu)) / 2
    yield Stop(s - half, s + half, bar.name)


def moves(frame: Frame, brace: Brace, out_in: float) -> float | None:
    """How far up its hoop the free end goes, down being negative, when the piece's own bay is `out_in` too wide.

    The landing is solved again with the free end's hoop moved so far away and the held end where it is: no derivative, which
    over half an inch would miss by more than a tape shows. None where the piece no longer reaches at all. What a
    neighbouring bay's error does to the held end comes on top, from that neighbour's own figure.
    """
    held, loose = _ends(brace)
    x, y, z = held.hole
    fixed = x, y - math.copysign(out_in, loose.hoop - held.hoop), z
    band = band_of(frame, chain_of(frame, brace), loose.side, loose.hoop, held.hoop)
    s = follow(frame, fixed, band, loose.from_foot_in, brace.length_in)
    return None if s is None else s - loose.from_foot_in
