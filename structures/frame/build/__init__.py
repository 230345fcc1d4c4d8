"""Build a frame: hoops, purlins, braces, ties, end walls, skin, then the checks that need all of it."""

from __future__ import annotations

from structures.frame.build.bases import build_base, check_lowest
from structures.frame.build.braces import build_braces
from structures.frame.build.ends import build_ends
from structures.frame.build.fixtures import build_fixtures
from structures.frame.build.frame import Footage, Frame
from structures.frame.build.gaps import measure_gaps
from structures.frame.build.hoops import build_hoops
from structures.frame.build.oneoffs import apply_one_offs
from structures.frame.build.purlins import build_purlins
from structures.frame.build.reach import measure_reach
from structures.frame.build.room import check_room
from structures.frame.build.skin import build_skin
from structures.frame.build.tails import warn_of_tails
from structures.frame.build.ties import build_ties
from structures.frame.family import Configuration, Family
from structures.frame.profile import Profile
from structures.frame.refusal import Refused

__all__ = ["Footage", "Frame", "build_frame", "family_profile", "put_together"]


def family_profile(family: Family) -> Profile:
    """Half a hoop of the family."""
    return Profile.chain(family.shape.width_in / 2, family.shape.segments, family.shape.lean_deg)


def build_frame(family: Family, configuration: Configuration) -> Frame:
    """The frame of one configuration. Raises `Refused` with everything in it that can't stand so."""
    frame = put_together(family, configuration)
    check_lowest(frame)
    if not frame.refusals:
        measure_reach(frame)
        warn_of_tails(frame)
        check_room(frame)
        measure_gaps(frame)
    if frame.refusals:
        raise Refused({str(refusal): refusal for refusal in frame.refusals}.values())
    return frame


def put_together(family: Family, configuration: Configuration) -> Frame:
    """All pieces, joints and panels of one configuration at their places, before anything is checked that needs all of it.

    What has no place by itself is in the frame's refusals.
    """
    hoops = round(configuration.length_in / configuration.spacing_in) + 1
    frame = Frame(family, configuration, family_profile(family), hoops)
    build_hoops(frame)
    build_base(frame)
    build_purlins(frame)
    build_braces(frame)
    build_ties(frame)
    build_ends(frame)
    build_skin(frame)
    build_fixtures(frame)
    apply_one_offs(frame)
    return frame
