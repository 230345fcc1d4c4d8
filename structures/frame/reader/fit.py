"""Whether pieces fit: hoop sections against the developed length, holes clear of the hoop, a part for every spacing."""

from __future__ import annotations

import math
from collections.abc import Iterable

from structures.frame.family import Chain, FittingSet, Part, Seam, Shape, TieSet, Tube
from structures.frame.reader.access import Problems, shown
from structures.frame.reader.checks import Blocks
from structures.frame.reader.hoop import seams_over

AGREE_IN = 0.25            # lengths that are both stated may differ by no more
SLIGHT_IN = 1 / 64


def check_sections(problems: Problems, blocks: Blocks, shape: Shape, developed_in: float) -> None:
    """Sections less their swages add up to the tube's length, and each reaches from seam to seam."""
    seams = seams_over(blocks.hoop, developed_in)
    sections = [blocks.parts.get(number) for number in blocks.hoop.sections]
    lengths = [part.length_in for part in sections if part is not None and part.length_in is not None]
    if len(lengths) != len(sections) or len(sections) != len(seams) + 1:
        return
    tube_in = developed_in - 2 * shape.tube_end_in
    made_in = sum(lengths) - sum(seam.swage_in for seam, _ in seams)
    if abs(made_in - tube_in) > AGREE_IN:
        problems.add("sections-sum", "hoop.sections", "{key}: the sections less their swages add up to {made_in}, and the "
                     "hoop's tube is {tube_in} long: change a section, a swage or the shape.", made_in=made_in,
                     tube_in=tube_in)
        return
    starts = [shape.tube_end_in, *(at for _, at in seams)]
    ends = [*starts[1:], developed_in - shape.tube_end_in]
    spoken_of = set()
    for at, length in enumerate(lengths):
        should = ends[at] - starts[at]
        if at < len(seams) and _left_swaged(seams[at], developed_in):
            should += seams[at][0].swage_in
        if at > 0 and not _left_swaged(seams[at - 1], developed_in):
            should += seams[at - 1][0].swage_in
        number = blocks.hoop.sections[at]
        if abs(length - should) > AGREE_IN and number not in spoken_of:
            spoken_of.add(number)
            problems.add("section-length", f"parts.{number}.length", "{key} = {length_in}, and between its seams, with "
                         "its swages, section {count} of the hoop is {should_in} long: write {should_in}, or move a "
                         "seam.", length_in=length, count=at + 1, should_in=should)


def _left_swaged(seam_at: tuple[Seam, float], developed_in: float) -> bool:
    """Whether the section on the left of a seam is the swaged one."""
    seam, at = seam_at
    return seam.swaged == "left" or seam.swaged == ("lower" if at < developed_in / 2 else "upper")


def check_holes(problems: Problems, blocks: Blocks) -> None:
    """A brace or tie bolts to a hole that is clear of the hoop it lands on. Each fitting is spoken of once."""
    users: dict[str, list[Chain | TieSet]] = {}
    every: tuple[Chain | TieSet, ...] = (*blocks.chains, *blocks.ties)
    for item in every:
        users.setdefault(item.fitting, []).append(item)
    for code, items in users.items():
        if code in blocks.fittings:
            _check_hole(problems, blocks, blocks.fittings[code], items)


def _check_hole(problems: Problems, blocks: Blocks, fitting: FittingSet, items: list[Chain | TieSet]) -> None:
    tube = blocks.tubes.get(blocks.hoop.tube)
    key = f"fittings.{fitting.code}.hole_offset"
    should = {_hole_lies(item) for item in items}
    if len(should) > 1:
        inward = " and a one-piece brace's" if any(isinstance(item, Chain) and item.one_piece for item in items) else ""
        problems.add("hole-both", f"chains.{_first(items, Chain)}.fitting", "{key} = {given} is the fitting of {what}: a brace's hole "
                     "lies lengthwise and a tie's{inward} inward, so give each a fitting of its own.", given=shown(fitting.code),
                     what=_called(items), inward=inward)
    elif fitting.hole_direction not in should:
        problems.add("hole-direction", f"fittings.{fitting.code}.hole_direction", '{key} = {given}, and it holds {what}: write '
                     '"{should}".', given=shown(fitting.hole_direction), what=_called(items), should=next(iter(should)))
    if fitting.hole_offset_in is None:
        problems.add("hole-missing", key, "{key} is missing, and it holds {what}: write how far the bolt hole lies from the "
                     "tube's axis.", what=_called(items))
    elif tube is not None:
        least = tube.radius_in + max(_toward_hoop(blocks, item) for item in items)
        if fitting.hole_offset_in < least - 1e-9:
            problems.add("hole-close", key, "{key} = {offset_in} is less than the hoop's radius and the flattened end of {what} "
                         "together: {least_in} or more would do.", offset_in=fitting.hole_offset_in, what=_called(items),
                         least_in=math.ceil(least * 16) / 16)


def _toward_hoop(blocks: Blocks, item: Chain | TieSet) -> float:
    """How far a flattened end reaches from its hole toward the hoop: its rounding, or one wall where it lies flat against the hoop."""
    if not isinstance(item, Chain) or not item.one_piece:
        return item.flat_round_in
    tubes = (blocks.tubes.get(part.tube) for part in blocks.parts.values() if part.role in item.roles)
    return max((tube.wall_in for tube in tubes if tube), default=0.0)


def _hole_lies(item: Chain | TieSet) -> str:
    """Which way a piece's holes lie of its hoops. A brace in one piece lies inside the hoops, as ties do."""
    return "lengthwise" if isinstance(item, Chain) and not item.one_piece else "inward"


