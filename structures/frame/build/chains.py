"""Solving a brace chain at one corner: which part each piece is, and where its landings come to lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from structures.frame.build.frame import Frame
from structures.frame.build.landing import Band, Turn, distance, follow, hole, outward, turn
from structures.frame.document import Brace, Point
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
class Stand:
    """A chain at one corner. `nominal` are the designed marks of its landings; `off` says, for each piece, how far the
    centres of its two bands lie from their nodes: butted bands stand half a width off, the rising piece above.
    `made_off` is the same without the neighbours of a short structure: made lengths are designed for it."""

    chain: Chain
    corner: Corner
    nominal: tuple[float, ...]
    off: tuple[tuple[float, float], ...]
    made_off: tuple[tuple[float, float], ...]

    @property
    def kind(self) -> tuple[object, ...]:
        """Equal for corners that are one another turned half round, as front left and back right are: what is solved at one
        holds at the other. A mirrored corner takes the other hand's parts."""
        turned = (self.corner.side == "left") == (self.corner.step > 0)
        return self.chain.code, turned, self.off, self.made_off


@dataclass(frozen=True, slots=True)
class Settled:
    """A chain solved: the part and the computed length of each piece, and where the node of each landing comes to lie."""

    plans: tuple[tuple[Part, float], ...]
    nodes: tuple[float, ...]


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
    """One piece of a chain before it is put in. `held` is the end that is bolted first, "from" or "to": its other end is free
    and comes to lie where the made length reaches."""

    chain: Chain
    corner: Corner
    role: str
    part: Part
    start: Spot
    end: Spot
    computed_in: float
    turn: Turn
    twist_made: bool
    held: str


def corners(frame: Frame, chain: Chain) -> Iterator[Corner]:
    """The places of a chain: four corners, or the mid-length pair on both sides."""
    if chain.where == "mid-length":
        middle = frame.hoops // 2
        yield from (Corner(f"mid {side}", side, first, step)
                    for first, step in ((middle, -1), (middle + 1, 1)) for side in ("left", "right"))
        return
    yield from (Corner(f"{end} {side}", side, first, step)
                for end, first, step in (("tag", 1, 1), ("far", frame.hoops, -1)) for side in ("left", "right"))


def stands(frame: Frame, chains: list[Chain]) -> list[Stand]:
    """Every chain at every corner. Where the ends of two chains meet at one station of one hoop (a short structure), their
    bands are butted too: the first below the mark, the second above."""
    met: dict[tuple[int, str, str], list[tuple[str, str]]] = {}
    for chain in chains:
        for corner in corners(frame, chain):
            for landing in (chain.landings[0], chain.landings[-1]):
                place = corner.hoop(landing.hoop), corner.side, landing.station
                met.setdefault(place, []).append((chain.code, corner.name))
    return [_stand(frame, chain, corner, met) for chain in chains for corner in corners(frame, chain)]


def _stand(
    frame: Frame, chain: Chain, corner: Corner, met: dict[tuple[int, str, str], list[tuple[str, str]]]
) -> Stand:
    nominal = tuple(frame.family.stations[landing.station].from_foot_in for landing in chain.landings)
    half = frame.family.fittings[chain.fitting].width_in / 2
    last = len(nominal) - 1

    def made(landing: int, other: int) -> float:
        if landing in (0, last):
            return 0.0
        return half if nominal[other] > nominal[landing] else -half

    def off(landing: int, other: int) -> float:
        at = chain.landings[landing]
        here = met.get((corner.hoop(at.hoop), corner.side, at.station), [])
        if landing not in (0, last) or len(here) < 2:
            return made(landing, other)
        return -half if here[0] == (chain.code, corner.name) else half

    return Stand(chain, corner, nominal, tuple((off(i, i + 1), off(i + 1, i)) for i in range(last)),
                 tuple((made(i, i + 1), made(i + 1, i)) for i in range(last)))


def solve(frame: Frame, stand: Stand) -> Settled | None:
    """Solve a chain outward from its set landing; each next landing follows the piece's made length. None if refused."""
    plans = [_plan(frame, stand, index) for index in range(len(stand.nominal) - 1)]
    nodes = {_start(stand.chain): stand.nominal[_start(stand.chain)]}
    for index, free in _order(stand.chain):
        plan = plans[index]
        if plan is None or not _settle(frame, stand, index, free, nodes, plan[0]):
            return None
    return Settled(tuple(plan for plan in plans if plan), tuple(nodes[index] for index in range(len(nodes))))


def lay(frame: Frame, stand: Stand, settled: Settled) -> list[Piece]:
    """The pieces of a chain at its corner, from what was solved there or at one that is alike."""
    nodes = dict(enumerate(settled.nodes))
    pieces = []
    for index, free in sorted(_order(stand.chain)):
        part, computed = settled.plans[index]
        a, b = _ends(frame, stand, index, nodes, stand.off[index])
        made = turn_of(frame, a, b)
        pieces.append(Piece(stand.chain, stand.corner, stand.chain.roles[index], part, a, b, computed, made,
                            is_made(stand.chain, made), "from" if free == index + 1 else "to"))
    return pieces


