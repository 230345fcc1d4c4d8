"""Webs: the tubes from a tie up to its hoop, one on each side, from hole to hole."""

from __future__ import annotations

from structures.frame.build.chains import MATCH_IN
from structures.frame.build.frame import LETTER, SIDES, Frame
from structures.frame.build.landing import distance
from structures.frame.build.purlins import section_at
from structures.frame.build.tails import flat_of
from structures.frame.document import Joint, Member, Point, Tie
from structures.frame.family import Part, TieSet, Web


def put_webs(frame: Frame, ties: TieSet, tie: Tie) -> None:
    """Add the webs of one tie with their bands, or refuse what can't be."""
    for web in ties.webs:
        if frame.has(web.option):
            for side in SIDES:
                _put(frame, web, tie, side)


def take_webs(frame: Frame, tie: Tie) -> None:
    """Take a tie's webs and their bands out of the frame again."""
    webs = {joint.holds[0] for joint in frame.joints if joint.station == "web" and tie.id in joint.holds}
    bands = [joint.id for joint in frame.joints if joint.holds and joint.holds[0] in webs]
    frame.joints[:] = [joint for joint in frame.joints if joint.id not in bands]
    frame.members[:] = [member for member in frame.members if member.id not in webs]
    for ident in sorted((*webs, *bands), reverse=True):
        frame.release(ident)


def _put(frame: Frame, web: Web, tie: Tie, side: str) -> None:
    low, high = _holes(frame, web, tie, side)
    part = _part(frame, web, distance(low, high))
    if part is None:
        return
    hoop, s = tie.hoop, frame.family.stations[web.station].from_foot_in
    code = f"H{hoop}{LETTER[side]}-web"
    ident = frame.place(code, "web")
    fitting = frame.family.fittings[web.tie_fitting]
    on_tie = (low[0], low[1], tie.landing_from.hole[2])
    frame.joints.append(Joint(frame.place(code, fitting.kind), code, fitting.kind, web.tie_fitting, on_tie, hoop, side, "web", None,
                              (ident, tie.id), web.option))
    on_hoop = frame.join(web.hoop_fitting, hoop, side, web.station, s, (ident, section_at(frame, hoop, side, s)), web.option)
    frame.members.append(Member(
        ident, web.role, part.number, code, on_hoop.code, part.length_in or distance(low, high), low, high,
        frame.family.tubes[part.tube].radius_in, web.option, None, None, None, flat_of(frame, web, part)))


def _holes(frame: Frame, web: Web, tie: Tie, side: str) -> tuple[Point, Point]:
    """The hole above the tie, and the one inward of the hoop, both in the hoop's plane."""
    on_tie = frame.family.fittings[web.tie_fitting].hole_offset_in or 0.0
    on_hoop = frame.family.fittings[web.hoop_fitting].hole_offset_in or 0.0
    y = frame.y(tie.hoop)
    low = (-web.from_middle_in if side == "left" else web.from_middle_in), y, tie.landing_from.hole[2] + on_tie
    return low, frame.point(side, frame.family.stations[web.station].from_foot_in, y, on_hoop)


def _part(frame: Frame, web: Web, computed_in: float) -> Part | None:
    """The part of the web's role, which must be made as long as its holes lie apart."""
    fits = [part for part in frame.family.parts.values()
            if part.role == web.role and part.spacing_in in (None, frame.spacing_in)]
    if not fits:
        frame.refuse("no-part", "No part of {family} has the role {role!r}: add one to its [[parts]].", "family",
                     family=frame.family.code, role=web.role)
        return None
    part = min(fits, key=lambda one: abs((one.length_in or computed_in) - computed_in))
    if part.length_in is not None and abs(part.length_in - computed_in) > MATCH_IN:
        frame.refuse("length-differs", "Web {part} is made {made_in} long but from the tie to {station} the frame needs "
                     "{computed_in}: they must match within 1/8 in.", "family", part=part.number, made_in=part.length_in,
                     station=web.station, computed_in=computed_in)
        return None
    return part
