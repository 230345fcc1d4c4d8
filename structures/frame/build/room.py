"""Room along the tube: every fitting has a width, and no two may lie on one another."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from structures.frame.build.frame import Frame
from structures.frame.build.hoops import posts_reach_up, seam_places
from structures.frame.document import Joint
from structures.frame.lengths import inches_only
from structures.frame.refusal import Refusal
from structures.frame.said import Said

SLIGHT_IN = 1e-6
UNEQUAL_IN = 1 / 16


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
    """Refuse fittings that overlap or crowd the crown, warn of those that cover a seam or lie on a post round the leg; once for each
    kind of hoop."""
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
            crowding = _ridge(frame, taken)
            _overlaps(frame, taken, crowding)
            _crown(frame, taken, crowding)
            _posts(frame, taken)
            _seams(frame, taken)


def _taken(frame: Frame, joints: list[Joint]) -> Iterator[Taken]:
    whole = 2 * frame.half_in
    for joint in joints:
        width = frame.family.fittings[joint.fitting].width_in
        if width and joint.from_foot_in is not None:
            centre = whole - joint.from_foot_in if joint.side == "right" else joint.from_foot_in
            yield Taken(centre, width, joint)


def _ridge(frame: Frame, taken: list[Taken]) -> set[str]:
    """Bands next to the ridge connector are set first, equally far out on both sides, with room for it between.

    Refuses a place that leaves none, with the room needed; warns of two that are set unequally. Gives the joints that crowd
    it, so that nothing more is said of them.
    """
    crowding: set[str] = set()
    by_mark = {landing.joint for brace in frame.braces for landing in (brace.landing_from, brace.landing_to) if landing.set}
    for below, ridge, above in zip(taken, taken[1:], taken[2:], strict=False):
        if ridge.joint.side or not below.joint.side or not above.joint.side:
            continue
        gaps = {beside: abs(beside.centre_in - ridge.centre_in) for beside in (below, above)}
        needed = max((ridge.width_in + max(below.width_in, above.width_in)) / 2, frame.family.crown_clear_in)
        near = [beside for beside, gap in gaps.items() if gap < needed - SLIGHT_IN]
        if near:
            crowding |= {ridge.joint.id, *(beside.joint.id for beside in near)}
            _refuse_ridge(frame, ridge, near, min(gaps.values()), needed)
        elif {below.joint.id, above.joint.id} <= by_mark and abs(gaps[below] - gaps[above]) > UNEQUAL_IN:
            frame.warnings.append(Said(
                "The {name} at {left} lies {left_in} from the ridge and the one at {right} {right_in}: set both first, equally "
                "far out.", {"name": _name(frame, below), "left": below.joint.code, "left_in": gaps[below],
                             "right": above.joint.code, "right_in": gaps[above]}))
    return crowding


def _refuse_ridge(frame: Frame, ridge: Taken, near: list[Taken], gap: float, needed: float) -> None:
    """Say how far the nearer band lies from the ridge and how far it must, rounded so that the figure is enough."""
    frame.refusals.append(Refusal(
        "ridge-no-room",
        "The {name} at {places} lies {gap_in} from the ridge and leaves no room for the {ridge}: {needed_in} or more, equally "
        "far left and right, would do.",
        {"name": _name(frame, near[0]), "places": " and ".join(beside.joint.code for beside in near),
         "gap_in": math.floor(gap * 16) / 16, "ridge": _name(frame, ridge), "needed_in": math.ceil(needed * 16 - SLIGHT_IN) / 16},
        "stations",
    ))


def _overlaps(frame: Frame, taken: list[Taken], crowding: set[str]) -> None:
    for below, above in itertools.pairwise(taken):
        overlap = below.high_in - above.low_in
        if overlap > SLIGHT_IN and not {below.joint.id, above.joint.id} <= crowding:
            frame.refusals.append(Refusal(
                "bands-overlap",
                "The {below} at {below_at} and the {above} at {above_at} overlap by {overlap}: move one of their "
                "stations at least that far.",
                {"below": _name(frame, below), "below_at": below.joint.code, "above": _name(frame, above),
                 "above_at": above.joint.code, "overlap": _least(overlap)}, "stations",
            ))


def _crown(frame: Frame, taken: list[Taken], crowding: set[str]) -> None:
    """At a ridge that is a bend, only the ridge connector may sit on the crown."""
    clear = frame.family.crown_clear_in
    for one in taken:
        gap = abs(one.centre_in - frame.half_in)
        on_crown = one.joint.side == "" and gap < SLIGHT_IN
        if not on_crown and gap < clear - SLIGHT_IN and one.joint.id not in crowding:
            frame.refusals.append(Refusal(
                "crown-crowded", "The {name} at {code} is {gap} from the crown: {clear} or more would do.",
                {"name": _name(frame, one), "code": one.joint.code, "gap": inches_only(gap) + " in.",
                 "clear": inches_only(clear) + " in."}, "stations",
            ))


def _posts(frame: Frame, taken: list[Taken]) -> None:
    """A ground post that stands round the leg leaves a band no room on it; the foot bolt goes through both."""
    up = posts_reach_up(frame)
    for one in taken:
        from_foot, half = one.joint.from_foot_in or 0.0, one.width_in / 2
        through = any(ident.split(":")[1] == "post" for ident in one.joint.holds)
        if from_foot - half < up - SLIGHT_IN and not through:
            frame.warnings.append(Said(
                "The {name} at {code} lies {at_in} up its hoop, where the ground post stands round the leg up to {up_in}: {least_in} or "
                "more would clear it.",
                {"name": _name(frame, one), "code": one.joint.code, "at_in": math.floor(from_foot * 16) / 16, "up_in": up,
                 "least_in": math.ceil((up + half) * 16 - SLIGHT_IN) / 16}))


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