def _start(chain: Chain) -> int:
    """Which of a chain's landings is set."""
    return next((i for i, landing in enumerate(chain.landings) if landing.set), 0)


def _order(chain: Chain) -> list[tuple[int, int]]:
    """The pieces outward from the set landing, each with its landing that follows."""
    start, pairs = _start(chain), range(len(chain.landings) - 1)
    return [(i, i + 1) for i in pairs if i >= start] + [(i, i) for i in reversed(pairs) if i < start]


def _plan(frame: Frame, stand: Stand, index: int) -> tuple[Part, float] | None:
    """The part of one piece, and its computed length with every landing at its designed mark."""
    a, b = _ends(frame, stand, index, dict(enumerate(stand.nominal)), stand.made_off[index])
    computed = distance(a.hole, b.hole)
    part = choose_part(frame, stand.chain, stand.chain.roles[index], turn_of(frame, a, b), computed)
    return None if part is None else (part, computed)


def choose_part(frame: Frame, chain: Chain, role: str, made: Turn, computed_in: float) -> Part | None:
    """The part of a role for this spacing and hand whose made length matches, or a refusal with both figures."""
    hand = made.hand if is_made(chain, made) else ""
    fits = [
        part for part in frame.family.parts.values()
        if part.role == role and part.hand == hand
        and (part.spacing_in is None or abs(part.spacing_in - frame.spacing_in) < 1e-6)
    ]
    if not fits:
        frame.refuse(
            "no-part", "No part of {family} has the role {role!r} for spacing {spacing_in}{hand}: add one of {computed_in} "
            "to its parts.", "family", family=frame.family.code, role=role, spacing_in=frame.spacing_in,
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


def is_made(chain: Chain, made: Turn) -> bool:
    """Whether the press makes this twist; a smaller one is taken up by the bands."""
    return chain.twist_made == "press" and abs(made.twist_deg) >= chain.slack_deg


def _ends(
    frame: Frame, stand: Stand, index: int, nodes: dict[int, float], off: tuple[float, float]
) -> tuple[Spot, Spot]:
    ends = []
    for end in (0, 1):
        landing = stand.chain.landings[index + end]
        other = stand.chain.landings[index + 1 - end]
        node = nodes[index + end]
        ends.append(spot(frame, stand.chain, stand.corner.side, stand.corner.hoop(landing.hoop),
                         stand.corner.hoop(other.hoop), landing.station, node, node + off[end],
                         stand.nominal[index + end], landing.set))
    return ends[0], ends[1]


def band_of(frame: Frame, chain: Chain, side: str, hoop: int, other: int) -> Band:
    """The band of a piece's end on one hoop, the piece going toward another: its hole as the chain's fitting has it."""
    fitting = frame.family.fittings[chain.fitting]
    offset = fitting.hole_offset_in or 0.0
    if fitting.hole_direction == "inward":
        return Band(side, hoop, other, 0.0, offset)
    return Band(side, hoop, other, offset)


def spot(
    frame: Frame, chain: Chain, side: str, hoop: int, other: int, station: str, node: float, s: float, nominal: float,
    is_set: bool,
) -> Spot:
    """A band's centre s inches up the hoop, with its hole toward hoop `other`."""
    return Spot(hoop, side, station, node, s, nominal, is_set, hole(frame, band_of(frame, chain, side, hoop, other), s))


def chain_of(frame: Frame, brace: Brace) -> Chain:
    """The chain that a piece in the frame is one of, or is fitted like."""
    return next(chain for chain in frame.family.chains if chain.code == brace.chain)


def turn_of(frame: Frame, a: Spot, b: Spot) -> Turn:
    """Twist, hand and bends of a piece between two landings."""
    return turn(a.hole, b.hole, outward(frame, a.side, a.s), outward(frame, b.side, b.s))


def _settle(frame: Frame, stand: Stand, index: int, free: int, nodes: dict[int, float], part: Part) -> bool:
    """Hold the settled end of one piece and let the other slide to where the made length reaches; false if refused."""
    nodes[free] = stand.nominal[free]
    if part.length_in is None:
        return True
    a, b = _ends(frame, stand, index, nodes, stand.off[index])
    held, loose = (a, b) if free == index + 1 else (b, a)
    s = follow_made(frame, stand.chain, held, loose, part)
    if s is None:
        return False
    nodes[free] = s - stand.off[index][free - index]
    return True


def follow_made(frame: Frame, chain: Chain, held: Spot, loose: Spot, part: Part) -> float | None:
    """Where up its hoop the loose end's band comes to lie for the part's made length, or a refusal."""
    band = band_of(frame, chain, loose.side, loose.hoop, held.hoop)
    s = follow(frame, held.hole, band, loose.s, part.length_in or 0.0)
    if s is None:
        frame.refuse("cannot-follow", "Part {part} of {made_in} can't reach from {fixed} to {free}: check the stations.",
                     "stations", part=part.number, made_in=part.length_in,
                     fixed=frame.code(held.hoop, held.side, held.station),
                     free=frame.code(loose.hoop, loose.side, loose.station))
    return s
