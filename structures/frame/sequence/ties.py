"""Ties and what hangs from them: on the ground where whole hoops are raised, else once the purlins hold the hoops."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from structures.frame.document import Piece, Tie
from structures.frame.said import Said
from structures.frame.sequence import cautions
from structures.frame.sequence.act import Act, Site, Told
from structures.frame.sequence.hoops import is_side, is_whole
from structures.frame.sequence.words import hoops_said, joints_said, parts_said, plural, role_word


def tie_acts(site: Site) -> Iterator[Act]:
    """One act for the ties of each option, and one for the webs or whatever else is joined to them."""
    alike: dict[tuple[str, str], list[Tie]] = defaultdict(list)
    for tie in site.frame.ties:
        alike[tie.option, tie.part].append(tie)
    ground = is_whole(site)
    for (option, part), ties in alike.items():
        yield _act(site, f"ties {option} {part}", [*ties], ground)
    webs: dict[str, list[Piece]] = defaultdict(list)
    for piece in hung_on_ties(site):
        webs[piece.role].append(piece)
    for role, pieces in webs.items():
        yield _act(site, f"ties {role}", pieces, ground)


def hung_on_ties(site: Site) -> list[Piece]:
    """The members that are joined to a tie: its webs."""
    ties = {tie.id for tie in site.frame.ties}
    found = [piece for tie in site.frame.ties for joint in site.held.get(tie.id, ()) for piece in site.on(joint)
             if piece.id not in ties and piece.role != "section"]
    return list({piece.id: piece for piece in found}.values())


def _act(site: Site, key: str, pieces: list[Piece], ground: bool) -> Act:
    name = plural(role_word(pieces[0].role))
    how = "fit now" if ground or _on_sides(site, pieces) else "wait"
    return Act(key, "hoops" if ground else "ties", lambda act: _tell(site, act, ground), pieces, [], how,
               ("join",) if ground else ("stage:ridge", "stage:side purlins"), name)


def _on_sides(site: Site, pieces: list[Piece]) -> bool:
    return all(is_side(section) for joint in site.joints(pieces) for section in site.sections(joint))


def _tell(site: Site, act: Act, ground: bool) -> Told:
    frame = site.frame
    hoops = sorted({joint.hoop for joint in site.joints(act.pieces) if joint.hoop is not None})
    values = {"names": plural(role_word(act.pieces[0].role)), "hoops": hoops_said(hoops),
              "parts": parts_said(frame.family, [piece.part for piece in act.pieces]),
              "joints": joints_said(frame.family, act.joints) or "the bands are on already"}
    if ground:
        return Told(Said("Bolt the {names} to {hoops} while they lie on the ground: {parts}; {joints}.", values),
                    Said("The whole hoop is there, so they go in at hand height and keep it from spreading when it is raised."))
    return Told(Said("Bolt the {names} to {hoops}, finger-tight: {parts}; {joints}.", values),
                Said("Their hoops are whole now, and the purlins hold them to their spacing."),
                (*cautions.high(site.joints(act.pieces)), cautions.WONT_MEET))
