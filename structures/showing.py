"""What a page of drawings says beside the drawing: which views there are, which line of the kit is which pieces, in words.

Pure: documents in, rows and sentences out.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from structures.frame.document import Brace, Document, Landing, Line, Piece, Tie
from structures.frame.drawing import JointKind
from structures.frame.names import listed, short_name
from structures.frame.retrofit import length_of
from structures.frame.said import Said

MOST_PLACES = 12     # more places than these are counted in a sentence and not named

CORNERS = {
    "tag-left": "tag end, left", "tag-right": "tag end, right", "far-left": "far end, left", "far-right": "far end, right",
    "mid-left": "mid-length, left", "mid-right": "mid-length, right",
}
# View: its group on the page and its title.
WORDS = {
    "frame": ("The whole", "Whole frame"),
    "unrolled": ("The whole", "Laid flat"),
    "section": ("The whole", "One hoop, with its marks"),
    "side-left": ("Sides", "Left side"),
    "side-right": ("Sides", "Right side"),
    **{f"inside-{code}": ("Corners from inside", words.capitalize()) for code, words in CORNERS.items()},
    **{f"corner-{code}": ("Corners from outside", words.capitalize()) for code, words in CORNERS.items()},
}
LAID_FLAT = "The whole frame laid flat, seen from outside, the left foot on top."


@dataclass(frozen=True, slots=True)
class View:
    """One drawing that can be asked for: a view of the whole, or with `joint` one kind of joint (its fitting set and role)."""

    code: str
    group: str
    title: str
    joint: str = ""
    role: str = ""

    @property
    def address(self) -> str:
        """How an address names it: its code, and for a joint its fitting set and role too."""
        return f"{self.code}:{self.joint}:{self.role}" if self.joint else self.code

    @property
    def words(self) -> str:
        """Its title where no heading says the rest: "Tag end, left, from inside"."""
        seen = self.group.removeprefix("Corners ") if self.group.startswith("Corners ") else ""
        return f"{self.title}, {seen}" if seen else self.title


def views_among(codes: Iterable[str]) -> tuple[View, ...]:
    """The views in the order of the page, groups together."""
    rank = {code: place for place, code in enumerate(WORDS)}
    found = [View(code, *WORDS.get(code, ("More", code.replace("-", " ").capitalize()))) for code in codes]
    return tuple(sorted(found, key=lambda view: rank.get(view.code, len(rank))))


def joint_views(kinds: Iterable[JointKind]) -> tuple[View, ...]:
    """A view of each kind of joint that a drawing of it can be asked for."""
    return tuple(View("joint", "Joints", kind.title, kind.fitting, kind.role) for kind in kinds)


@dataclass(frozen=True, slots=True)
class ViewGroup:
    """Views that stand under one heading."""

    name: str
    views: tuple[View, ...]


def grouped(views: Iterable[View]) -> tuple[ViewGroup, ...]:
    """The views under their headings, in order."""
    found: dict[str, list[View]] = defaultdict(list)
    for view in views:
        found[view.group].append(view)
    return tuple(ViewGroup(name, tuple(group)) for name, group in found.items())


@dataclass(frozen=True, slots=True)
class KitLine:
    """One line of the kit beside a drawing. `mark` is its letter on the drawings, `places` where it goes, by place id; none
    where it is counted by a measure."""

    part: str
    name: str
    mark: str
    quantity: int
    needed: int
    unit: str
    length_in: float | None
    places: tuple[str, ...]

    @property
    def words(self) -> Said:
        """What is said aloud when the line is touched."""
        values = {"count": f"{self.needed:,}", "name": self.name, "part": self.part, "length_in": self.length_in}
        head = "{name}, {part}: {count}" + (" of {length_in}" if self.length_in else "")
        if not self.places:
            return Said(head + ", counted by a measure: no place in the drawing is theirs alone.", values)
        return Said(head + ", at {where}.", {**values, "where": places_said(self.places)})


def kit_lines(document: Document, marks: Mapping[str, str]) -> tuple[KitLine, ...]:
    """Every line of the kit: those that the drawings letter first, in the letters' order, then as the kit has them."""
    rows = [_kit_line(line, marks.get(line.part, "")) for line in document.lines]
    order = {part: place for place, part in enumerate(marks)}
    return tuple(sorted(rows, key=lambda row: order.get(row.part, len(order))))


def _kit_line(line: Line, mark: str) -> KitLine:
    places = dict.fromkeys(place for because in line.because for place in because.where)
    return KitLine(line.part, short_name(line.name), mark, line.quantity, line.needed, line.unit, length_of(line), tuple(places))


def places_said(places: Iterable[str]) -> str:
    """Location codes in a row, each once; a great many are counted: "H1-L-foot, H1-R-foot and 24 more places"."""
    codes = list(dict.fromkeys(place.partition(":")[0] for place in places))
    if len(codes) > MOST_PLACES + 1:
        return listed([*codes[:MOST_PLACES], f"{len(codes) - MOST_PLACES} more places"])
    return listed(codes)


def part_of(document: Document, place: str) -> str:
    """The part of the piece with this place id; "" when there is no such piece."""
    return next((piece.part for piece in document.pieces() if piece.id == place), "")


def not_kept(document: Document) -> Said:
    """What an older document does not hold, in a sentence; empty for one that holds all."""
    if document.schema >= 2:
        return Said("")
    return Said(
        "This order was worked out before the hardware of each joint, the tails of flattened ends, the tightest gaps and the "
        "order of work were kept, so its drawings are without them. Pieces, places and marks are as they were sold."
    )


def lit_ids(lines: Iterable[KitLine], lit: str) -> frozenset[str]:
    """What a drawing is asked to light: a part with all its places, or one piece."""
    found = next((line for line in lines if line.part == lit), None)
    return frozenset((lit, *(found.places if found else ()))) if lit else frozenset()


@dataclass(frozen=True, slots=True)
class EndRow:
    """One brace or tie in words: where its two ends land, inches from the foot, and which of them is set by its mark."""

    id: str
    part: str
    length_in: float
    twist_deg: float
    hand: str
    turned: str
    landings: tuple[Landing, Landing]


def ends_in(document: Document, view: str) -> tuple[EndRow, ...]:
    """The braces and ties that a view shows, in words: one corner's, one side's, or all of them."""
    pieces: tuple[Brace | Tie, ...] = (*document.braces, *document.ties)
    return end_rows(piece for piece in pieces if _shown_in(piece, view))


def end_rows(pieces: Iterable[Piece]) -> tuple[EndRow, ...]:
    """The braces and ties among these pieces, in words."""
    return tuple(_end_row(piece) for piece in pieces if isinstance(piece, Brace | Tie))


def _end_row(piece: Brace | Tie) -> EndRow:
    twist, hand, turned = 0.0, "", ""
    if isinstance(piece, Brace):
        twist, hand = piece.twist_deg, piece.hand if piece.twist_made else ""
        turned = {"from": piece.landing_from.code, "to": piece.landing_to.code}.get(piece.turned_end, "") if hand else ""
    return EndRow(piece.id, piece.part, piece.length_in, twist, hand, turned, (piece.landing_from, piece.landing_to))


def _shown_in(piece: Brace | Tie, view: str) -> bool:
    kind, _, which = view.partition("-")
    if kind in ("corner", "inside"):
        return isinstance(piece, Brace) and piece.corner == which.replace("-", " ")
    if kind == "side":
        return isinstance(piece, Brace) and piece.landing_from.side == which
    return True
