"""Every figure on the build sheet's corners, marks, braces and runs stands in the frozen document.

Each row's figures are read back off its words, all of them, and set beside the document's own in plain arithmetic: feet, inches
and sixteenths or whole millimetres (1 in. = 25.4 mm exactly, NIST SP 811 appendix B) are worked out here again.
"""

import json
import re
from collections import Counter
from dataclasses import replace
from functools import cache
from math import floor, gcd

import pytest

from structures.frame.document import Brace, Document, read_document, write_document
from structures.frame.sheet import BuildSheet, Heading, build_sheet
from tests.structures.frames import all_names, document

FIGURE = re.compile(r"(?<![\w-])(\d+-\d+(?: \d+/\d+)?|\d+ mm|\d+ \d+/\d+ in\.|\d+/\d+ in\.|\d+ in\.|\d+\.\d°)(?![\w/])")
AT = re.compile(r"(H\d+-[LR]-[a-z-]+)(?: \((\d+)\))?, (\d+-\d+(?: \d+/\d+)?|\d+ mm) up")
EDGED = ("band", "connector", "strap", "clamp")
SAME_IN = 1e-6
LONG_FT = {"r14-a": 100}
CASES = [*((name, feet, ()) for name in all_names() for feet in (None, LONG_FT.get(name, 96))),
         ("g26-d", 48, ("snow-ties",)), ("g30-b", 72, ("webs", "boards"))]


@cache
def frozen(name: str, feet: int | None, with_: tuple[str, ...]) -> Document:
    """The document as it is kept: written and read back."""
    return read_document(json.dumps(write_document(document(name, feet, with_=with_))))


@cache
def told(name: str, feet: int | None, with_: tuple[str, ...], units: str) -> BuildSheet:
    return build_sheet(frozen(name, feet, with_), Heading("order 1207", "Ada Quill", "12 Mar 2024"), units)


@pytest.fixture(params=CASES, ids=lambda case: f"{case[0]} {case[1] or 'short'} {' '.join(case[2])}".strip())
def case(request):
    return request.param


@pytest.fixture(params=["us", "metric"])
def sheet(case, request) -> BuildSheet:
    return told(*case, request.param)


# --- figures, worked out again ----------------------------------------------------------------------

def part_of_inch(sixteenths: int) -> str:
    shared = gcd(sixteenths, 16)
    return f"{sixteenths // shared}/{16 // shared}"


def long(inches: float, units: str) -> str:
    """As a tape shows it: 49.375 in. are 790 sixteenths, 4 ft of 192 and 22 more: 4-1 3/8."""
    if units == "metric":
        return f"{floor(inches * 25.4 + 0.5)} mm"
    feet, rest = divmod(floor(inches * 16 + 0.5), 192)
    whole, part = divmod(rest, 16)
    return f"{feet}-{whole}" + (f" {part_of_inch(part)}" if part else "")


def small(inches: float, units: str) -> str:
    if units == "metric":
        return f"{floor(inches * 25.4 + 0.5)} mm"
    whole, part = divmod(floor(inches * 16 + 0.5), 16)
    return " ".join(word for word in (str(whole) if whole or not part else "", part_of_inch(part) if part else "", "in.") if word)


def figures(*words: str) -> list[str]:
    """Every figure in these words, in their order."""
    return [found for one in words for found in FIGURE.findall(one)]


def numbers(words: str) -> list[int]:
    """The hoops of "Hoops 1, 3 to 5 and 13"."""
    found: list[int] = []
    for first, last in re.findall(r"(\d+)(?: to (\d+))?", words):
        found += range(int(first), int(last or first) + 1)
    return found


# --- marks ------------------------------------------------------------------------------------------

def test_figures_of_the_marks(sheet):
    trace_marks(sheet, sheet.document)


def trace_marks(sheet: BuildSheet, frame: Document) -> None:
    """Edge, middle and foot figure of every row; the foot figure is the datum's place and the middle, up or down from it."""
    seen = Counter()
    for group in sheet.marks:
        hoops = numbers(group.hoops)
        assert group.count == len(hoops)
        seen.update(hoops)
        marks = [mark for mark in frame.marks if hoops[0] in mark.hoops and mark.kind != "seam"]
        for row, mark in zip(group.rows, marks, strict=True):
            edge = [] if mark.kind not in EDGED else [long(mark.edge_in, sheet.units)]
            if mark.kind in EDGED and mark.from_datum_in < SAME_IN:      # right on its datum: half a width each way
                width, = {one.width_in for one in frame.hardware if (one.kind, one.name) == (mark.kind, mark.name)}
                edge = [small(width / 2, sheet.units)]
            assert figures(row.edge) == edge
            assert figures(row.centre, row.from_foot) == [long(mark.from_datum_in, sheet.units), long(mark.from_foot_in, sheet.units)]
            assert figures(row.what, row.place, row.piece, row.side, row.measured) == []
            assert any(abs(at - mark.from_foot_in) < SAME_IN for at in measured_to(frame, mark, row.measured)), mark
    assert seen == Counter(range(1, frame.measures.hoops + 1))


