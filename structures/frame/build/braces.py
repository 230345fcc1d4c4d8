"""Brace chains: one piece to each gap, landings set or following, butted bands, length, twist, hand and bend."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from structures.frame.build.frame import LETTER, Frame
from structures.frame.build.landing import Turn, distance, follow, hole, outward, turn
from structures.frame.build.purlins import section_at
from structures.frame.document import Brace, Joint, Landing, Point
from structures.frame.family import Chain, Part

MATCH_IN = 1 / 8     # a computed length must match a made one within this


@dataclass(frozen=True, slots=True)
class Corner:
    """One place where a chain stands: its hoops in order from the chain's own hoop 1."""

    name: str
    side: str
    first_hoop: int
    step: int

    def hoop(self, counted: int) -> int:
        return self.first_hoop + self.step * (counted - 1)


@dataclass(frozen=True, slots=True)
class Spot:
    """One end of one piece before it is put in: hoop, side, station, where its band's centre and hole come to lie."""

    hoop: int
    side: str
    station: str
    node_in: float
    s: float
    nominal_in: float
    set: bool
    hole: Point


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of a chain before it is put in."""

    chain: Chain
    corner: Corner
    index: int
    role: str
    part: Part
    start: Spot
    end: Spot
    computed_in: float
    turn: Turn
    twist_made: bool


def corners(frame: Frame, chain: Chain) -> Iterator[Corner]:
    """The places of a chain: four corners, or the mid-length pair on both sides."""
    if chain.where == "mid-length":
        middle = frame.hoops // 2
        yield from (Corner(f"mid {side}", side, first, step)
                    for first, step in ((middle, -1), (middle + 1, 1)) for side in ("left", "right"))
        return
    yield from (Corner(f"{end} {side}", side, first, step)
                for end, first, step in (("tag", 1, 1), ("far", frame.hoops, -1)) for side in ("left", "right"))


def build_braces(frame: Frame) -> None:
    """Put in every chain that this configuration has, or refuse with what would do."""
    chains = [c for c in frame.family.chains if frame.has(c.option) and frame.length_in > c.over_in + 1e-6]
    if not _fit(frame, chains):
        return
    for chain in chains:
        for corner in corners(frame, chain):
            # The lower piece first, so that of two butted bands the lower one is number 1.
            for piece in sorted(_pieces(frame, chain, corner), key=lambda piece: piece.start.s + piece.end.s):
                put_in(frame, piece)


def _fit(frame: Frame, chains: list[Chain]) -> bool:
    """Refuse chains that leave the structure or share a bay where the family doesn't allow it."""
    taken: dict[tuple[str, str, int], str] = {}
    for chain in chains:
        reach = max(landing.hoop for landing in chain.landings)
        for corner in corners(frame, chain):
            bays = range(reach - 1)
            for bay in (min(corner.hoop(k + 1), corner.hoop(k + 2)) for k in bays):
                key = chain.zone, corner.side, bay
                clash = taken.setdefault(key, corner.name)
                if not 1 <= bay < frame.hoops or (clash != corner.name and not chain.may_share_bay):
                    needed = 2 * (reach - 1) + 1
                    frame.refuse(
                        "chains-share-bay",
                        "The {zone} braces from both ends would share bay {bay} at {hoops} hoops: at least {needed} "
                        "hoops are needed, which is {least_in}.",
                        "length", zone=chain.zone, bay=bay, hoops=frame.hoops, needed=needed,
                        least_in=(needed - 1) * frame.spacing_in,
                    )
                    return False
    return True


def _pieces(frame: Frame, chain: Chain, corner: Corner) -> Iterator[Piece]:
    """Solve a chain outward from its set landing; each next landing follows the piece's made length."""
    nominal = _nominal(frame, chain)
    pairs = range(len(chain.landings) - 1)
    plans = [_plan(frame, chain, corner, index, nominal) for index in pairs]
    if any(plan is None for plan in plans):
        return
    settled: dict[int, float] = {}
    start = next((i for i, landing in enumerate(chain.landings) if landing.set), 0)
    settled[start] = nominal[start]
    order = [(i, i, i + 1) for i in pairs if i >= start] + [(i, i + 1, i) for i in reversed(pairs) if i < start]
    solved: dict[int, Piece] = {}
    for index, fixed, free in order:
        plan = plans[index]
        piece = _solve(frame, chain, corner, index, nominal, settled, fixed, free, plan) if plan else None
        if piece is None:
            return
        solved[index] = piece
    yield from (solved[index] for index in pairs)


def _nominal(frame: Frame, chain: Chain) -> list[float]:
    stations = frame.family.stations
    return [stations[landing.station].from_foot_in for landing in chain.landings]


