"""The hoops put up, in the family's way: joined on the ground and raised whole, or the side sections stood first."""

from __future__ import annotations

from collections.abc import Iterator

from structures.frame.document import Joint, Member, Piece
from structures.frame.said import Said
from structures.frame.sequence import cautions
from structures.frame.sequence.act import Act, Site, Told
from structures.frame.sequence.ground import is_ground, on_what
from structures.frame.sequence.words import hoops_said, joints_said, listed, parts_said
from structures.frame.spacers import spacers

FEET = ("shoe", "wheel")


def sections(site: Site) -> list[Member]:
    """Every hoop section, hoop by hoop."""
    return [member for member in site.frame.members if member.role == "section"]


def is_whole(site: Site) -> bool:
    """Whether whole hoops are raised. A hoop in one section can be put up in no other way."""
    hoop = site.frame.family.hoop
    return hoop.put_up == "whole" or len(hoop.sections) == 1


def is_side(section: Member) -> bool:
    """Whether a section stands on the ground: one of its ends is a foot."""
    return section.from_.endswith("-foot") or section.to.endswith("-foot")


def hoop_acts(site: Site) -> Iterator[Act]:
    """Put up every hoop."""
    yield from _whole(site) if is_whole(site) else _sides_first(site)


def standing(site: Site) -> str:
    """The key of the act after which every hoop stands whole."""
    if is_whole(site):
        return "raise"
    return "roof sections" if any(not is_side(section) for section in sections(site)) else "side sections"


def _slide(site: Site, key: str, stage: str, on: list[Member], before: str) -> Iterator[Act]:
    """Bands that only slip over an end go on while that end is still free."""
    idents = {section.id for section in on}
    bands = [joint for joint in site.frame.joints
             if joint.id in site.slides and idents.intersection(joint.holds)]
    if bands:
        yield Act(key, stage, lambda act: _tell_slide(site, act, before), joints=bands, after=("marks",), puts_in="slipped-on bands")


def _tell_slide(site: Site, act: Act, before: str) -> Told:
    places = [joint.code for joint in act.joints]
    shown = listed(places) if len(places) <= 8 else f"{', '.join(places[:6])} and so on to {places[-1]}"
    return Told(
        Said("Slide on {bands}, to their marks and finger-tight: {places}.",
             {"bands": joints_said(site.frame.family, act.joints), "places": shown}),
        Said("They only go on over an end, so they must be on before {before}.", {"before": before}),
    )


def _feet(site: Site) -> list[Joint]:
    """What holds a section's foot to what it stands in or on, and what is put under it."""
    return [joint for joint in site.frame.joints
            if joint.id not in site.slides and site.sections(joint)
            and (joint.kind in FEET or any(is_ground(piece) for piece in site.on(joint)))]


def _whole(site: Site) -> Iterator[Act]:
    every = sections(site)
    joined = len(site.frame.family.hoop.sections) > 1
    yield from _slide(site, "slide", "hoops", every, "the sections are joined" if joined else "the hoops are raised")
    if joined:
        yield Act("join", "hoops", lambda act: _tell_join(site, act), [*every], after=("marks", "slide"))
    pieces: list[Piece] = [] if joined else [*every]
    yield Act("raise", "hoops", lambda act: _tell_raise(site, act), pieces, _feet(site),
              after=("marks", "layout", "corner posts", "posts", "runners", "slide", "join", "like:ties "),
              puts_in=hoops_said(range(1, site.frame.hoops + 1)))


def _tell_join(site: Site, act: Act) -> Told:
    frame = site.frame
    seams = joints_said(frame.family, act.joints)
    return Told(
        Said("Join the sections of {hoops} on the ground, {parts}, swaged end into plain end{seams}.",
             {"hoops": hoops_said(range(1, frame.hoops + 1)), "parts": parts_said(frame.family, [p.part for p in act.pieces]),
              "seams": f"; {seams}, each right after its joint" if seams else ""}),
        Said("Flat on the ground a hoop joins straight, and its marks can be checked on both legs."),
    )


def _tell_raise(site: Site, act: Act) -> Told:
    frame = site.frame
    feet = joints_said(frame.family, act.joints)
    return Told(
        Said("Raise {hoops} in turn and stand them {on}{feet}. A spacer board of {clear_gap_in} holds each gap.",
             {"hoops": hoops_said(range(1, frame.hoops + 1)), "on": on_what(site), "feet": f"; {feet}, nuts loose" if feet else "",
              "clear_gap_in": _gap(site)}),
        Said("With its foot loose a hoop can still be pulled to its mark on the ridge purlin."),
        (cautions.OVERHEAD, *cautions.crowd(frame.family.shape.width_in), cautions.NO_CLIMBING),
    )


def _gap(site: Site) -> float:
    return spacers(site.frame.hoops, site.frame.spacing_in, 2 * site.frame.hoop_radius_in).clear_gap_in


def _sides_first(site: Site) -> Iterator[Act]:
    every = sections(site)
    side: list[Member] = [section for section in every if is_side(section)]
    roof: list[Member] = [section for section in every if not is_side(section)]
    hoops = hoops_said(range(1, site.frame.hoops + 1))
    yield from _slide(site, "slide", "side sections", side, "the side sections are stood")
    yield Act("side sections", "side sections", lambda act: _tell_sides(site, act), [*side],
              after=("marks", "layout", "slide"), puts_in=f"side sections of {hoops}")
    if roof:
        yield from _slide(site, "slide roof", "roof sections", roof, "the roof sections are joined to the sides")
        yield Act("roof sections", "roof sections", lambda act: _tell_roof(site, act), [*roof],
                  after=("side sections", "slide roof"), puts_in=f"roof sections of {hoops}")


def _tell_sides(site: Site, act: Act) -> Told:
    frame = site.frame
    said = joints_said(frame.family, act.joints)
    return Told(
        Said("Stand the side sections of {hoops}, left and right, {on}: {parts}{up}{said}. A spacer board of "
             "{clear_gap_in} holds each gap.",
             {"hoops": hoops_said(range(1, frame.hoops + 1)), "on": on_what(site), "said": f"; {said}, nuts loose" if said else "",
              "parts": parts_said(frame.family, [p.part for p in act.pieces]), "clear_gap_in": _gap(site),
              "up": ", swaged ends up" if all(seam.swaged == "lower" for seam in frame.family.hoop.seams) else ""}),
        Said("This family stands its sides first; the roof sections are joined to them where they stand."),
        (cautions.OVERHEAD,),
    )


def _tell_roof(site: Site, act: Act) -> Told:
    frame = site.frame
    seams = joints_said(frame.family, act.joints)
    return Told(
        Said("Set the roof sections on {hoops}: {parts}, {ends}{seams}.",
             {"hoops": hoops_said(range(1, frame.hoops + 1)), "parts": parts_said(frame.family, [p.part for p in act.pieces]),
              "ends": "swaged ends into plain ends", "seams": f"; {seams}, each right after its joint" if seams else ""}),
        Said("Both sides of a hoop stand, so its roof section has two ends to go to."),
        (cautions.OVERHEAD, *cautions.high(act.joints), cautions.WONT_MEET),
    )
