"""The build sheet: one frozen document as rows and sentences, in the order in which a crew needs them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from structures.frame.document import Document
from structures.frame.leftovers import leftover_words, leftovers_of
from structures.frame.names import short_name
from structures.frame.sheet.braces import BraceRow, TieRow, brace_rows, tie_rows
from structures.frame.sheet.corners import CornerPage, corner_pages
from structures.frame.sheet.flats import FlatRow, flat_rows
from structures.frame.sheet.gaps import GapRow, gap_rows
from structures.frame.sheet.joints import JointRow, joint_rows
from structures.frame.sheet.marks import MarkGroup, mark_groups
from structures.frame.sheet.purlins import CutRow, cut_rows
from structures.frame.sheet.steps import Stage, stages
from structures.frame.sheet.telling import Telling
from structures.frame.sheet.words import words_used
from structures.frame.spacers import spacer_boards

KEY = (
    "Stand OUTSIDE the tag end, looking in: hoops count from 1 there, left and right are yours as you stand. H3-R-foot is "
    "hoop 3, right side, near its foot; B2-L-roof is the bay between hoops 2 and 3, left side. The ridge has no side."
)
BEFORE = "This order was worked out before {what} was kept; {instead}"


@dataclass(frozen=True, slots=True)
class Heading:
    """For whom and of what day a paper is. `only_for` is "order 1207" or "structure T-0412"; `customer` may be ""; `state`
    is what must be said before everything else, as of an order that nobody checked; `names` is what people call the ends of a
    structure, as in {1: "road end"}."""

    only_for: str
    customer: str
    printed: str
    state: str = ""
    names: Mapping[int, str] = field(default_factory=dict)

    @property
    def margin(self) -> str:
        """What stands at the foot of every page before the structure's own words."""
        return f"Only for {self.only_for}{f', {self.customer}' if self.customer else ''}"


@dataclass(frozen=True, slots=True)
class LeftRow:
    """What is left of one part, and what that is."""

    part: str
    name: str
    words: str


@dataclass(frozen=True, slots=True)
class BuildSheet:
    """Everything on the sheet in words and figures. `missing` says, by section, why it is not there; `words` are those
    that a stranger needs explained."""

    heading: Heading
    document: Document
    units: str
    structure: str
    revision: str
    margin: str
    facts: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]         # what this size warns of
    bring: tuple[str, ...]
    marks: tuple[MarkGroup, ...]
    marks_check: str
    corners: tuple[CornerPage, ...]
    braces: tuple[BraceRow, ...]
    ties: tuple[TieRow, ...]
    cuts: tuple[CutRow, ...]
    gaps: tuple[GapRow, ...]
    flats: tuple[FlatRow, ...]
    joints: tuple[JointRow, ...]
    stages: tuple[Stage, ...]
    leftovers: tuple[LeftRow, ...]
    missing: dict[str, str]
    words: tuple[tuple[str, str], ...]
    key: str = KEY

    @property
    def paper(self) -> str:
        """The sheet of paper that goes with the units: "letter" or "A4"."""
        return "A4" if self.units == "metric" else "letter"


def build_sheet(document: Document, heading: Heading, units: str = "us") -> BuildSheet:
    """The build sheet of a document in "us" or "metric" units, for the order or structure of the heading."""
    telling = Telling(document, units)
    structure = f"{document.family} × {telling.figure(document.measures.length_in)}"
    revision = f"{document.revision}, {document.effective[:4]}"
    return BuildSheet(
        heading=heading, document=document, units=units, structure=structure, revision=revision,
        margin=f"{heading.margin}. {structure}, revision {document.revision}. Printed {heading.printed}",
        facts=_facts(telling), notes=tuple(said.in_units(units) for said in document.warnings),
        bring=tuple(thing.in_units(units) for thing in document.bring),
        marks=mark_groups(telling), marks_check=_marks_check(telling), corners=corner_pages(telling),
        braces=brace_rows(telling), ties=tie_rows(telling), cuts=cut_rows(telling), gaps=gap_rows(telling),
        flats=flat_rows(telling), joints=joint_rows(telling), stages=stages(telling), leftovers=left_rows(telling),
        missing=missing(document), words=words_used(telling),
    )


def _facts(telling: Telling) -> tuple[tuple[str, str], ...]:
    m, boards = telling.document.measures, spacer_boards(telling.document)
    ends = telling.document.configuration.get("ends", ("", ""))
    return (
        ("Long", f"{telling.figure(m.length_in)}: {m.bays} bays of {telling.figure(m.spacing_in)}, {m.hoops} hoops"),
        ("Wide, high", f"{telling.figure(m.width_in)}, {telling.figure(m.peak_in)}"),
        ("Clear gap between hoops", telling.figure(boards.clear_gap_in)),
        ("Each hoop from hoop 1, middle to middle",
         ", ".join(f"{number} at {telling.figure(at)}" for number, at in enumerate(boards.totals_in[1:], start=2))),
        ("Base", str(telling.document.configuration.get("base", "unknown"))),
        ("End walls", f"tag end {ends[0]}, far end {ends[1]}"),
    )


def _marks_check(telling: Telling) -> str:
    m = telling.document.measures
    seams = [telling.figure(at) for at in telling.seams_in if at < m.ridge_mark_in - 1 / 16]
    said = f"The ridge mark lies {telling.figure(m.ridge_mark_in)} along the tube from either foot: see that both halves agree."
    return f"{said} A seam lies {' and '.join(seams)} from the foot." if seams else said


def left_rows(telling: Telling) -> tuple[LeftRow, ...]:
    """Every part that something is left of when the frame stands."""
    return tuple(LeftRow(line.part, short_name(line.name), leftover_words(rest, telling.units))
                 for line, rest in leftovers_of(telling.document))


_EMPTY = {
    "bring": "Nothing that the customer must bring is known.",
    "cuts": "This structure has no sticks that are cut to fit.",
    "braces": "This order has no braces.",
    "gaps": "This frame has no pieces whose gaps are listed.",
    "flats": "This frame has no flattened ends whose height is known.",
    "joints": "This frame has no joints with hardware.",
    "stages": "No order of work was worked out.",
    "leftovers": "Nothing is left over.",
    "marks": "Nothing is marked on the hoops.",
}
_SINCE_2 = {
    "bring": ("what the customer must bring", "ask the maker."),
    "gaps": ("the tightest gaps", "look along each piece before it is tightened."),
    "flats": ("how far flattened ends stand out", "look along each before the film goes on."),
    "joints": ("the hardware of each joint", "the packing list says what goes to a joint."),
    "stages": ("the order of work", "ask the maker in which order it goes up."),
}
NO_REACH = BEFORE.format(what="how far a band may follow", instead="a band well off its mark means a wrong piece, or a bay that is out.")


def missing(document: Document) -> dict[str, str]:
    """By section that has nothing, the one sentence that stands instead. A document of before schema 2 says that it is so."""
    have = {
        "bring": document.bring, "gaps": document.tight, "joints": document.hardware, "stages": document.sequence,
        "flats": [brace for brace in document.braces if brace.tail_from or brace.tail_to],
        "cuts": document.cuts, "braces": document.braces, "marks": document.marks,
        "leftovers": leftovers_of(document),
    }
    said = {name: _EMPTY[name] for name, rows in have.items() if not rows}
    if document.schema < 2:
        for name, (what, instead) in _SINCE_2.items():
            if name in said:
                said[name] = BEFORE.format(what=what, instead=instead).replace("gaps was", "gaps were")
        if document.braces:
            said["reach"] = NO_REACH
    return said