def measured_to(frame: Document, mark, words: str) -> list[float]:
    """Where a mark lies whose middle is measured so, by adding to or taking from each place of its datum."""
    places = {"foot": [0.0], "ridge": [frame.measures.ridge_mark_in],
              "seam": [seam.from_foot_in for seam in frame.marks if seam.kind == "seam"]}[mark.datum]
    sign = -1 if words.startswith("down") else 1
    return [place + sign * mark.from_datum_in for place in places]


def test_the_edge_lies_half_a_width_nearer_than_the_middle(sheet):
    """The edge that is met first is the nearer one, so a mark's two figures differ by half of what goes there."""
    widths = {(one.kind, one.name): one.width_in for one in sheet.document.hardware}
    marks = [mark for mark in sheet.document.marks if mark.kind in EDGED and mark.from_datum_in > SAME_IN]
    assert marks
    for mark in marks:
        assert mark.from_datum_in - mark.edge_in == pytest.approx(widths[mark.kind, mark.name] / 2)


def test_the_check_of_the_marks_names_ridge_and_seams(sheet):
    frame = sheet.document
    ridge = frame.measures.ridge_mark_in
    seams = sorted({mark.from_foot_in for mark in frame.marks if mark.kind == "seam" and mark.from_foot_in < ridge - 1 / 16})
    assert figures(sheet.marks_check) == [long(at, sheet.units) for at in (ridge, *seams)]


# --- corners ----------------------------------------------------------------------------------------

def test_figures_of_each_band_at_a_corner(sheet):
    """A band's row is its joint's: where it lies, the mark that leads there, the letter of what it holds, the hoop its ears face."""
    frame, pieces = sheet.document, [*sheet.document.braces, *sheet.document.ties]
    joints = {joint.id: joint for joint in frame.joints}
    sections = {member.id: member.part for member in frame.members if member.role == "section"}
    names = {line.part: line.name.lower() for line in frame.lines}
    assert bool(sheet.corners) == bool(frame.braces)
    for page in sheet.corners:
        letters = {row.part: row.letter for row in page.braces}
        for row in page.landings:
            joint = joints[row.joint]
            mark, = (mark for mark in frame.marks if mark.kind == "band" and joint.hoop in mark.hoops
                     and mark.side in ("both", joint.side) and abs(mark.from_foot_in - joint.from_foot_in) < SAME_IN)
            assert figures(row.edge, row.centre, row.from_foot) == [
                long(inches, sheet.units) for inches in (mark.edge_in, mark.from_datum_in, joint.from_foot_in)]
            piece, = (piece for piece in pieces if row.joint in (piece.landing_from.joint, piece.landing_to.joint))
            assert row.holds == letters[piece.part]
            section, = (sections[ident] for ident in joint.holds if ident in sections)
            assert all(word in names[section] for word in row.piece.split())
            if isinstance(piece, Brace):
                other = piece.landing_to if piece.landing_from.joint == row.joint else piece.landing_from
                assert row.ears == f"hoop {other.hoop}"


def of_brace(brace: Brace, units: str) -> list[str]:
    """Length and twist of a piece; a twist that rounds to nothing is not told."""
    turned = [] if abs(brace.twist_deg) < 0.05 else [f"{abs(brace.twist_deg):.1f}°"]
    return [long(brace.length_in, units), *turned]


def of_reach(brace: Brace, units: str) -> list[str]:
    """How far the free end goes: twice what the document keeps for 1/2 in. is for 1 in., and 10 mm are 10/25.4 in. of that."""
    reach = brace.reach
    moves: list[str] = []
    if reach.moves_in is not None and abs(2 * reach.moves_in) >= 1 / 32:
        moves = ([small(abs(2 * reach.moves_in) * 10 / 25.4, units), "10 mm"] if units == "metric"
                 else [small(abs(2 * reach.moves_in), units), "1 in."])
    return [*moves, long(reach.low_in, units), long(reach.high_in, units)]