def _first(items: list[Chain | TieSet], kind: type) -> str:
    return next(item.code for item in items if isinstance(item, kind))


def _called(items: list[Chain | TieSet]) -> str:
    return " and ".join(f"{'chain' if isinstance(item, Chain) else 'tie'} {item.code}" for item in items)


def check_webs(problems: Problems, blocks: Blocks) -> None:
    """A web bolts to a hole inward of its hoop and to one above its tie, each clear of the tube that the band is on."""
    diameters = {part.role: blocks.tubes[part.tube] for part in blocks.parts.values() if part.tube in blocks.tubes}
    for tie in blocks.ties:
        for web in tie.webs:
            on_hoop, on_tie = blocks.tubes.get(blocks.hoop.tube), diameters.get(tie.role)
            for code, should, tube in ((web.hoop_fitting, "inward", on_hoop), (web.tie_fitting, "upward", on_tie)):
                if code in blocks.fittings:
                    _check_web(problems, blocks.fittings[code], web.role, should, tube)


def _check_web(problems: Problems, fitting: FittingSet, role: str, should: str, tube: Tube | None) -> None:
    key = f"fittings.{fitting.code}.hole_offset"
    if fitting.hole_direction != should:
        problems.add("hole-direction", f"fittings.{fitting.code}.hole_direction", '{key} = {given}, and it holds {what}: write '
                     '"{should}".', given=shown(fitting.hole_direction), what=f"webs of role {role}", should=should)
    if fitting.hole_offset_in is None:
        problems.add("hole-missing", key, "{key} is missing, and it holds {what}: write how far the bolt hole lies from the "
                     "tube's axis.", what=f"webs of role {role}")
    elif tube is not None and fitting.hole_offset_in < tube.radius_in - 1e-9:
        problems.add("hole-inside", key, "{key} = {offset_in} lies inside the tube that it is on: {least_in} or more would do.",
                     offset_in=fitting.hole_offset_in, least_in=math.ceil(tube.radius_in * 16) / 16)


def check_film(problems: Problems, blocks: Blocks, half_in: float) -> None:
    """A sheet with its hold-down fits its roll's width."""
    for sheet in blocks.film:
        station = blocks.stations.get(sheet.from_station)
        if station is None:
            continue
        wide = 2 * (half_in - station.from_foot_in + sheet.hold_in)
        if wide > sheet.roll_width_in + SLIGHT_IN:
            problems.add("film-narrow", f"film.{sheet.code}.roll_width", "{key} = {roll_in}, and the sheet with its hold-down is "
                         "{wide_in} wide: a wider roll would do.", roll_in=sheet.roll_width_in, wide_in=wide)


def check_roles(problems: Problems, blocks: Blocks, spacings_in: Iterable[float]) -> None:
    """Every piece has a part for every spacing: one without a hand, or a left and a right one."""
    spacings = tuple(spacings_in)
    for chain in blocks.chains:
        for role in dict.fromkeys(chain.roles):
            parts = [part for part in blocks.parts.values() if part.role == role]
            for spacing in spacings if parts else ():
                _check_hands(problems, chain, role, spacing, parts)
    for tie in blocks.ties:
        for spacing in spacings:
            _check_tie(problems, blocks, tie, spacing)


def _check_tie(problems: Problems, blocks: Blocks, tie: TieSet, spacing: float) -> None:
    """A tie has one part for each spacing, and with no station its made length decides the place."""
    key = f"ties.{tie.code}.role"
    parts = _for_spacing([part for part in blocks.parts.values() if part.role == tie.role], spacing)
    if len(parts) > 1:
        problems.add("role-twice", key, "{key} = {given} is the role of parts {parts}: leave it to one of them.",
                     given=f'"{tie.role}"', parts=" and ".join(part.number for part in parts))
    if parts and not tie.station and parts[0].length_in is None:
        problems.add("tie-no-place", f"ties.{tie.code}.station", "{key} is missing, and part {part} has no length that "
                     "would decide the place: write one of them.", part=parts[0].number)


def _for_spacing(parts: list[Part], spacing: float) -> list[Part]:
    """The parts made for a spacing; one whose own spacing couldn't be read counts as made for it."""
    return [part for part in parts if part.spacing_in is None or not abs(part.spacing_in - spacing) >= SLIGHT_IN]


def _check_hands(problems: Problems, chain: Chain, role: str, spacing: float, parts: list[Part]) -> None:
    fitting = _for_spacing(parts, spacing)
    hands = [part.hand for part in fitting]
    key = f"chains.{chain.code}.roles"
    one = {"left", "right"} & set(hands)
    twice = {hand for hand in hands if hands.count(hand) > 1}
    if twice:
        problems.add("role-twice", key, "{key}: at {spacing_in} spacing parts {parts} share role {role} and hand: give each "
                     "its own role, spacing or hand.", spacing_in=spacing, role=role,
                     parts=" and ".join(part.number for part in fitting if part.hand in twice))
    elif not hands:
        problems.add("role-no-part", key, "{key}: no part of role {role} is made for {spacing_in} spacing: add one to [parts], or "
                     "leave the spacing out of size.spacings.", role=role, spacing_in=spacing)
    elif chain.twist_made == "press" and len(one) == 1:
        problems.add("role-one-hand", key, "{key}: of role {role} at {spacing_in} spacing only a {hand} hand is made: corners come "
                     "in both hands, so add the other.", role=role, spacing_in=spacing, hand=next(iter(one)))
    elif chain.twist_made == "site" and set(hands) & {"left", "right"}:
        problems.add("hand-on-site", key, "{key}: the twist is made on site, so role {role} has no hands: take hand out of "
                     "{parts}.", role=role, parts=" and ".join(part.number for part in fitting if part.hand))
