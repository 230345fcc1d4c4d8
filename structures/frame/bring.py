"""What the customer must bring: the tools, timber and boards that this structure is built with and that no package holds."""

from __future__ import annotations

import math
from collections.abc import Iterator

from structures.frame.build import Frame
from structures.frame.family import Strip
from structures.frame.said import Said
from structures.frame.sequence.act import Site
from structures.frame.sequence.braces import HANG, place
from structures.frame.sequence.cautions import LADDER_OVER_IN
from structures.frame.sequence.skin import SAWN_IN
from structures.frame.sequence.words import counted, listed
from structures.frame.spacers import spacers

LAID = ("runner", "roll-pipe")


def make_bring(frame: Frame) -> tuple[Said, ...]:
    """One saying for each thing, only what this structure needs."""
    return (*_setting_out(frame), *_timber(frame), *_boards(frame), *_tools(frame), *_by_hand(frame), *_sawing(frame), *_ladder(frame))


def _setting_out(frame: Frame) -> Iterator[Said]:
    boards = spacers(frame.hoops, frame.spacing_in, 2 * frame.hoop_radius_in)
    if boards.count:
        yield Said("{count} spacer boards, each cut to {clear_gap_in}: the spacing less the hoop's diameter.",
                   {"count": boards.count, "clear_gap_in": boards.clear_gap_in})
    wide = frame.family.shape.width_in
    yield Said("String for the outline, {around_in} and some to tie.", {"around_in": 2 * (frame.length_in + wide)})
    yield Said("A tape longer than the diagonal, {diagonal_in}.", {"diagonal_in": math.hypot(frame.length_in, wide)})
    yield Said("A level and a plumb line.")
    yield Said("A marker that writes on galvanised tube.")
    if any(member.role == "post" for member in frame.members):
        yield Said("A sledge or driver with a drive cap that fits the posts.")


def _timber(frame: Frame) -> Iterator[Said]:
    """Timber of each end wall in the family's own words, with how many uprights it has."""
    for end, code in zip(("tag", "far"), frame.configuration.ends, strict=True):
        wall = frame.family.end_walls[code]
        uprights = sum(2 if distance else 1 for distance in wall.uprights_in)
        if wall.timber:
            yield Said("For the {end} end, {uprights} uprights: {timber}.", {"end": end, "uprights": uprights, "timber": wall.timber})
        if wall.door and not wall.door.fitting:
            yield Said("A door for the {end} end, its opening {wide_in} wide and {high_in} high.",
                       {"end": end, "wide_in": wall.door.width_in, "high_in": wall.door.height_in})


def _boards(frame: Frame) -> Iterator[Said]:
    """Boards that the family knows and this order has not: then they are the customer's own."""
    for strip in frame.family.strips:
        if _is_board(frame, strip) and not frame.has(strip.option):
            yield Said("A {name} along both sides, {length_in} each, the customer's own in this order: fixed once the frame is tight.",
                       {"name": strip.name, "length_in": frame.length_in})


def _is_board(frame: Frame, strip: Strip) -> bool:
    return strip.run == "sides" and "board" in (strip.role, frame.part(strip.part).role)


def _tools(frame: Frame) -> Iterator[Said]:
    """What this kit's own hardware is driven with, each tool once with the parts that it is for."""
    used = {joint.fitting for joint in frame.joints} | {footage.fixing for footage in frame.footages if footage.fixing}
    numbers = {number for code in used for number, _ in frame.family.fittings[code].parts}
    tools: dict[str, list[str]] = {}
    for part in frame.family.parts.values():
        if part.number in numbers and part.tool:
            tools.setdefault(part.tool, []).append(part.name)
    for tool, names in tools.items():
        yield Said("{tool}, for: {names}.", {"tool": tool[:1].upper() + tool[1:], "names": ", ".join(dict.fromkeys(names))})


def _by_hand(frame: Frame) -> Iterator[Said]:
    if any(joint.kind in ("band", "connector") for joint in frame.joints):
        yield Said("Pliers, to hold the ears of bands and connectors together.")
    site = Site(frame)
    hung = sum(place(site, brace).how == HANG for brace in frame.braces)
    if hung:
        yield Said("Cord, to tie up the loose end of each hung brace ({hung}).", {"hung": hung})


def _sawing(frame: Frame) -> Iterator[Said]:
    """What is sawn of galvanised tube: the last stick of each run, and of each runner or pipe that is laid by sticks."""
    sawn = [cut.part for cut in frame.cuts if cut.offcut_in > SAWN_IN]
    for member in frame.members:
        part = frame.part(member.part)
        if member.role in LAID and part.tube and member.length_in < (part.length_in or 0.0) - SAWN_IN:
            sawn.append(part.number)
    if sawn:
        yield Said("A saw and a file, for {cuts} in {parts} tube, and zinc-rich paint for the cut ends.",
                   {"cuts": counted(len(sawn), "cut"), "parts": listed(list(dict.fromkeys(sawn)))})


def _ladder(frame: Frame) -> Iterator[Said]:
    high = max((joint.at[2] for joint in frame.joints), default=0.0)
    if high > LADDER_OVER_IN:
        yield Said("A ladder: the highest joint lies {high_in} above the ground line.", {"high_in": high})
