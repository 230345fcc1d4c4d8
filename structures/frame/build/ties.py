"""Collar ties across hoops: placed by station, or by made length and then the station is solved."""

from __future__ import annotations

from functools import lru_cache

from structures.frame.build.chains import MATCH_IN
from structures.frame.build.frame import SIDES, Frame
from structures.frame.build.purlins import section_at
from structures.frame.build.tails import flat_of
from structures.frame.build.webs import put_webs
from structures.frame.document import Landing, Tie
from structures.frame.family import Part, TieSet
from structures.frame.profile import Profile

SAMPLES = 32         # of the tube, to find where the hoop is widest
HALVINGS = 48        # leave a millionth of a millionth of the tube


def build_ties(frame: Frame) -> None:
    """Put in every tie that this configuration has, or refuse with what would do."""
    for ties in frame.family.ties:
        if not frame.has(ties.option):
            continue
        part = _part(frame, ties)
        s = place_tie(frame, ties, part) if part else None
        if part and s is not None:
            for hoop in tied_hoops(frame, ties):
                put_in(frame, ties, part, hoop, s)


def tied_hoops(frame: Frame, ties: TieSet) -> list[int]:
    """The numbers of the hoops that get one."""
    inner = range(2, frame.hoops)
    if ties.hoops == "even inner":
        return [hoop for hoop in inner if hoop % 2 == 0]
    if ties.hoops == "odd inner":
        return [hoop for hoop in inner if hoop % 2]
    if ties.hoops == "inner":
        return list(inner)
    walls = [frame.family.end_walls[end] for end in frame.configuration.ends]
    return [hoop for hoop in range(1, frame.hoops + 1)
            if not (hoop == 1 and walls[0].takes_tie) and not (hoop == frame.hoops and walls[1].takes_tie)]


def _part(frame: Frame, ties: TieSet) -> Part | None:
    for part in frame.family.parts.values():
        if part.role == ties.role and part.spacing_in in (None, frame.spacing_in):
            return part
    frame.refuse("no-part", "No part of {family} has the role {role!r}: add one to its [[parts]].", "family",
                 family=frame.family.code, role=ties.role)
    return None


def _span(profile: Profile, offset: float, s: float) -> float:
    """Hole to hole across the hoop: each hole lies square to the tube and `offset` inward of it."""
    return 2 * (profile.point(s)[0] - offset * profile.normal(s)[0])


def _offset(frame: Frame, ties: TieSet) -> float:
    return frame.family.fittings[ties.fitting].hole_offset_in or 0.0


def place_tie(frame: Frame, ties: TieSet, part: Part) -> float | None:
    """The station of the tie, in inches from the foot."""
    if ties.station:
        s = frame.family.stations[ties.station].from_foot_in
        span = _span(frame.profile, _offset(frame, ties), s)
        if part.length_in is not None and abs(span - part.length_in) > MATCH_IN:
            frame.refuse("length-differs", "Tie {part} is made {made_in} long but at {station} the hoop needs "
                         "{computed_in}: they must match within 1/8 in.", "family", part=part.number,
                         made_in=part.length_in, station=ties.station, computed_in=span)
            return None
        return s
    return _solve(frame, ties, part)


def _solve(frame: Frame, ties: TieSet, part: Part) -> float | None:
    """The highest station whose span is the made length."""
    made = part.length_in or 0.0
    s, longest = _highest(frame.profile, _offset(frame, ties), made)
    if s is None:
        frame.refuse("tie-too-long", "Tie {part} of {made_in} is longer than the hoop is wide between its holes: "
                     "{longest_in} at most would do.", "family", part=part.number, made_in=made, longest_in=longest)
    return s


@lru_cache(maxsize=64)
def _highest(profile: Profile, offset: float, made: float) -> tuple[float | None, float]:
    """The highest place where a tie is that long, found by halving from the widest place up to the ridge, and how long one may
    be there. It is kept, for every structure of a family asks for the same."""
    low = max((i * profile.half_in / SAMPLES for i in range(SAMPLES)), key=lambda s: _span(profile, offset, s))
    longest = _span(profile, offset, low)
    if made > longest:
        return None, longest
    high = profile.half_in - 1e-9
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if _span(profile, offset, middle) > made:
            low = middle
        else:
            high = middle
    return (low + high) / 2, longest


def put_in(frame: Frame, ties: TieSet, part: Part, hoop: int, s: float) -> None:
    """Add one tie, its two bands and its webs to the frame."""
    offset = _offset(frame, ties)
    code = frame.code(hoop, "", "tie")
    ident = frame.place(code, "tie")
    y = frame.y(hoop)
    landings = []
    for side in SIDES:
        holds = (ident, section_at(frame, hoop, side, s))
        joint = frame.join(ties.fitting, hoop, side, "tie", s, holds, ties.option)
        landings.append(Landing(joint.code, joint.id, hoop, side, "tie", s, s, s, True,
                                frame.point(side, s, y, offset)))
    span = _span(frame.profile, offset, s)
    frame.ties.append(Tie(ident, ties.role, ties.option, part.number, landings[0].code, landings[1].code,
                          part.length_in or span, hoop, s, frame.half_in - s, landings[0], landings[1],
                          flat=flat_of(frame, ties, part)))
    put_webs(frame, ties, frame.ties[-1])
