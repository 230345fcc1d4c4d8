"""What there is to draw: a document's hoops, lengthwise lines and pieces, sorted out once for every view."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from structures.frame.document import Document, Joint, Landing, Member, Point
from structures.frame.lengths import MM_PER_INCH, show_length, sixteenths
from structures.frame.profile import Profile

from .advances import text_width
from .turned import other_side, turned

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"        # no I, no O: they read as figures
_ROLE_ORDER = ("side-brace", "roof-lower", "roof-upper", "tie")
_ROLE_WORDS = {"side-brace": "side brace", "roof-lower": "roof brace, lower", "roof-upper": "roof brace, upper",
               "tie": "collar tie"}
PIPE_WORDS = {"roll-pipe": "roll-up pipe", "runner": "runner"}
_HAND_ORDER = {"left": 0, "none": 1, "": 1, "right": 2}


@dataclass(frozen=True, slots=True)
class Piece:
    """A brace or tie, hole to hole. `start` and `end` are the computed holes; `passes` the hoops it is clamped to between.

    `turned` is the index of the end that is bolted last and so turned by the twist made in it, None without one.
    """

    id: str
    part: str
    role: str
    zone: str                      # "side", "roof", "tie"
    option: str
    corner: str
    hand: str                      # the hand the part is made with: "left", "right" or ""
    length_in: float
    start: Point
    end: Point
    landings: tuple[Landing, Landing]
    passes: tuple[Landing, ...] = ()
    turned: int | None = None

    @property
    def hoops(self) -> tuple[int, int]:
        """The hoops of its two landings."""
        return self.landings[0].hoop, self.landings[1].hoop

    @property
    def words(self) -> str:
        """What the piece is, in words, its twist included."""
        role = _ROLE_WORDS.get(self.role, self.role.replace("-", " "))
        return f"{role}, {self.hand} twist" if self.hand else role


@dataclass(frozen=True, slots=True)
class Lengthwise:
    """A purlin run or a board's edge: a line along the structure at (x, z) from `y0` to `y1`."""

    kind: str                      # "purlin" or "board"
    code: str                      # "ridge", "purlin", "upper", "hip-board", ...
    side: str
    x: float
    z: float
    y0: float
    y1: float
    names: frozenset[str] = frozenset()      # ids, parts and options that light it


@dataclass(frozen=True, slots=True)
class Seam:
    """Where two hoop sections meet: on `side` ("left", "right", or "" at the ridge), measured from that side's foot."""

    side: str
    from_foot_in: float


@dataclass(frozen=True)
class Asked:
    """How one drawing was asked for: what is lit, offered, added later, wrong or unseen, and in which units.

    `layers` are the layers that are drawn, None all of them; `names` what people call the ends, by 1 and 2; `turned` is
    true where one stands at the far end.
    """

    lit: frozenset[str] = frozenset()
    offered: Document | None = None
    added: Mapping[str, str] = field(default_factory=dict)
    faults: Mapping[str, str] = field(default_factory=dict)
    unseen: frozenset[str] = frozenset()
    units: str = "us"
    layers: frozenset[str] | None = None
    names: Mapping[int, str] = field(default_factory=dict)
    turned: bool = False