def _offset(frame: Frame, chain: Chain, index: int, end: int, nominal: list[float]) -> float:
    """How far a band's centre lies from its node: butted bands stand half a width off, the rising piece above."""
    landing = index if end == 0 else index + 1
    if landing in (0, len(chain.landings) - 1):
        return 0.0
    other = index + 1 if end == 0 else index
    half = frame.family.fittings[chain.fitting].width_in / 2
    return half if nominal[other] > nominal[landing] else -half


def _plan(frame: Frame, chain: Chain, corner: Corner, index: int, nominal: list[float]) -> tuple[Part, float] | None:
    """The part of one piece, and its computed length with every landing at its designed mark."""
    a, b = _ends(frame, chain, corner, index, nominal, nominal)
    computed = distance(a.hole, b.hole)
    made = _turn_of(frame, a, b)
    part = choose_part(frame, chain, chain.roles[index], made, computed)
    return None if part is None else (part, computed)


def choose_part(frame: Frame, chain: Chain, role: str, made: Turn, computed_in: float) -> Part | None:
    """The part of a role for this spacing and hand whose made length matches, or a refusal with both figures."""
    hand = made.hand if chain.twist_made == "press" and abs(made.twist_deg) >= chain.slack_deg else ""
    fits = [
        part for part in frame.family.parts.values()
        if part.role == role and part.hand in (hand, "any")
        and (part.spacing_in is None or abs(part.spacing_in - frame.spacing_in) < 1e-6)
    ]
    if not fits:
        frame.refuse(
            "no-part", "No part of {family} has the role {role!r} for spacing {spacing_in}{hand}: add one of {computed_in} "
            "to its [[parts]].", "family", family=frame.family.name, role=role, spacing_in=frame.spacing_in,
            hand=f" and a {hand} twist" if hand else " and no twist", computed_in=computed_in)
        return None
    part = min(fits, key=lambda p: abs((p.length_in or computed_in) - computed_in))
    if part.length_in is not None and abs(part.length_in - computed_in) > MATCH_IN:
        frame.refuse(
            "length-differs", "Part {part} ({role}) is made {made_in} long but this spacing of {spacing_in} needs "
            "{computed_in}: they must match within 1/8 in.", "family", part=part.number, role=role,
            made_in=part.length_in, spacing_in=frame.spacing_in, computed_in=computed_in)
        return None
    return part


def _ends(
    frame: Frame, chain: Chain, corner: Corner, index: int, nodes: list[float], nominal: list[float]
) -> tuple[Spot, Spot]:
    ends = []
    for end in (0, 1):
        landing = chain.landings[index + end]
        other = chain.landings[index + 1 - end]
        s = nodes[index + end] + _offset(frame, chain, index, end, nominal)
        ends.append(_spot(frame, chain, corner, landing.hoop, other.hoop, landing.station, nodes[index + end], s,
                          nominal[index + end], landing.set))
    return ends[0], ends[1]


def _spot(
    frame: Frame, chain: Chain, corner: Corner, counted: int, other: int, station: str, node: float, s: float,
    nominal: float, is_set: bool,
) -> Spot:
    offset = frame.family.fittings[chain.fitting].hole_offset_in or 0.0
    hoop = corner.hoop(counted)
    at = hole(frame, corner.side, s, hoop, corner.hoop(other), offset)
    return Spot(hoop, corner.side, station, node, s, nominal, is_set, at)


def _turn_of(frame: Frame, a: Spot, b: Spot) -> Turn:
    return turn(a.hole, b.hole, outward(frame, a.side, a.s), outward(frame, b.side, b.s))


def _solve(
    frame: Frame, chain: Chain, corner: Corner, index: int, nominal: list[float], settled: dict[int, float],
    fixed: int, free: int, plan: tuple[Part, float],
) -> Piece | None:
    """Put the fixed end at its settled node and let the free end slide to where the made length reaches."""
    part, computed = plan
    nodes = [settled.get(i, nominal[i]) for i in range(len(nominal))]
    a, b = _ends(frame, chain, corner, index, nodes, nominal)
    held, loose = (a, b) if fixed == index else (b, a)
    if part.length_in is not None and free not in settled:
        offset = frame.family.fittings[chain.fitting].hole_offset_in or 0.0
        s = follow(frame, held.hole, corner.side, loose.hoop, held.hoop, offset, loose.s, part.length_in)
        if s is None:
            frame.refuse("cannot-follow", "Part {part} of {made_in} can't reach from {fixed} to {free}: check the "
                         "stations.", "family", part=part.number, made_in=part.length_in,
                         fixed=frame.code(held.hoop, held.side, held.station),
                         free=frame.code(loose.hoop, loose.side, loose.station))
            return None
        settled[free] = s - _offset(frame, chain, index, 0 if free == index else 1, nominal)
        nodes[free] = settled[free]
        a, b = _ends(frame, chain, corner, index, nodes, nominal)
    settled.setdefault(free, nominal[free])
    made = _turn_of(frame, a, b)
    twist_made = chain.twist_made == "press" and abs(made.twist_deg) >= chain.slack_deg
    return Piece(chain, corner, index, chain.roles[index], part, a, b, computed, made, twist_made)


