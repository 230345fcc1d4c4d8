"""What was picked, split into bundles, bags, rolls and cartons as people lift and count them.

Pure: taken pieces and a frozen document in, packages out. Weights are pounds, lengths inches; a weight is None as soon as
one piece in the package has none, since a sum that leaves something out would read as the whole.

Sources: 51 lb is the limit for one ideal lift (NIOSH 94-110); 10 ft is the distance kept from power lines, so longer tube
is carried looking up (rural electric cooperatives' farm-safety pages); 400 lb to a strapped bundle is common practice.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from inventory.whereabouts import SIDES, read_place
from structures.frame.document import Document, Line
from structures.frame.leftovers import Leftover, extras, offcuts

ONE_LIFT_LB = 51.0
LOOK_UP_IN = 120.0
BUNDLE_LB = 400.0


@dataclass(frozen=True, slots=True)
class Taken:
    """Pieces of one part and one lot that were picked and not yet sent. `line` is the caller's own key.

    `each_lb` is one piece's weight, None when unknown. `sent` counts pieces of this part that went before.
    """

    line: int
    part: str
    name: str
    role: str
    kind: str
    length_in: float | None
    ends: str
    count: int
    lot: str
    each_lb: float | None
    sent: int = 0


@dataclass(frozen=True, slots=True)
class Packed:
    """So many of one part and lot in a package; `spare` marks pieces beyond what the frame needs.

    `places` are the place ids that these very pieces are for, empty when they serve the part's places at large.
    """

    line: int
    part: str
    name: str
    role: str
    ends: str
    length_in: float | None
    count: int
    lot: str
    each_lb: float | None
    spare: bool = False
    places: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Caution:
    """`code` "look-up" (with the length) or "heavy": how many people one lift takes, and the heaviest single piece of a
    bundle that may be opened (None where there is nothing to open)."""

    code: str
    length_in: float | None = None
    single_lb: float | None = None
    people: int = 1


@dataclass(frozen=True, slots=True)
class Package:
    """One thing that is lifted and counted. `kind` is "bundle", "bag", "roll" or "carton"."""

    kind: str
    title: str
    lines: tuple[Packed, ...]
    weight_lb: float | None
    longest_in: float | None
    cautions: tuple[Caution, ...]
    leftovers: tuple[Leftover, ...]


@dataclass(frozen=True, slots=True)
class _Group:
    """Pieces that go together. Above `most_lb` they are shared out; `single` is one package to a piece."""

    kind: str
    title: str
    order: int
    most_lb: float | None = None
    single: bool = False


def _bundle(title: str, order: int) -> _Group:
    return _Group("bundle", title, order, BUNDLE_LB)


_POSTS = _bundle("ground posts", 30)
_STICKS = _bundle("purlin sticks", 40)
_PIECES = _bundle("braces, ties, purlin ends", 50)
_BOARDS = _bundle("boards", 60)
_GEAR = _Group("carton", "anchors, carriers, cranks and blower", 75, ONE_LIFT_LB)
_DOOR = _Group("carton", "door", 76, single=True)
_CHANNEL = _Group("carton", "channel and wire", 70)
_BANDS = _Group("bag", "bands", 80)
_CONNECTORS = _Group("bag", "connectors", 81)
_FITTINGS = _Group("bag", "other fittings", 82)
_BOLTS = _Group("bag", "bolts, nuts and screws", 83)
_FILM = _Group("roll", "film", 90, single=True)


def pack(taken: Iterable[Taken], document: Document | None) -> tuple[Package, ...]:
    """Split what was taken into packages, in the order in which they are loaded.

    `document` is the frame that the pieces belong to; None packs loose parts by what they are. Every piece taken is in
    exactly one package.
    """
    lines = {line.part: line for line in document.lines} if document else {}
    halves = document is not None and not has_roof_sections(document)
    groups: dict[_Group, list[Packed]] = {}
    beyond: dict[str, list[Leftover]] = {}
    for parts in _by_part(taken):
        line = lines.get(parts[0].part)
        extra = _extra(parts, line)
        beyond[parts[0].part] = extras(parts[0].name, extra, line)
        for group, packed in _packed(parts, line, extra, halves):
            groups.setdefault(group, []).append(packed)
    # Each leftover is told once, with the first package that its part lies in: so it is taken out of here when told.
    sawn = offcuts(document) if document else {}
    packages: list[Package] = []
    for group in sorted(groups, key=lambda g: g.order):
        for share, title in _shares(group, groups[group]):
            packages.append(_package(group, title, share, sawn, beyond))
    return tuple(packages)


def _by_part(taken: Iterable[Taken]) -> list[list[Taken]]:
    """The taken pieces by part, in the order in which the parts were met."""
    parts: dict[str, list[Taken]] = {}
    for piece in taken:
        if piece.count > 0:
            parts.setdefault(piece.part, []).append(piece)
    return list(parts.values())


def _extra(parts: Sequence[Taken], line: Line | None) -> int:
    """How many of these pieces the frame does not need: what went before is counted first."""
    if line is None:
        return 0
    sent, now = parts[0].sent, sum(piece.count for piece in parts)
    return max(sent + now - line.needed, 0) - max(sent - line.needed, 0)


def _packed(parts: Sequence[Taken], line: Line | None, extra: int, halves: bool) -> list[tuple[_Group, Packed]]:
    """The pieces of one part, each with its group; the last `extra` of them are spare."""
    first = parts[0]
    needed = sum(piece.count for piece in parts) - extra
    places = _places(line)[first.sent:] if first.role == "section" else []
    found: list[tuple[_Group, Packed]] = []
    for piece in parts:
        here = min(piece.count, needed)
        needed -= here
        for group, count, its in _to_places(piece, here, places, halves):
            found.append((group, _one(piece, count, places=its)))
        places = places[here:]
        if piece.count > here:
            found.append((_group(piece), _one(piece, piece.count - here, spare=True)))
    return found


def _one(piece: Taken, count: int, *, spare: bool = False, places: tuple[str, ...] = ()) -> Packed:
    # A bolt's length stands in its name; only what is laid along a tape has one on the list.
    length = None if piece.kind in ("fastener", "fitting") else piece.length_in
    return Packed(piece.line, piece.part, piece.name, piece.role, piece.ends, length, count, piece.lot, piece.each_lb,
                  spare, places)


def _places(line: Line | None) -> list[str]:
    """Place ids of a part's pieces: all that stand on the left, then the right, each from hoop 1."""
    if line is None:
        return []
    ids = [where for because in line.because for where in because.where]

    def order(where: str) -> tuple[str, str, int]:
        place = read_place(where)
        return (place.station, place.side, place.n) if place else ("", "", 0)

    return sorted(ids, key=order)


