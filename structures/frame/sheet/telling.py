"""A document and the units in which it is told: figures, names, letters and places, the same all over one paper."""

from __future__ import annotations

from functools import cached_property

from structures.frame.document import Brace, Document, Landing, Line, Mark, Piece, Tie
from structures.frame.drawing import letters
from structures.frame.lengths import inches_only, millimetres, show_length
from structures.frame.names import short_name

SAME_IN = 1e-3
_SIDES = {"L": "left", "R": "right"}
_STATIONS = {"brace-hip": "hip", "mid": "middle", "roof": "middle", "purlin": "side purlin", "upper": "upper purlin"}


class Telling:
    """What one paper says about a document, in "us" or "metric" units."""

    def __init__(self, document: Document, units: str = "us"):
        self.document = document
        self.units = units
        self.letters = letters(document)
        self.lines: dict[str, Line] = {line.part: line for line in document.lines}

    def figure(self, inches: float) -> str:
        """A length as one reads it off a tape: 4-1 3/8, or 1254 mm."""
        return show_length(inches, self.units)

    def small(self, inches: float) -> str:
        """A few inches: 2 3/8 in., or 60 mm."""
        return millimetres(inches) if self.units == "metric" else f"{inches_only(inches)} in."

    def name(self, part: str) -> str:
        """A part's name without the width of its family; the number itself where the kit has no such line."""
        return short_name(self.lines[part].name) if part in self.lines else part

    def section(self, part: str, *, both: bool = False) -> str:
        """The hoop section that a mark lies on, in two words: "side section", "left section"; `both` leaves the side out."""
        words, _, side = self.name(part).removeprefix("Hoop ").lower().partition(", ")
        return words if both or side not in ("left", "right") else f"{side} {words}"

    def letter(self, part: str) -> str:
        """The mark that this part has on every drawing; "" for what has none."""
        return self.letters.get(part, "")

    def hand_made(self, part: str) -> str:
        """The hand that the press makes, "" for a part without a twist."""
        return self.lines[part].hand if part in self.lines else ""

    @cached_property
    def by_id(self) -> dict[str, Piece]:
        """Every piece by its place id."""
        return {piece.id: piece for piece in self.document.pieces()}

    @cached_property
    def seams_in(self) -> tuple[float, ...]:
        """Where sections meet, from the foot along the tube, each place once."""
        return tuple(sorted({mark.from_foot_in for mark in self.document.marks if mark.kind == "seam"}))

    def measured(self, mark: Mark) -> str:
        """From which end of the piece, and which way: "up from the foot", "down from the seam"."""
        if mark.from_datum_in < SAME_IN:
            return f"at the {mark.datum}"
        if mark.datum == "seam":
            below = mark.from_foot_in - mark.from_datum_in
            up = any(abs(below - seam) < SAME_IN for seam in self.seams_in)
        else:
            up = mark.datum == "foot"
        return f"{'up' if up else 'down'} from the {mark.datum}"

    def place(self, code: str) -> str:
        """A location code in words: "hoop 1 right shoulder"."""
        hoop, _, rest = code.partition(":")[0].partition("-")
        if hoop[:1] != "H" or not hoop[1:].isdigit():
            return code
        side = _SIDES.get(rest[:1], "") if rest[1:2] == "-" else ""
        station = rest[2:] if side else rest
        return " ".join(filter(None, ("hoop", hoop[1:], side, station_words(station))))


def station_words(station: str) -> str:
    """The word of a station as the drawings have it."""
    return _STATIONS.get(station, station.replace("-", " "))


def following_end(document: Document, brace: Brace) -> str:
    """Which end of a brace comes to lie where the made length lets it: "from" or "to".

    A document that keeps no reach tells it by the chain: pieces go up from the landing that is set by its mark, so
    the end that is farther from that landing's hoop follows.
    """
    if brace.reach is not None:
        return brace.reach.end
    if brace.landing_from.set != brace.landing_to.set:
        return "to" if brace.landing_from.set else "from"
    chain = [one for one in document.braces if (one.corner, one.chain) == (brace.corner, brace.chain)]
    set_hoops = [at.hoop for one in chain for at in (one.landing_from, one.landing_to) if at.set]
    if not set_hoops:
        return "to" if brace.set_end == "from" else "from"
    away = [min(abs(at.hoop - hoop) for hoop in set_hoops) for at in (brace.landing_from, brace.landing_to)]
    return "from" if away[0] > away[1] else "to"


def landings_of(piece: Brace | Tie) -> tuple[Landing, ...]:
    """Where a piece meets hoops, end to end; a one-piece chain's own hoops between its ends included."""
    between = piece.passes if isinstance(piece, Brace) else ()
    return (piece.landing_from, *between, piece.landing_to)
