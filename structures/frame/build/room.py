"""Room along the tube: every fitting has a width, and no two may lie on one another."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from structures.frame.build.frame import Frame
from structures.frame.build.hoops import seam_places
from structures.frame.document import Joint
from structures.frame.lengths import inches_only
from structures.frame.refusal import Refusal
from structures.frame.said import Said

SLIGHT_IN = 1e-6


@dataclass(frozen=True, slots=True)
class Taken:
    """What one fitting takes up on a whole hoop, measured from the left foot over the ridge."""

    centre_in: float
    width_in: float
    joint: Joint

    @property
    def low_in(self) -> float:
        return self.centre_in - self.width_in / 2

    @property
    def high_in(self) -> float:
        return self.centre_in + self.width_in / 2


def check_room(frame: Frame) -> None:
    """Refuse fittings that overlap or crowd the crown, warn of those that cover a seam; once for each kind of hoop."""
    by_hoop: dict[int, list[Joint]] = defaultdict(list)
    for joint in frame.joints:
        if joint.hoop is not None and joint.from_foot_in is not None:
            by_hoop[joint.hoop].append(joint)
    seen: set[tuple[tuple[str, str, float | None], ...]] = set()
    for joints in by_hoop.values():
        # Every hoop gets its joints in one order, so hoops that are alike have equal keys.
        alike = tuple((joint.fitting, joint.side, joint.from_foot_in) for joint in joints)
        if alike not in seen:
            seen.add(alike)
            taken = sorted(_taken(frame, joints), key=lambda t: t.centre_in)
            _overlaps(frame, taken)
            _crown(frame, taken)
            _seams(frame, taken)


def _taken(frame: Frame, joints: list[Joint]) -> Iterator[Taken]:
    whole = 2 * frame.half_in
    for joint in joints:
        width = frame.family.fittings[joint.fitting].width_in
        if width and joint.from_foot_in is not None:
            centre = whole - joint.from_foot_in if joint.side == "right" else joint.from_foot_in
            yield Taken(centre, width, joint)


def _overlaps(frame: Frame, taken: list[Taken]) -> None:
    for below, above in itertools.pairwise(taken):
        overlap = below.high_in - above.low_in
        if overlap > SLIGHT_IN:
            frame.refusals.append(Refusal(
                "bands-overlap",
                "The {below} at {below_at} and the {above} at {above_at} overlap by {overlap}: move one of their "
                "stations at least that far.",
                {"below": _name(frame, below), "below_at": below.joint.code, "above": _name(frame, above),
                 "above_at": above.joint.code, "overlap": _least(overlap)}, "stations",
            ))


def _crown(frame: Frame, taken: list[Taken]) -> None:
    """At a ridge that is a bend, only the ridge connector may sit on the crown."""
    clear = frame.family.crown_clear_in
    for one in taken:
        gap = abs(one.centre_in - frame.half_in)
        on_crown = one.joint.side == "" and gap < SLIGHT_IN
        if not on_crown and gap < clear - SLIGHT_IN:
            frame.refusals.append(Refusal(
                "crown-crowded", "The {name} at {code} is {gap} from the crown: {clear} or more would do.",
                {"name": _name(frame, one), "code": one.joint.code, "gap": inches_only(gap) + " in.",
                 "clear": inches_only(clear) + " in."}, "stations",
            ))


def _seams(frame: Frame, taken: list[Taken]) -> None:
    for place in seam_places(frame):
        if place.seam.may_be_covered:
            continue
        for one in taken:
            if one.low_in + SLIGHT_IN < place.total_in < one.high_in - SLIGHT_IN:
                frame.warnings.append(Said("The {name} at {code} covers the seam of its hoop.",
                                           {"name": _name(frame, one), "code": one.joint.code}))


def _name(frame: Frame, taken: Taken) -> str:
    return frame.family.fittings[taken.joint.fitting].name


def _least(overlap: float) -> str:
    """An overlap rounded up, so that moving by the figure is enough."""
    return inches_only(math.ceil(overlap * 16) / 16) + " in."
