"""Braces put into the frame: chains at their corners, and single pieces of one-off changes."""

from __future__ import annotations

from structures.frame.build.chains import (
    MATCH_IN,
    Corner,
    Piece,
    Settled,
    Spot,
    corners,
    follow_made,
    is_made,
    lay,
    solve,
    spot,
    stands,
    turn_of,
)
from structures.frame.build.frame import LETTER, SIDES, Frame
from structures.frame.build.landing import distance
from structures.frame.build.passes import passes_of
from structures.frame.build.purlins import section_at
from structures.frame.build.tails import flat_of, tails_of
from structures.frame.document import Brace, Landing
from structures.frame.family import Chain, Part
from structures.frame.said import Said

End = tuple[int, str, float]       # hoop, station, inches from the foot


def build_braces(frame: Frame) -> None:
    """Put in every chain that this configuration has, or refuse with what would do."""
    chains = [c for c in frame.family.chains if frame.has(c.option) and frame.length_in > c.over_in + 1e-6]
    if not _fit(frame, chains):
        return
    known: dict[tuple[object, ...], Settled | None] = {}
    for stand in stands(frame, chains):
        if stand.kind not in known:
            known[stand.kind] = solve(frame, stand)
        settled = known[stand.kind]
        # The lower piece first, so that of two butted bands the lower one is number 1.
        for piece in sorted(lay(frame, stand, settled) if settled else (), key=lambda piece: piece.start.s + piece.end.s):
            put_in(frame, piece)
    for chain in chains:
        _warn_of_ridge(frame, chain)
        _warn_of_hanging(frame, chain)


def _warn_of_ridge(frame: Frame, chain: Chain) -> None:
    """A roof chain is set at its landing nearest the ridge, where left and right must be equal, and follows downward."""
    highest = max(chain.landings, key=lambda landing: frame.family.stations[landing.station].from_foot_in)
    if chain.zone == "roof" and not highest.set:
        frame.warnings.append(Said("The {chain} chain follows up to {station}: left and right may end unequally far from the ridge; "
                                   "set it there.", {"chain": chain.code, "station": highest.station}))


def _warn_of_hanging(frame: Frame, chain: Chain) -> None:
    """Where sides stand first, a side chain can't be set at a landing on a roof section: the piece hangs from its lower end."""
    if chain.zone == "roof" or frame.family.hoop.put_up == "whole" or len(frame.family.hoop.sections) == 1:
        return
    stands = {landing.station: all(_on_side_section(frame, side, landing.station) for side in SIDES) for landing in chain.landings}
    fixed = next(landing.station for landing in chain.landings if landing.set)
    if not stands[fixed] and any(stands.values()):
        frame.warnings.append(Said("The {chain} chain is set at {station}, on a roof section, while its piece there hangs from its lower "
                                   "end until that section is on: set it at a landing on a side section.",
                                   {"chain": chain.code, "station": fixed}))


def _on_side_section(frame: Frame, side: str, station: str) -> bool:
    """Whether a station lies on a section that ends in a foot."""
    ident = section_at(frame, 1, side, frame.family.stations[station].from_foot_in)
    section = next(member for member in frame.members if member.id == ident)
    return section.from_.endswith("-foot") or section.to.endswith("-foot")


def _fit(frame: Frame, chains: list[Chain]) -> bool:
    """Refuse chains that leave the structure or share a bay where the family doesn't allow it."""
    taken: dict[tuple[str, str, int], Corner] = {}
    for chain in chains:
        reach_hoops = max(landing.hoop for landing in chain.landings)
        for corner in corners(frame, chain):
            for counted in range(1, reach_hoops):
                bay = min(corner.hoop(counted), corner.hoop(counted + 1))
                clash = taken.setdefault((chain.zone, corner.side, bay), corner)
                if not 1 <= bay < frame.hoops or (clash != corner and not chain.may_share_bay):
                    _refuse_bay(frame, chain, reach_hoops, bay)
                    return False
    return True


def _refuse_bay(frame: Frame, chain: Chain, reach_hoops: int, bay: int) -> None:
    needed = 2 * (reach_hoops - 1) + 1
    frame.refuse(
        "chains-share-bay", "The {zone} braces from both ends would share bay {bay} at {hoops} hoops: at least {needed} "
        "hoops are needed, which is {least_in}.", "length", zone=chain.zone, bay=bay, hoops=frame.hoops, needed=needed,
        least_in=(needed - 1) * frame.spacing_in)