def _to_places(piece: Taken, count: int, places: Sequence[str], halves: bool) -> list[tuple[_Group, int, tuple[str, ...]]]:
    """Share hoop sections out to the groups of the sides they stand on; other parts stay together."""
    if not places:
        return [(_group(piece), count, ())] if count else []
    shares: dict[_Group, list[str]] = {}
    for where in places[:count]:
        shares.setdefault(_section_group(where, halves), []).append(where)
    found = [(group, len(ids), tuple(ids)) for group, ids in shares.items()]
    rest = count - sum(n for _, n, _ in found)
    return [*found, (_group(piece), rest, ())] if rest else found


def has_roof_sections(document: Document) -> bool:
    """Whether hoops come in side and roof sections; else each half is one piece from the foot up."""
    places = (read_place(member.id) for member in document.members if member.role == "section")
    return any(place is not None and place.station != "foot" for place in places)


def _section_group(where: str, halves: bool) -> _Group:
    place = read_place(where)
    if place is None or place.station != "foot":
        return _bundle("hoop roof sections", 20)
    side = SIDES.get(place.side, "")
    title = "hoop halves" if halves else "hoop side sections"
    return _bundle(f"{title}, {side}" if side else title, 10 if side == "left" else 11)


_BY_ROLE = {
    "section": _bundle("hoop sections", 12), "post": _POSTS, "stick": _STICKS, "band": _BANDS,
    "connector": _CONNECTORS, "channel": _CHANNEL, "hip-board": _BOARDS, "base-board": _BOARDS, "board": _BOARDS, "film": _FILM,
    "runner": _bundle("runners", 35), "roll-pipe": _bundle("roll-up pipes", 45), "door": _DOOR,
    "anchor": _GEAR, "shoe": _GEAR, "wheel": _GEAR, "crank": _GEAR, "blower": _GEAR,
}
_BY_KIND = {"tube": _PIECES, "fitting": _FITTINGS, "fastener": _BOLTS, "lengthwise": _CHANNEL, "film": _FILM}