def put_in(frame: Frame, piece: Piece) -> None:
    """Add a piece and its two bands to the frame."""
    bay = min(piece.start.hoop, piece.end.hoop)
    code = f"B{bay}{LETTER[piece.corner.side]}-{piece.chain.zone}"
    ident = frame.place(code, "brace")
    landings = []
    for spot in (piece.start, piece.end):
        holds = (ident, section_at(frame, spot.hoop, spot.side, spot.s))
        joint = frame.join(piece.chain.fitting, spot.hoop, spot.side, spot.station, spot.s, holds, piece.chain.option)
        landings.append(_landing(spot, joint))
    made = piece.turn
    length_in = distance(piece.start.hole, piece.end.hole)
    frame.braces.append(Brace(
        ident, piece.role, piece.chain.zone, piece.chain.option, piece.part.number, piece.corner.name,
        piece.chain.code, landings[0].code, landings[1].code, piece.part.length_in or length_in, piece.computed_in,
        made.twist_deg, made.hand, piece.twist_made, made.bend_from_deg, made.bend_to_deg, 0.0, "", {},
        "to" if piece.end.set else "from", landings[0], landings[1],
    ))


def _landing(spot: Spot, joint: Joint) -> Landing:
    return Landing(joint.code, joint.id, spot.hoop, spot.side, spot.station, spot.node_in, spot.s, spot.nominal_in,
                   spot.set, spot.hole)


def put_alone(
    frame: Frame, chain: Chain, part: Part, start: tuple[int, str], end: tuple[int, str], side: str
) -> None:
    """Add one piece that belongs to no corner, from (hoop, station) to (hoop, station); its first end is set."""
    stations = frame.family.stations
    ends = [(hoop, station, stations[station].from_foot_in) for hoop, station in (start, end)]
    a, b = _alone(frame, chain, side, ends[0], ends[1])
    computed = distance(a.hole, b.hole)
    if part.length_in is not None and abs(part.length_in - computed) > MATCH_IN:
        frame.refuse("length-differs", "Part {part} ({role}) is made {made_in} long but from {start} to {end} the frame "
                     "needs {computed_in}: they must match within 1/8 in.", "one_offs", part=part.number,
                     role=part.role, made_in=part.length_in, computed_in=computed,
                     start=frame.code(a.hoop, side, a.station), end=frame.code(b.hoop, side, b.station))
        return
    _put_following(frame, chain, Corner(f"one-off {side}", side, a.hoop, 1), part, part.role, ends, computed)


def put_moved(
    frame: Frame, chain: Chain, brace: Brace, start: tuple[int, str, float], end: tuple[int, str, float]
) -> None:
    """Put a piece back at (hoop, station, inches from the foot) of its set end; its other end follows."""
    corner = Corner(brace.corner, brace.landing_from.side, start[0], 1)
    ends = [start, end] if brace.set_end == "from" else [end, start]
    _put_following(frame, chain, corner, frame.part(brace.part), brace.role, ends, brace.computed_in)


def _alone(
    frame: Frame, chain: Chain, side: str, start: tuple[int, str, float], end: tuple[int, str, float]
) -> tuple[Spot, Spot]:
    offset = frame.family.fittings[chain.fitting].hole_offset_in or 0.0
    spots = [
        Spot(hoop, side, station, s, s, s, first, hole(frame, side, s, hoop, other, offset))
        for (hoop, station, s), other, first in ((start, end[0], True), (end, start[0], False))
    ]
    return spots[0], spots[1]


def _put_following(
    frame: Frame, chain: Chain, corner: Corner, part: Part, role: str, ends: list[tuple[int, str, float]],
    computed: float,
) -> None:
    fixed, free = ends
    a, b = _alone(frame, chain, corner.side, fixed, free)
    offset = frame.family.fittings[chain.fitting].hole_offset_in or 0.0
    made = part.length_in or computed
    s = follow(frame, a.hole, corner.side, b.hoop, a.hoop, offset, b.s, made)
    if s is None:
        frame.refuse("cannot-follow", "Part {part} of {made_in} can't reach from {fixed} to hoop {hoop}: move it less.",
                     "one_offs", part=part.number, made_in=made, fixed=frame.code(a.hoop, a.side, a.station),
                     hoop=b.hoop)
        return
    a, b = _alone(frame, chain, corner.side, fixed, (free[0], free[1], s))
    made_turn = _turn_of(frame, a, b)
    twist_made = chain.twist_made == "press" and abs(made_turn.twist_deg) >= chain.slack_deg
    put_in(frame, Piece(chain, corner, 0, role, part, a, b, computed, made_turn, twist_made))