def put_in(frame: Frame, piece: Piece) -> None:
    """Add a piece, its two bands and what clamps it to the hoops that it passes to the frame."""
    chain = piece.chain
    bay = min(piece.start.hoop, piece.end.hoop)
    ident = frame.place(f"B{bay}{LETTER[piece.corner.side]}-{chain.zone}", "brace")
    start, end = (_join(frame, chain, chain.fitting, at, ident) for at in (piece.start, piece.end))
    passes = tuple(_join(frame, chain, chain.pass_fitting, at, ident) for at in passes_of(frame, piece))
    made = piece.turn
    tail_from, tail_to = tails_of(frame, piece)
    frame.braces.append(Brace(
        ident, piece.role, chain.zone, chain.option, piece.part.number, piece.corner.name,
        chain.code, start.code, end.code, piece.part.length_in or distance(piece.start.hole, piece.end.hole), piece.computed_in,
        made.twist_deg, made.hand, piece.twist_made, made.bend_from_deg, made.bend_to_deg, 0.0, "", {},
        piece.held, start, end, turned_end="to" if piece.held == "from" else "from",
        proud_in=max(tail_from.made_in, tail_to.made_in) if tail_from and tail_to else None,
        tail_from=tail_from, tail_to=tail_to, passes=passes, flat=flat_of(frame, chain, piece.part),
    ))


def _join(frame: Frame, chain: Chain, fitting: str, at: Spot, ident: str) -> Landing:
    """Put a fitting on the hoop that holds the piece to its section."""
    holds = ident, section_at(frame, at.hoop, at.side, at.s)
    joint = frame.join(fitting, at.hoop, at.side, at.station, at.s, holds, chain.option)
    return Landing(joint.code, joint.id, at.hoop, at.side, at.station, at.node_in, at.s, at.nominal_in, at.set, at.hole)


def put_alone(
    frame: Frame, chain: Chain, part: Part, start: tuple[int, str], end: tuple[int, str], side: str
) -> None:
    """Add one piece that belongs to no corner, from (hoop, station) to (hoop, station); its first end is set."""
    stations = frame.family.stations
    fixed, free = ((hoop, station, stations[station].from_foot_in) for hoop, station in (start, end))
    a, b = _alone(frame, chain, side, fixed, free)
    computed = distance(a.hole, b.hole)
    if part.length_in is not None and abs(part.length_in - computed) > MATCH_IN:
        frame.refuse("length-differs", "Part {part} ({role}) is made {made_in} long but from {start} to {end} the frame "
                     "needs {computed_in}: they must match within 1/8 in.", "one_offs", part=part.number,
                     role=part.role, made_in=part.length_in, computed_in=computed,
                     start=frame.code(a.hoop, side, a.station), end=frame.code(b.hoop, side, b.station))
        return
    corner = Corner(f"one-off {side}", side, fixed[0], 1)
    _put_following(frame, chain, corner, part, part.role, fixed, free, computed)


def put_moved(frame: Frame, chain: Chain, brace: Brace, start: End, end: End) -> None:
    """Put a piece back with its set end at that place; its other end follows the made length."""
    corner = Corner(brace.corner, brace.landing_from.side, start[0], 1)
    fixed, free = (start, end) if brace.set_end == "from" else (end, start)
    _put_following(frame, chain, corner, frame.part(brace.part), brace.role, fixed, free, brace.computed_in, brace.set_end)


def _alone(frame: Frame, chain: Chain, side: str, fixed: End, free: End) -> tuple[Spot, Spot]:
    return (spot(frame, chain, side, fixed[0], free[0], fixed[1], fixed[2], fixed[2], fixed[2], True),
            spot(frame, chain, side, free[0], fixed[0], free[1], free[2], free[2], free[2], False))


def _put_following(
    frame: Frame, chain: Chain, corner: Corner, part: Part, role: str, fixed: End, free: End, computed: float,
    held: str = "from",
) -> None:
    """Hold one end, let the other follow the made length, and put the piece in with its ends in their order."""
    a, b = _alone(frame, chain, corner.side, fixed, free)
    if part.length_in is not None:
        s = follow_made(frame, chain, a, b, part)
        if s is None:
            return
        a, b = _alone(frame, chain, corner.side, fixed, (free[0], free[1], s))
    if held == "to":
        a, b = b, a
    made = turn_of(frame, a, b)
    put_in(frame, Piece(chain, corner, role, part, a, b, computed, made, is_made(chain, made), held))