class Scene:
    """A document and what was asked of it. Seen from the far end it is turned half round: hoops and sides are then those of
    the sheet, and `number` and `side_of` say what they are in the structure's own words."""

    def __init__(self, document: Document, asked: Asked):
        if asked.turned:
            document = turned(document)
            asked = replace(asked, offered=turned(asked.offered) if asked.offered else None)
        self.document = document
        self.asked = asked
        self.profile = Profile.read(document.profile)
        self.hoops = document.measures.hoops
        self.letters = letters(document, asked.offered)

    def number(self, hoop: int) -> int:
        """A drawn hoop's own number, which counts from the tag end wherever one stands."""
        return self.hoops + 1 - hoop if self.asked.turned else hoop

    def side_of(self, side: str) -> str:
        """The structure's own side of a side of the sheet."""
        return other_side(side) if self.asked.turned else side

    def end_words(self, end: int, room: float, size: int) -> str:
        """What people call an end (1 is the tag end), as long as it fits into `room` px at a type size."""
        name = self.asked.names.get(end, "")
        return name if name and text_width(name, size) <= room else ("tag end", "far end")[end - 1]

    def y(self, hoop: int) -> float:
        """Where hoop `hoop` (1 at the tag end) stands along the structure, in inches."""
        return (hoop - 1) * self.document.measures.spacing_in

    def figure(self, inches: float) -> str:
        """A length as this drawing shows it."""
        return show_length(inches, self.asked.units)

    def figure_between(self, low_in: float, high_in: float) -> str:
        """The difference of two lengths, taken from the figures as they are shown, so that a row of them adds up."""
        if self.asked.units == "metric":
            return show_length((round(high_in * MM_PER_INCH) - round(low_in * MM_PER_INCH)) / MM_PER_INCH, "metric")
        return show_length((sixteenths(high_in) - sixteenths(low_in)) / 16)

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """Every brace and tie of the document."""
        return pieces_of(self.document)

    @cached_property
    def lit(self) -> tuple[Piece, ...]:
        """The pieces that were asked for."""
        return tuple(piece for piece in self.pieces if self.is_lit(piece))

    def is_lit(self, piece: Piece) -> bool:
        """Whether a piece was asked for, by its id, its part or its option."""
        return not self.asked.lit.isdisjoint((piece.id, piece.part, piece.option))

    def asks_for(self, *names: str) -> bool:
        """Whether something with one of these names (place id, part, option) was asked for."""
        return not self.asked.lit.isdisjoint(names)

    @cached_property
    def _parts(self) -> dict[str, list[str]]:
        """Every part that the kit has for a place, by place id, in the kit's order."""
        found: dict[str, list[str]] = {}
        for line in self.document.lines:
            for because in line.because:
                for place in because.where:
                    parts = found.setdefault(place, [])
                    if line.part not in parts:
                        parts.append(line.part)
        return found

    def parts_at(self, place: str) -> list[str]:
        """The parts that go to a place by its id: a joint's band, bolt and nut."""
        return self._parts.get(place, [])

    def asks_for_joint(self, joint: Joint) -> bool:
        """Whether a joint was asked for, by its place id or any part that goes to it."""
        return bool(self.asked.lit) and self.asks_for(joint.id, *self.parts_at(joint.id))

    def lights(self, line: Lengthwise) -> bool:
        """Whether a purlin run or board was asked for."""
        return not self.asked.lit.isdisjoint(line.names)

    def is_wrong(self, piece: Piece) -> bool:
        """Whether the piece, or the band at one of its ends, has something wrong."""
        faults = self.asked.faults
        return bool(faults) and (piece.id in faults or any(landing.joint in faults for landing in piece.landings))

    def loose_end(self, piece: Piece) -> int | None:
        """Which end has the fault, 0 or 1; None when it is the piece itself."""
        ends = [i for i, landing in enumerate(piece.landings) if landing.joint in self.asked.faults]
        return ends[0] if ends else None

    @cached_property
    def has_hands(self) -> bool:
        """Whether any piece is made with a twist, so that those without one are worth saying so."""
        return any(piece.hand for piece in self.pieces)

    def date_added(self, piece: Piece) -> str:
        """When the piece was added to the structure, "" if it came with the order."""
        return self.asked.added.get(piece.id) or self.asked.added.get(piece.option, "")

    @cached_property
    def phantoms(self) -> tuple[Piece, ...]:
        """Pieces of the offered document that this one has not."""
        if self.asked.offered is None:
            return ()
        here = {piece.id for piece in self.pieces}
        return tuple(piece for piece in pieces_of(self.asked.offered) if piece.id not in here)

    def no_words(self, option: str) -> str:
        """Why an option is not in the document: "now ..." with what took its place, or which kind of no."""
        for answer in self.document.options:
            if answer.code == option and not answer.included:
                return answer.no_words.in_units(self.asked.units) if answer.no_because == "replaced" else answer.no_because
        return "offered, not bought"

    @cached_property
    def named_hoops(self) -> frozenset[int]:
        """The hoops that the page names: those where a lit or phantom piece lands."""
        shown = self.lit + self.phantoms
        return frozenset(hoop for piece in shown for hoop in piece.hoops)

    @cached_property
    def brace_hoops(self) -> frozenset[int]:
        """The hoops that braces land on; where bays are left out, these stay."""
        both = self.pieces + self.phantoms
        return frozenset(hoop for piece in both if piece.zone != "tie" for hoop in piece.hoops)

    @cached_property
    def _points(self) -> dict[str, Point]:
        found: dict[str, Point] = {}
        for member in self.document.members:
            (ax, ay, az), (bx, by, bz) = member.start, member.end
            found[member.id] = ((ax + bx) / 2, (ay + by) / 2, (az + bz) / 2)
        for joint in self.document.joints:
            found[joint.id] = joint.at
        half, spacing = self.profile.half_in, self.document.measures.spacing_in
        for panel in self.document.panels:
            if panel.bay:
                s = ((panel.s_from_in or 0.0) + (panel.s_to_in or panel.s_from_in or 0.0)) / 2
                u, z = self.profile.point(min(s, half))
                found[panel.id] = (-u if panel.side == "left" else u, (panel.bay - 0.5) * spacing, z)
        return found

    def point_of(self, place: str) -> Point | None:
        """Where a place is, by its id, else by its code's hoop and station; None for a code that tells neither."""
        if place in self._points:
            return self._points[place]
        head, _, rest = place.partition(":")[0].partition("-")
        side, _, station = rest.partition("-") if rest[:2] in ("L-", "R-") else ("", "", rest)
        if head[:1] not in ("H", "B") or not head[1:].isdigit():
            return None
        u, z = self.profile.point(min(self.document.stations.get(station, 0.0), self.profile.half_in))
        y = self.y(int(head[1:])) + (self.document.measures.spacing_in / 2 if head[0] == "B" else 0.0)
        x = -u if side == "L" else u
        return (-x, self.document.measures.length_in - y, z) if self.asked.turned else (x, y, z)

    @cached_property
    def runs(self) -> tuple[Lengthwise, ...]:
        """Purlin runs, from their members."""
        found: dict[str, list[Member]] = {}
        for member in self.document.members:
            if member.role in ("stick", "end"):
                found.setdefault(member.id.partition(":")[0].partition("-")[2], []).append(member)
        lines = []
        for place, members in found.items():
            x, _, z = members[0].start
            ys = [y for member in members for y in (member.start[1], member.end[1])]
            names = {name for member in members for name in (member.id, member.part, member.option) if name}
            code = _run_of(place)
            side = "" if code == place else "left" if x < 0 else "right"
            lines.append(Lengthwise("purlin", code, side, x, z, min(ys), max(ys), frozenset(names)))
        return tuple(lines)

    @cached_property
    def boards(self) -> tuple[Lengthwise, ...]:
        """The edges of boards that lie above ground, and channel where no board lies behind it, from their panels."""
        edges = {(panel.kind, panel.side, round(s, 3))
                 for panel in self.document.panels if panel.kind.endswith("board") or panel.kind == "channel"
                 for s in (panel.s_from_in, panel.s_to_in) if s is not None and s > 0.5 and panel.bay}
        boarded = {(side, s) for kind, side, s in edges if kind != "channel"}
        behind = {edge[1:] for edge in edges if edge[0] == "channel"} & boarded
        edges = {edge for edge in edges if edge[0] != "channel" or edge[1:] not in boarded}
        length = self.document.measures.length_in
        lines = []
        options = {panel.kind: panel.option for panel in self.document.panels}
        for kind, side, s in sorted(edges):
            u, z = self.profile.point(s)
            kinds = {kind, "channel"} if (side, s) in behind else {kind}
            names = frozenset(kinds | {options[one] for one in kinds}) - {""}
            lines.append(Lengthwise("board", kind, side, -u if side == "left" else u, z, 0.0, length, names))
        return tuple(lines)

    @cached_property
    def pipes(self) -> tuple[Lengthwise, ...]:
        """What else runs along a side in sticks: roll-up pipes, and the runners that hoops stand on."""
        found: dict[tuple[str, str], list[Member]] = {}
        for member in self.document.members:
            if member.role in PIPE_WORDS:
                found.setdefault((member.role, "left" if member.start[0] < 0 else "right"), []).append(member)
        return tuple(
            Lengthwise("pipe", role, side, of[0].start[0], of[0].start[2], min(y for m in of for y in (m.start[1], m.end[1])),
                       max(y for m in of for y in (m.start[1], m.end[1])),
                       frozenset(name for m in of for name in (m.id, m.part, m.option) if name))
            for (role, side), of in found.items())

    @property
    def hip(self) -> tuple[str, float] | None:
        """What runs along the hip, in words, and where, from the foot: a board, else the channel alone."""
        station = self.document.stations.get("hip")
        if station is None:
            return None
        kinds = {panel.kind for panel in self.document.panels if panel.bay and (panel.s_to_in or 0) > station - 12}
        word = "hip board" if "hip-board" in kinds else "hip channel" if "channel" in kinds else ""
        return (word, station) if word else None

    @cached_property
    def seams(self) -> tuple[Seam, ...]:
        """Where hoop 1's sections meet, left side first."""
        half = self.profile.half_in
        places = sorted({round(member.s_from_in, 3) for member in self.document.members
                         if member.role == "section" and member.hoop == 1 and member.s_from_in})
        return tuple(Seam("left", s) if s < half - 0.01 else
                     Seam("right", 2 * half - s) if s > half + 0.01 else Seam("", half) for s in places)

    def on_both_sides(self, seam: Seam) -> bool:
        """Whether the other side has a seam at the same place; one at the ridge is on both."""
        return not seam.side or any(other.side not in ("", seam.side) and abs(other.from_foot_in - seam.from_foot_in) < 0.1
                                    for other in self.seams)

    @cached_property
    def post_depth_in(self) -> float:
        """How far the posts reach below the ground line."""
        ends = [z for m in self.document.members if m.role == "post" and m.hoop == 1 for z in (m.start[2], m.end[2])]
        return max(0.0, -min(ends, default=0.0))


