"""What the maker's own change to one order may be about: the pieces of its frame and its places, in words for a list.

Pure: a document and its family in, choices out. Lengths in inches.
"""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass

from structures.frame.document import Brace, Document, Tie
from structures.frame.drawing import JointKind, joint_kinds
from structures.frame.family import Family, Part
from structures.frame.lengths import show_length
from structures.frame.names import short_name

# A value and its words; choices that belong together stand under a heading.
Choice = tuple[str, str]
Group = tuple[str, list[Choice]]
SIDES = [("L", "left"), ("R", "right")]
_STATION = re.compile(r"H(?P<hoop>\d+)(?:-(?P<side>[LR]))?(?:-(?P<station>[a-z-]+))?")


@dataclass(frozen=True, slots=True)
class Station:
    """A place on a hoop as it is chosen in a list: each part is "" where it was not."""

    hoop: str = ""
    side: str = ""
    station: str = ""

    @classmethod
    def read(cls, code: str) -> Station:
        """The parts of a place like H3-L-mid; none of them where it is no such place."""
        found = _STATION.fullmatch(code)
        return cls(*(found[name] or "" for name in ("hoop", "side", "station"))) if found else cls()

    @property
    def code(self) -> str:
        """H3-L-mid, or H3 for a hoop alone; "" without a hoop."""
        return "-".join(filter(None, (f"H{self.hoop}" if self.hoop else "", self.side, self.station))) if self.hoop else ""


def piece_groups(document: Document) -> list[Group]:
    """Every brace and tie under its corner: "B1-L-side, side brace SB26, hoops 1 to 2, left"."""
    groups: dict[str, list[Choice]] = defaultdict(list)
    for piece in pieces_of(document):
        heading = "Collar ties" if isinstance(piece, Tie) else f"Braces, {piece.corner}"
        groups[heading].append((piece.id, piece_words(document, piece)))
    return list(groups.items())


def joint_groups(document: Document) -> list[Group]:
    """Every fitting under its kind: "H3-L-purlin, cross connector, hoop and purlin"."""
    return [(kind.title, [(joint, _joint_words(joint, kind)) for joint in kind.joints]) for kind in joint_kinds(document)]


def pieces_of(document: Document) -> tuple[Brace | Tie, ...]:
    """The braces, then the ties: what may be moved."""
    return (*document.braces, *document.ties)


def piece_words(document: Document, piece: Brace | Tie) -> str:
    """A piece by its place, its part, the hoops that it lies between and the side."""
    name = next((short_name(line.name) for line in document.lines if line.part == piece.part), piece.role)
    words = f"{_numbered(piece.id)}, {name[:1].lower()}{name[1:]} {piece.part}"
    if isinstance(piece, Tie):
        return f"{words}, hoop {piece.hoop}"
    first, last = sorted((piece.landing_from.hoop, piece.landing_to.hoop))
    return f"{words}, hoops {first} to {last}, {piece.landing_from.side}"


def target_words(document: Document, target: str) -> str:
    """What a place id is called in the lists; the id itself where nothing has it."""
    pieces = {piece.id: piece for piece in pieces_of(document)}
    if target in pieces:
        return piece_words(document, pieces[target])
    kind = next((kind for kind in joint_kinds(document) if target in kind.joints), None)
    return _joint_words(target, kind) if kind else target


def part_choices(family: Family) -> list[Choice]:
    """The parts that may be added to one order: braces and ties."""
    return [(part.number, f"{part.number}, {short_name(part.name)}") for part in family.parts.values() if _may_be_added(family, part)]


def is_tie_part(family: Family, number: str) -> bool:
    """Whether a part is a tie's, so that a hoop is all that its place needs."""
    part = family.parts.get(number)
    return part is not None and any(ties.role == part.role for ties in family.ties)


def hoop_choices(document: Document) -> list[Choice]:
    """Hoop 1, the tag end, to the last."""
    last = document.measures.hoops
    ends = {1: ", tag end", last: ", far end"}
    return [(str(hoop), f"hoop {hoop}{ends.get(hoop, '')}") for hoop in range(1, last + 1)]


def station_choices(family: Family, units: str) -> list[Choice]:
    """The stations of a hoop from the foot up: "mid, 2-5 1/2 from the foot"."""
    stations = sorted(family.stations.values(), key=lambda station: station.from_foot_in)
    return [(one.name, f"{one.name}, {show_length(one.from_foot_in, units)} from the foot") for one in stations]


def _joint_words(joint: str, kind: JointKind) -> str:
    return f"{_numbered(joint)}, {kind.title[:1].lower()}{kind.title[1:]}"


def _may_be_added(family: Family, part: Part) -> bool:
    return is_tie_part(family, part.number) or any(part.role in chain.roles for chain in family.chains)


def _numbered(ident: str) -> str:
    """The code of a place id, with its number where it is not the first of its kind there."""
    code, _, rest = ident.partition(":")
    ordinal = rest.rpartition(":")[2]
    return code if ordinal in ("", "1") else f"{code}, number {ordinal}"
