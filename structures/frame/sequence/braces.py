"""Braces: what each piece needs decides whether it is fitted now, hung and tied, or waits."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from operator import attrgetter

from structures.frame.document import Brace, Joint, Landing
from structures.frame.said import Said, together
from structures.frame.sequence import cautions
from structures.frame.sequence.act import STAGES, Act, Site, Told
from structures.frame.sequence.hoops import is_side, is_whole
from structures.frame.sequence.words import joints_said, listed

NEAR_IN = 1.0        # two landings at one station lie this near to one another, butted or not
FIT, HANG, WAIT = "fit now", "hang and tie", "wait"


@dataclass(frozen=True, slots=True)
class Placed:
    """A brace with what decides its turn: `how`, and its landings in the order in which they are bolted."""

    brace: Brace
    how: str
    landings: tuple[Landing, ...]
    joints: tuple[Joint, ...]      # in the same order


def _roof(brace: Brace) -> bool:
    return brace.zone == "roof"


def _middle(brace: Brace) -> float:
    return (brace.landing_from.from_foot_in + brace.landing_to.from_foot_in) / 2


def _past_middle(site: Site, brace: Brace) -> bool:
    """Whether it belongs to the far one of the two chains that stand side by side at mid-length."""
    return brace.corner.startswith("mid") and max(brace.landing_from.hoop, brace.landing_to.hoop) > site.frame.hoops // 2 + 1


def place(site: Site, brace: Brace) -> Placed:
    """Decide a brace's turn from the sections that its bands lie on.

    A roof brace is set at the ridge first, so it can't hang from its lower end; every other piece hangs when only that end
    has its section. Else the end that is set by its mark, or follows from the piece before, is bolted first.
    """
    how = _how(site, brace)
    landings = sorted((brace.landing_from, *brace.passes, brace.landing_to), key=attrgetter("from_foot_in"), reverse=_roof(brace))
    first = brace.landing_to if brace.set_end == "to" else brace.landing_from
    if landings[-1].joint == first.joint and how != HANG and not _roof(brace):
        landings.reverse()
    by_id = {joint.id: joint for joint in site.held.get(brace.id, ())}
    at_landings = [by_id.pop(landing.joint) for landing in landings if landing.joint in by_id]
    joints = (*at_landings, *by_id.values())
    return Placed(brace, how, tuple(landings), joints)


def _how(site: Site, brace: Brace) -> str:
    if is_whole(site):
        return FIT
    joints = sorted(site.held.get(brace.id, ()), key=lambda joint: joint.from_foot_in or 0.0)
    stands = [all(is_side(section) for section in site.sections(joint)) for joint in joints]
    if _roof(brace) or not stands or not stands[0]:
        return WAIT
    return FIT if all(stands) else HANG


def brace_acts(site: Site) -> Iterator[Act]:
    """Every brace, a corner at a time; what can go in before the roof sections does, in a family that stands its sides first."""
    groups: dict[tuple[str, str], list[Placed]] = defaultdict(list)
    for brace in sorted(site.frame.braces, key=lambda brace: (_past_middle(site, brace), _middle(brace))):
        groups[brace.chain, brace.corner].append(place(site, brace))
    for placed in groups.values():
        if _from_above(site, placed):
            placed.reverse()
    if not is_whole(site):
        for (chain, corner), placed in groups.items():
            yield from _early(site, chain, corner, placed)
    yield from _late(site, groups)


def _from_above(site: Site, placed: list[Placed]) -> bool:
    """Whether a corner is built downward: a roof chain, or one whose set landing is its highest."""
    landings = [landing for one in placed for landing in one.landings]
    return _roof(placed[0].brace) or max(landings, key=attrgetter("from_foot_in")).set


def _early(site: Site, chain: str, corner: str, placed: list[Placed]) -> Iterator[Act]:
    """What goes in while only the sides stand, and the upper ends that follow the roof sections."""
    fit = [one for one in placed if one.how == FIT]
    hang = [one for one in placed if one.how == HANG]
    key = f"{chain} {corner}"
    if fit:
        yield _act(site, key, "braces before the roof", corner, fit, FIT, ("side sections",))
    if not hang:
        return
    lower = [joint for one in hang for joint in one.joints[:_reached(site, one)]]
    upper = [joint for one in hang for joint in one.joints[_reached(site, one):]]
    yield Act(f"{key} hung", "braces before the roof", lambda act: _tell_hang(site, act, corner, hang),
              [one.brace for one in hang], _opening(site, lower), HANG, ("side sections", key), _what(hang), True)
    yield Act(f"{key} upper", "hung braces", lambda act: _tell_upper(site, act, corner, hang), [], _opening(site, upper), WAIT,
              (f"{key} hung", "roof sections"), f"upper ends of {_what(hang)}")


def _reached(site: Site, one: Placed) -> int:
    """How many of its joints lie on sections that stand, from the lower end on."""
    stands = [all(is_side(section) for section in site.sections(joint)) for joint in one.joints]
    return stands.index(False)


def _opening(site: Site, joints: list[Joint]) -> list[Joint]:
    """The joints that are put in here: bands that slip on were put on before."""
    return [joint for joint in joints if joint.id not in site.slides]


def _late(site: Site, groups: dict[tuple[str, str], list[Placed]]) -> Iterator[Act]:
    """What is fitted once every hoop stands: roof braces by the pair at the ridge first, the rest by corners."""
    tops: dict[tuple[str, str], list[Placed]] = defaultdict(list)
    rest: dict[tuple[str, str], list[Placed]] = defaultdict(list)
    highest = _highest(groups)
    for (chain, corner), placed in groups.items():
        end = _end(corner)
        for one in placed:
            if is_whole(site) or one.how == WAIT:
                ridge = _roof(one.brace) and one.landings[0].from_foot_in > highest[chain, end] - NEAR_IN
                (tops[chain, end] if ridge else rest[chain, corner]).append(one)
    for (chain, end), placed in tops.items():
        sides = {one.brace.landing_from.side for one in placed}
        both = len(sides) == 2
        corner = f"{end}, left and right" if both else f"{end} {min(sides)}"
        yield _act(site, f"{chain} {end} ridge", _stage(placed), corner, placed, _late_how(site, placed), ("square",),
                   by_landing=both)
    for (chain, corner), placed in rest.items():
        after = ("square", f"{chain} {_end(corner)} ridge", f"{chain} {corner}")
        yield _act(site, f"{chain} {corner} late", _stage(placed), corner, placed, _late_how(site, placed), after)


def _end(corner: str) -> str:
    """The end of a corner: "tag" of "tag left"."""
    return corner.rpartition(" ")[0]


def _highest(groups: dict[tuple[str, str], list[Placed]]) -> dict[tuple[str, str], float]:
    """How far up the highest landing of each chain lies at each end, left or right."""
    found: dict[tuple[str, str], float] = defaultdict(float)
    for (chain, corner), placed in groups.items():
        for one in placed:
            top = max(landing.from_foot_in for landing in one.landings)
            found[chain, _end(corner)] = max(found[chain, _end(corner)], top)
    return found


def _late_how(site: Site, placed: list[Placed]) -> str:
    return FIT if is_whole(site) else placed[0].how


def _stage(placed: list[Placed]) -> str:
    stage = f"{placed[0].brace.zone} braces"
    return stage if stage in STAGES else "side braces"


def _act(
    site: Site, key: str, stage: str, corner: str, placed: list[Placed], how: str, after: tuple[str, ...], *,
    by_landing: bool = False,
) -> Act:
    """Whole pieces at a corner; `by_landing`: the first landing of each before the second of any, so that both sides match."""
    ordered = [one.joints for one in placed]
    longest = max(len(joints) for joints in ordered)
    joints = [joints[i] for i in range(longest) for joints in ordered if i < len(joints)] if by_landing else \
        [joint for joints in ordered for joint in joints]
    return Act(key, stage, lambda act: _tell(site, act, corner, placed, by_landing), [one.brace for one in placed],
               _opening(site, joints), how, after, _what(placed))


def _what(placed: list[Placed]) -> str:
    return f"{placed[0].brace.zone} braces"


def _named(placed: list[Placed]) -> str:
    """These pieces in words: "side brace", "roof braces"."""
    return f"{placed[0].brace.zone} {'brace' if len(placed) == 1 else 'braces'}"


def _where(corner: str) -> str:
    """A corner in words: "at the tag end, left"."""
    end, _, side = corner.partition(" ")
    if end in ("tag", "far"):
        return f"at the {end} end, {side}"
    if end.startswith(("tag,", "far,")):
        return f"at the {end.rstrip(',')} end, {side}"
    return f"at mid-length, {side}" if end.startswith("mid") else f"on the {side}"


def _piece_said(one: Placed, landings: tuple[Landing, ...]) -> Said:
    """A piece with its landings in the order in which they are bolted."""
    ends = [Said("{code}, {up_in} up", {"code": landing.code, "up_in": landing.from_foot_in}) for landing in landings]
    twist = f" ({one.brace.hand} twist)" if one.brace.twist_made else ""
    return together([Said("{part}{twist} at ", {"part": one.brace.part, "twist": twist}), together(ends, ", then at ")], "")


def _turned(one: Placed) -> Landing | None:
    """Where the end lies that the press has turned."""
    brace = one.brace
    if not brace.twist_made or not brace.turned_end:
        return None
    return brace.landing_from if brace.turned_end == "from" else brace.landing_to


def _tell(site: Site, act: Act, corner: str, placed: list[Placed], by_landing: bool) -> Told:
    pieces = together([_piece_said(one, one.landings) for one in placed], "; ")
    first = " Both ridge landings first, equally far from the ridge, then the lower ends." if by_landing else ""
    head = Said("Bolt the {named} {where}, finger-tight: ", {"named": _named(placed), "where": _where(corner)})
    ends = listed([end.code for end in map(_turned, placed) if end])
    turned = f" The turned end goes on last, at {ends}." if ends else ""
    tail = Said("." + first + turned + " {hardware}.", {"hardware": _hardware(site, placed)})
    return Told(together([head, pieces, tail], ""), _why(site, act, placed, by_landing), _cautions(placed))


def _hardware(site: Site, placed: list[Placed]) -> str:
    joints = [joint for one in placed for joint in one.joints]
    said = joints_said(site.frame.family, joints)
    on = [joint.code for joint in joints if joint.id in site.slides]
    return f"{said[:1].upper()}{said[1:]}" + (f"; the band at {listed(on)} is on already" if on else "")


def _why(site: Site, act: Act, placed: list[Placed], by_landing: bool) -> Said:
    if act.stage == "braces before the roof":
        return Said("Each end lies on a side section, and those stand; the piece steadies them before the roof sections come.")
    if by_landing:
        return Said("The two bands by the ridge leave room for the connector between them; started from below, the sides end unequal.")
    if _roof(placed[0].brace) and not act.key.endswith(" ridge"):
        return Said("The piece above is in, and this one's landings follow from it as far as the made lengths reach.")
    if act.how == WAIT:
        return Said("It lies on a roof section, so it had to wait for that one and for the purlins.")
    return Said("The hoops stand whole, held to their spacing by the purlins, so both ends have their places.")


def _cautions(placed: list[Placed]) -> tuple[Said, ...]:
    return (*cautions.high(joint for one in placed for joint in one.joints), cautions.WONT_MEET)


def _tell_hang(site: Site, act: Act, corner: str, hang: list[Placed]) -> Told:
    pieces = together([_piece_said(one, one.landings[:_reached(site, one)]) for one in hang], "; ")
    head = Said("Hang the {named} {where} by the lower end and tie the loose end up: ", {"named": _named(hang), "where": _where(corner)})
    tail = Said(". {hardware}.", {"hardware": _hardware_of(site, act.joints)})
    ends = listed([f"{one.landings[-1].code}" for one in hang])
    why = Said("Only the lower end has its section; {ends} lies on a roof section, which is not there yet.", {"ends": ends})
    return Told(together([head, pieces, tail], ""), why, (cautions.LOOSE_END,))


def _hardware_of(site: Site, joints: list[Joint]) -> str:
    said = joints_said(site.frame.family, joints)
    return f"{said[:1].upper()}{said[1:]}" if said else "The bands are on already"


def _tell_upper(site: Site, act: Act, corner: str, hang: list[Placed]) -> Told:
    pieces = together([_piece_said(one, one.landings[_reached(site, one):]) for one in hang], "; ")
    head = Said("Swing up the hung {named} {where} and bolt the upper end, finger-tight: ",
                {"named": _named(hang), "where": _where(corner)})
    tail = Said(". {hardware}.", {"hardware": _hardware_of(site, act.joints)})
    why = Said("The roof section that the upper end lies on is on now.")
    high = cautions.high(joint for one in hang for joint in one.joints)
    return Told(together([head, pieces, tail], ""), why, (*high, cautions.LOOSE_END, cautions.WONT_MEET))