def _group(piece: Taken) -> _Group:
    return _BY_ROLE.get(piece.role) or _BY_KIND.get(piece.kind, _FITTINGS)


def _shares(group: _Group, lines: list[Packed]) -> list[tuple[list[Packed], str]]:
    """Packages of a group: over its limit it becomes several, of about equal count; rolls and doors are one to a piece."""
    if group.single:
        singles = [replace(line, count=1) for line in lines for _ in range(line.count)]
        return [([line], line.name[:1].lower() + line.name[1:]) for line in singles]
    weight = _weight(lines)
    if group.most_lb is None or weight is None or weight <= group.most_lb:
        return [(lines, group.title)]
    wanted = math.ceil(weight / group.most_lb)
    total = sum(line.count for line in lines)
    cuts = [round(total * i / wanted) for i in range(wanted + 1)]
    shares = [_slice(lines, low, high) for low, high in zip(cuts, cuts[1:], strict=False)]
    return [(share, f"{group.title}, {n} of {wanted}") for n, share in enumerate(shares, 1) if share]


def _slice(lines: Sequence[Packed], low: int, high: int) -> list[Packed]:
    """The pieces from number `low` up to `high`, counted through all lines."""
    found: list[Packed] = []
    start = 0
    for line in lines:
        first, last = max(low, start), min(high, start + line.count)
        if last > first:
            its = line.places[first - start:last - start]
            found.append(replace(line, count=last - first, places=its))
        start += line.count
    return found


def _weight(lines: Iterable[Packed]) -> float | None:
    total = 0.0
    for line in lines:
        if line.each_lb is None:
            return None
        total += line.each_lb * line.count
    return total


def _package(
    group: _Group, title: str, lines: Sequence[Packed], sawn: dict[str, list[Leftover]], beyond: dict[str, list[Leftover]]
) -> Package:
    weight = _weight(lines)
    lengths = [line.length_in for line in lines if line.length_in is not None and group.kind in ("bundle", "carton")]
    longest = max(lengths, default=None)
    cut = dict.fromkeys(line.part for line in lines if not line.spare)
    spare = dict.fromkeys(line.part for line in lines if line.spare)
    leftovers = [
        *(leftover for part in cut for leftover in sawn.pop(part, [])),
        *(leftover for part in spare for leftover in beyond.pop(part, [])),
    ]
    return Package(
        group.kind, title, tuple(lines), weight, longest, _cautions(group, lines, weight, longest), tuple(leftovers)
    )


def _cautions(
    group: _Group, lines: Sequence[Packed], weight: float | None, longest: float | None
) -> tuple[Caution, ...]:
    found = []
    if longest is not None and longest >= LOOK_UP_IN:
        found.append(Caution("look-up", length_in=longest))
    if weight is not None and weight > ONE_LIFT_LB:
        singles = [line.each_lb for line in lines if line.each_lb is not None]
        opens = group.kind == "bundle" and sum(line.count for line in lines) > 1
        people = math.ceil(weight / ONE_LIFT_LB)
        found.append(Caution("heavy", single_lb=max(singles) if opens else None, people=people))
    return tuple(found)