def _run_of(place: str) -> str:
    """ "purlin" from "L-purlin"; the ridge has no side."""
    letter, _, code = place.partition("-")
    return code if code and letter in "LR" else place


def pieces_of(document: Document) -> tuple[Piece, ...]:
    """Every brace and tie of a document."""
    braces = [Piece(b.id, b.part, b.role, b.zone, b.option, b.corner, b.hand if b.twist_made else "", b.length_in,
                    b.landing_from.hole, b.landing_to.hole, (b.landing_from, b.landing_to), b.passes,
                    {"from": 0, "to": 1}.get(b.turned_end) if b.twist_made else None) for b in document.braces]
    ties = [Piece(t.id, t.part, t.role, "tie", t.option, "", "", t.length_in,
                  t.landing_from.hole, t.landing_to.hole, (t.landing_from, t.landing_to)) for t in document.ties]
    return tuple(braces + ties)


def letters(document: Document, offered: Document | None = None) -> dict[str, str]:
    """The mark of every brace and tie part: A, B, C..., each hand its own, the same on drawings and in tables.

    Side braces first, then the roof's from below, left hand before right, then ties; what is only in `offered` (the
    same structure with an option that was not bought) follows. Part number to letter.
    """
    order: list[str] = []
    for source in (document, offered):
        found = {} if source is None else {piece.part: piece for piece in reversed(pieces_of(source))}
        for piece in sorted(found.values(), key=_order):
            if piece.part not in order:
                order.append(piece.part)
    return {part: _letter(i) for i, part in enumerate(order)}


def _order(piece: Piece) -> tuple[int, str, int, str]:
    rank = _ROLE_ORDER.index(piece.role) if piece.role in _ROLE_ORDER else len(_ROLE_ORDER)
    return rank, piece.role, _HAND_ORDER.get(piece.hand, 1), piece.part


def _letter(index: int) -> str:
    """A to Z without I and O, then A2, B2, ..."""
    turn, place = divmod(index, len(LETTERS))
    return LETTERS[place] + (str(turn + 1) if turn else "")


def by_part(pieces: Iterable[Piece]) -> dict[str, list[Piece]]:
    """Pieces by their part, in the order met."""
    found: dict[str, list[Piece]] = {}
    for piece in pieces:
        found.setdefault(piece.part, []).append(piece)
    return found


def asked_for(lit: Collection[str], **rest: object) -> Asked:
    """What was asked, with the collections made fast to look into."""
    return Asked(lit=frozenset(lit), **rest)  # type: ignore[arg-type]