def test_figures_of_each_piece_at_a_corner(sheet):
    for page in sheet.corners:
        braces = [brace for brace in sheet.document.braces if brace.corner == page.corner]
        rows = [row for row in page.braces if row.set_at != "both ends"]
        assert Counter(row.part for row in rows) == Counter(brace.part for brace in braces)
        for row in rows:
            brace, = (one for one in braces if one.part == row.part and row.follows in (one.landing_from.code, one.landing_to.code)
                      and row.set_at.removeprefix("from ") in (one.landing_from.code, one.landing_to.code))
            assert figures(row.length, row.twist) == of_brace(brace, sheet.units)
            assert figures(row.moves, row.furthest) == of_reach(brace, sheet.units)
        for row in page.braces:
            if row.set_at == "both ends":
                tie = next(tie for tie in sheet.document.ties if tie.part == row.part)
                assert figures(row.length) == [long(tie.length_in, sheet.units)]


def test_figures_of_each_step_at_a_corner(sheet):
    """Places with their heights, the numbers of the drawing beside them, how many bands, and how high the work reaches."""
    frame = sheet.document
    joints = {joint.id: joint for joint in frame.joints}
    for page in sheet.corners:
        ring = {row.code: row.number for row in page.landings if row.number}
        for row in page.steps:
            step = frame.sequence[row.number - 1]
            lands = {(at.code, long(at.from_foot_in, sheet.units)) for brace in frame.braces if brace.id in step.pieces
                     for at in (brace.landing_from, *brace.passes, brace.landing_to)}
            found = AT.findall(row.does)
            assert {(code, figure) for code, _, figure in found} == lands
            assert all(number == ring.get(code, "") for code, number, _ in found)
            assert figures(AT.sub("", row.does)) == []
            assert sum(int(count) for count in re.findall(r"(\d+) brace bands?", row.does)) == len(step.joints)
            high = max(joints[ident].at[2] for ident in step.joints)
            assert figures(*row.cautions) == ([long(high, sheet.units)] if high > 72 else [])


# --- braces, ties and runs --------------------------------------------------------------------------

def test_figures_of_the_brace_table(sheet):
    """Every piece stands in one row that has its figures, and each row counts the pieces that it stands for."""
    told_by = Counter()
    for brace in sheet.document.braces:
        wanted = [*of_brace(brace, sheet.units), *of_reach(brace, sheet.units)]
        row, = (n for n, row in enumerate(sheet.braces) if row.part == brace.part
                and brace.corner in re.split(r", | and ", row.corners) and (row.twist == "none" or f"° {brace.hand}, " in row.twist)
                and figures(row.length, row.twist, row.moves, row.furthest) == wanted)
        told_by[row] += 1
    assert told_by == Counter(dict(enumerate(row.count for row in sheet.braces)))


def test_figures_of_the_ties(sheet):
    frame = sheet.document
    for row in sheet.ties:
        ties = [tie for tie in frame.ties if tie.part == row.part]
        webs = [member for member in frame.members if member.role == "web" and member.part == row.part]
        assert row.count == len(ties) + len(webs)
        assert figures(row.length) == [long((ties or webs)[0].length_in, sheet.units)]
        if ties:
            assert figures(row.where) == [long(inches, sheet.units) for inches in (ties[0].station_in, ties[0].from_ridge_in)]
            assert numbers(row.where.partition("s ")[2].partition(", " + long(ties[0].station_in, sheet.units))[0]) == sorted(
                tie.hoop for tie in ties)
            assert ties[0].station_in + ties[0].from_ridge_in == pytest.approx(frame.measures.ridge_mark_in)
    assert sum(row.count for row in sheet.ties) == len(frame.ties) + sum(member.role == "web" for member in frame.members)


def test_figures_of_the_runs(sheet):
    """A last stick and its offcut make a whole one."""
    for row, cut in zip(sheet.cuts, sheet.document.cuts, strict=True):
        assert row.sticks == cut.sticks
        offcut = [long(cut.offcut_in, sheet.units)] if row.offcut != "none" else []
        assert figures(row.stick, row.last, row.offcut, row.joints) == [
            long(cut.stick_in, sheet.units), long(cut.cut_length_in, sheet.units), *offcut,
            *(long(at, sheet.units) for at in cut.joints_in)]
        assert cut.cut_length_in + cut.offcut_in == pytest.approx(cut.stick_in)


def test_a_sheet_that_is_a_sixteenth_off_is_noticed():
    frame = frozen("g26-d", 48, ())
    bent = replace(frame, marks=tuple(replace(mark, edge_in=mark.edge_in + 1 / 16) for mark in frame.marks))
    with pytest.raises(AssertionError):
        trace_marks(build_sheet(bent, Heading("order 1207", "", "12 Mar 2024")), frame)
