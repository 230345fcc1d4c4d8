"""What follows once the frame stands: squaring, tightening, and all that closes it, in the trade's order."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from functools import partial

from structures.frame.document import Joint, Piece
from structures.frame.said import Said, together
from structures.frame.sequence import cautions
from structures.frame.sequence.act import Act, Site, Told
from structures.frame.sequence.words import counted, joints_said, listed, parts_said, plural, role_word

# A joint of one of these kinds is put in at its own time, and not with the piece that it sits on.
STAGE_OF_KIND = {"anchor": "anchors", "crank": "roll-up", "rope": "roll-up", "door": "doors", "blower": "blower"}
FRAME = ("stage:ridge", "stage:side purlins", "stage:ties", "stage:braces before the roof", "stage:hung braces",
         "stage:side braces", "stage:roof braces", "stage:roof sections", "stage:hoops", "stage:side sections")
WHY = {
    "anchors": "They hold the frame down before the film gives the wind something to lift.",
    "fittings": "The frame stands tight, so every place that they go to is there.",
    "roll-up": "The film's free edges are there, and they are held from billowing at once.",
    "doors": "The frame and its film pull no more, so a door hangs true.",
    "blower": "Both films are held on all sides, so air can be let in between.",
}


def later_acts(site: Site, taken: set[str]) -> Iterator[Act]:
    """Everything after the purlins, ties and braces. `taken` are the pieces that other acts put in already."""
    yield Act("square", "square", lambda act: _square(site), after=("stage:ridge", "stage:side purlins", "raise", "roof sections"))
    yield Act("tighten", "tighten", lambda act: _tighten(site), after=("square", *FRAME))
    yield from _walls(site)
    yield from _others(site, taken)
    yield from _fixtures(site)
    yield from _first_times(site)


def _square(site: Site) -> Told:
    last = site.frame.hoops
    return Told(
        Said("Square and plumb hoop 1 and hoop {last}: both diagonals of the plan alike, a plumb line from the crown over the middle "
             "between the feet. Sight along the ridge.", {"last": last}),
        Said("Braces hold the frame as it stands, straight or leaning."),
    )


def _tighten(site: Site) -> Told:
    feet = joints_said(site.frame.family, [joint for joint in site.frame.joints if joint.kind == "bolt" and joint.station == "foot"])
    return Told(
        Said("Sight along the row, then tighten every band, connector and bolt from the tag end to the far end, hoop by hoop{feet}.",
             {"feet": f", with the {feet}" if feet else ""}),
        Said("Tightened from one end once all is in, nothing is locked before its neighbour has found its place."),
        (cautions.BENT, *cautions.high(site.frame.joints)),
    )


def _walls(site: Site) -> Iterator[Act]:
    """Each end wall's uprights with their brackets."""
    for end, hoop in ((1, 1), (2, site.frame.hoops)):
        joints = [joint for joint in site.frame.joints
                  if joint.code.startswith(f"E{end}-") and joint.kind not in STAGE_OF_KIND and not site.on(joint)]
        if joints:
            yield Act(f"wall {end}", "end walls", partial(_wall, site, end, hoop), joints=joints,
                      after=("tighten",), puts_in="end walls")


def _wall(site: Site, end: int, hoop: int, act: Act) -> Told:
    wall = site.frame.family.end_walls[site.frame.configuration.ends[end - 1]]
    distances = sorted({*wall.uprights_in}, reverse=True)
    timber = f" ({wall.timber})" if wall.timber else ""
    apart = together([Said("{apart_in}", {"apart_in": distance}) for distance in distances], " and ")
    head = Said("Set the uprights of the {name} at hoop {hoop}, ", {"name": wall.name, "hoop": hoop})
    door = Said("")
    if wall.door:
        door = Said(", with a door opening {wide_in} wide and {high_in} high",
                    {"wide_in": wall.door.width_in, "high_in": wall.door.height_in})
    tail = Said("{timber}: {joints}.", {"timber": timber, "joints": joints_said(site.frame.family, act.joints)})
    return Told(
        together([head, apart, Said(" from the middle on both sides"), door, tail], ""),
        Said("The end hoop is square, plumb and tight, so the wall is built to a hoop that stays where it is."),
        (cautions.BURIED, *cautions.high(act.joints), cautions.WHO_DECIDES),
    )


def _others(site: Site, taken: set[str]) -> Iterator[Act]:
    """Pieces of roles that nothing above knows, by role, once the frame is tight: what they are joined to is there."""
    roles: dict[str, list[Piece]] = defaultdict(list)
    for piece in site.frame.pieces():
        if piece.id not in taken:
            roles[piece.role].append(piece)
    for role, pieces in roles.items():
        yield Act(f"role {role}", "fittings", lambda act: _put(site, act), pieces, after=("tighten",),
                  puts_in=plural(role_word(role)))


def _put(site: Site, act: Act) -> Told:
    joints = joints_said(site.frame.family, act.joints)
    name = plural(role_word(act.pieces[0].role))
    return Told(
        Said("Fit the {name}: {parts}{joints}.",
             {"name": name, "parts": parts_said(site.frame.family, [piece.part for piece in act.pieces]),
              "joints": f"; {joints}" if joints else ""}),
        Said("What they are joined to stands."), cautions.high(act.joints),
    )


def _fixtures(site: Site) -> Iterator[Act]:
    """Joints with a time of their own, and those that hold no piece at all; each fitting set is one act."""
    groups: dict[tuple[str, str], list[Joint]] = defaultdict(list)
    for joint in site.frame.joints:
        stage = STAGE_OF_KIND.get(joint.kind)
        if stage is None and not site.on(joint) and not joint.code.startswith(("E1-", "E2-")):
            stage = "fittings"
        if stage and joint.id not in site.slides:
            groups[stage, joint.fitting].append(joint)
    for (stage, fitting), joints in groups.items():
        after = ("tighten",) if stage in ("anchors", "fittings") else ("tighten", "stage:film", "stage:end walls")
        yield Act(f"fixture {fitting}", stage, partial(_fix, site), joints=joints, after=after,
                  puts_in=plural(site.frame.family.fittings[fitting].name))


def _fix(site: Site, act: Act) -> Told:
    codes = list(dict.fromkeys(joint.code for joint in act.joints))
    shown = listed(codes) if len(codes) <= 6 else f"{', '.join(codes[:4])} and so on to {codes[-1]}"
    more = {"anchors": (cautions.BURIED, cautions.WHO_DECIDES), "blower": (cautions.MAINS,)}.get(act.stage, ())
    return Told(
        Said("Put in {joints} at {codes}.", {"joints": joints_said(site.frame.family, act.joints), "codes": shown}),
        Said(WHY[act.stage]), (*more, *cautions.high(act.joints)),
    )


def _first_times(site: Site) -> Iterator[Act]:
    yield Act("first blow", "later", lambda act: Told(
        Said("After the first blow: walk round, look at every joint and tighten what gave. Photograph the four corners."),
        Said("Bands and straps settle under their first load, and a photo of a good corner is the record of how it was built."),
        (cautions.LEAVE, cautions.BENT, *cautions.high(site.frame.joints)),
    ), after=("tighten",))
    count = sum(joint.kind in ("band", "connector", "bolt") for joint in site.frame.joints)
    yield Act("first month", "later", lambda act: Told(
        Said("After the first month: tighten all {count} again.", {"count": counted(count, "joint")}),
        Said("What has settled by then settles little more."),
        (cautions.LEAVE, cautions.BENT, *cautions.high(site.frame.joints)),
    ), after=("first blow",))
