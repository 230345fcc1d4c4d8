"""One line of a pick as the picker sees it: where, what, how long, what it could be taken for, what was taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from inventory.models import Holding, Part, PickEntry, PickLine
from inventory.package_words import goes_words
from inventory.packages import Packed
from inventory.queries.parts import twins_of
from inventory.queries.pick_lines import Stand, accepted, stand_of
from structures.frame import drawing
from structures.frame.lengths import inches_only, millimetres, show_length
from structures.frame.names import short_name


@dataclass(frozen=True, slots=True)
class Figure:
    """A length in the picker's huge figures: the whole part, its fraction ("" when none), its unit in words."""

    whole: str
    fraction: str
    said: str
    unit: str

    @property
    def is_wide(self) -> bool:
        return len(self.whole) + len(self.fraction) > 6


@dataclass(frozen=True, slots=True)
class TwinSeen:
    """The nearest look-alike: what it is, where it lies, and two tubes drawn over each other ("" for what is no tube)."""

    part: Part
    bins: str
    svg: str


@dataclass(frozen=True, slots=True)
class PickScreen:
    """Everything on one line's screen."""

    stand: Stand
    name: str
    mark: str
    size: str
    goes: str
    figure: Figure | None
    piece_svg: str
    twin: TwinSeen | None
    entries: Sequence[PickEntry]
    bins: Sequence[Holding]
    may_undo: bool

    @property
    def proposed(self) -> int:
        """What the count begins with: all that is missing, or what the bins still have of it."""
        left = self.stand.line.still_to_pick
        return min(left, self.stand.there) or left


def pick_screen(line: PickLine, units: str) -> PickScreen | None:
    """The screen of a line, or None when nothing is to be done with it any more."""
    stand = stand_of(line)
    if stand is None:
        return None
    part, order_line = line.part, line.order_line
    document = order_line.design.read() if order_line.design_id else None
    entries = accepted(line)
    packed = Packed(line.pk, part.number, part.name, part.role, part.ends, part.length_in, line.to_pick, "", None)
    return PickScreen(
        stand=stand, name=short_name(part.name) if document else part.name,
        mark=drawing.letters(document).get(part.number, "") if document else "",
        size=order_line.size if document else "loose parts", goes=goes_words(packed, document, units),
        figure=_figure(part, units), piece_svg=_piece(part, units), twin=_twin(part, units), entries=entries,
        bins=list(Holding.objects.free().filter(part=part).select_related("bin").in_walking_order()),
        may_undo=any(entry.count > 0 for entry in entries) and line.picked > 0,
    )


def _figure(part: Part, units: str) -> Figure | None:
    """Feet-inches for what is laid along a tape; inches for bolts; None for what has no length."""
    if part.length_in is None:
        return None
    ends = "hole to hole" if _holed(part) else "over all"
    if units == "metric":
        return Figure(millimetres(part.length_in).removesuffix(" mm"), "", millimetres(part.length_in), f"millimetres, {ends}")
    if part.kind == "fastener":
        whole, _, fraction = inches_only(part.length_in).partition(" ")
        return Figure(whole, fraction, f"{inches_only(part.length_in)} inches", "inches long, under the head")
    shown = show_length(part.length_in)
    whole, _, fraction = shown.partition(" ")
    feet, _, inches = whole.partition("-")
    said = f"{feet} feet {inches}{f' and {fraction}' if fraction else ''} inches"
    return Figure(whole, fraction, said, f"feet-inches, {ends}")


def _holed(part: Part) -> bool:
    """Whether the made length runs from hole to hole: braces and ties are measured so, whatever is said of their ends."""
    return "flat" in part.ends or part.role in ("side-brace", "roof-lower", "roof-upper", "tie")


def _piece(part: Part, units: str) -> str:
    if not part.tube or part.diameter_in is None or not part.ends:
        return ""   # a family need not say its ends, and a plain one drawn for a flat one would mislead
    return drawing.render_piece(
        part.ends, tube_in=part.diameter_in, hand=part.hand, twist_deg=part.twist_deg or 0.0, units=units
    )


def _twin(part: Part, units: str) -> TwinSeen | None:
    found = twins_of(part)
    if not found:
        return None
    other = Part.objects.get(number=found[0].piece.number)
    svg = ""
    if part.tube:   # bands, bolts and boards are told apart by their size in words, and some have no length to draw
        svg = drawing.render_twin(
            part.length_in, other.name, other.length_in, hand=part.hand, twin_hand=other.hand, holes=_holed(part), units=units
        )
    rows = Holding.objects.there().filter(part=other).select_related("bin").in_walking_order()
    bins = ", ".join(dict.fromkeys(row.bin.code for row in rows))
    return TwinSeen(other, bins, svg)
