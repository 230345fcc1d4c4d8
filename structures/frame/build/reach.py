"""Following ends: how far each may come to lie from its designed place, and how far it moves when its bay is out."""

from __future__ import annotations

import dataclasses
import math
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from structures.frame.build.chains import band_of, chain_of
from structures.frame.build.frame import Frame
from structures.frame.build.hoops import seam_places
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
    free = [brace.landing_to if brace.set_end == "from" else brace.landing_from for brace in frame.braces]
    joints: dict[tuple[int, str], list[Joint]] = {(landing.hoop, landing.side): [] for landing in free}
    for joint in frame.joints:
        if joint.hoop is not None and joint.from_foot_in is not None:
            for side in (joint.side,) if joint.side else ("left", "right"):
                if (joint.hoop, side) in joints:
                    joints[joint.hoop, side].append(joint)
    taken_along = _taken_along(frame)
    frame.braces = [
        dataclasses.replace(brace, reach=_reach(frame, brace, joints[landing.hoop, landing.side], taken_along))
        for brace, landing in zip(frame.braces, free, strict=True)
    ]


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


def _reach(frame: Frame, brace: Brace, joints: list[Joint], taken_along: Mapping[str, list[str]]) -> Reach:
    """The furthest places of a free end's band. What the band lies on as designed stops nothing: other checks speak of that."""
    _, loose = _ends(brace)
    going = {loose.joint, *taken_along.get(loose.joint, ())}
    own = [(joint.from_foot_in or 0.0, frame.family.fittings[joint.fitting].width_in / 2) for joint in joints
           if joint.id in going]
    centre = loose.from_foot_in
    low = min(at - half for at, half in own)
    high = max(at + half for at, half in own)
    foot, ridge, *between = _stops(frame, brace, loose, [joint for joint in joints if joint.id not in going])
    below = max((stop for stop in (foot, *between) if stop.high_in <= low + SLIGHT_IN), key=_high, default=foot)
    above = min((stop for stop in (ridge, *between) if stop.low_in >= high - SLIGHT_IN), key=_low, default=ridge)
    return Reach("to" if loose is brace.landing_to else "from", centre - max(low - below.high_in, 0.0), below.name,
                 centre + max(above.low_in - high, 0.0), above.name, moves(frame, brace, OUT_IN))


def _low(stop: Stop) -> float:
    return stop.low_in


def _high(stop: Stop) -> float:
    return stop.high_in


def _stops(frame: Frame, brace: Brace, loose: Landing, joints: list[Joint]) -> Iterator[Stop]:
    """What a band can't go onto or over on that hoop and side, foot and ridge first."""
    half = frame.family.fittings[chain_of(frame, brace).fitting].width_in / 2
    base = frame.family.made_bases.get(frame.configuration.base)
    lowest = max(0.0, frame.family.shape.tube_end_in, base.lowest_in - half if base else 0.0)
    yield Stop(-math.inf, lowest, "foot")
    yield Stop(frame.half_in - max(frame.family.crown_clear_in - half, 0.0), math.inf, "ridge")
    for place in seam_places(frame):
        if place.side == loose.side and not place.seam.may_be_covered:
            yield Stop(place.from_foot_in, place.from_foot_in, "seam")
    for joint in joints:
        width = frame.family.fittings[joint.fitting].width_in
        if width and joint.from_foot_in is not None:
            yield Stop(joint.from_foot_in - width / 2, joint.from_foot_in + width / 2, joint.id)
    y = frame.y(loose.hoop)
    for bar in frame.bars:
        # What is shorter than a bay follows its hoop, as the channel of an end does, and bands go on over it.
        runs_on = bar.y1 - bar.y0 >= frame.spacing_in - SLIGHT_IN
        if runs_on and bar.side == loose.side and bar.y0 - SLIGHT_IN <= y <= bar.y1 + SLIGHT_IN:
            yield from _bar(frame, bar)


def _bar(frame: Frame, bar: Bar) -> Iterator[Stop]:
    """What a board or channel that lies on the hoop's tube takes up of it."""
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
