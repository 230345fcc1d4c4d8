"""Two documents side by side: what differs, and what of it is lit."""

import pytest

from structures.frame.compare import compare
from tests.structures.frames import all_names, document


def counts(found) -> dict[str, tuple[int, int]]:
    return {row.part: (row.first, row.second) for row in found.lines}


@pytest.mark.parametrize("name", all_names())
def test_a_structure_differs_in_nothing_from_itself(name):
    found = compare(document(name), document(name))
    assert found.alike
    assert not found.lit_first
    assert not found.lit_second
    assert not found.all_differ


def test_revision_d_of_the_g26_brought_roof_braces():
    """The invented scenario: D brought the roof chain, 8 pieces and 16 bands, and changed nothing else in the kit of 48 ft."""
    found = compare(document("g26-c", 48), document("g26-d", 48))
    assert {part: found for part, found in counts(found).items() if part in ("RL26-L", "RL26-R", "RU26", "BC190")} == {
        "RL26-L": (0, 2), "RL26-R": (0, 2), "RU26": (0, 4), "BC190": (40, 56),
    }
    assert next(row for row in found.lines if row.part == "BC190").more == 16
    roof = {brace.id for brace in document("g26-d", 48).braces if brace.zone == "roof"}
    assert found.lit_second == roof | {"roof-braces"}
    assert not found.lit_first
    braces = next(row for row in found.options if row.name == "Roof braces")
    assert (braces.first, braces.second) == ("Not made in revision C: they came with revision D.", "included")
    assert {row.code for row in found.marks} >= {"shoulder", "roof", "high"}
    assert {(row.role, row.station) for row in found.landings} == {
        ("lower roof braces", "shoulder"), ("lower roof braces", "roof"), ("upper roof braces", "roof"), ("upper roof braces", "high"),
    }


def test_a_longer_one_has_the_same_corners_and_more_ties():
    """48 and 72 ft of one revision: 6 more bays, so 3 more ties on even hoops; every corner is built alike."""
    found = compare(document("g26-d", 48), document("g26-d", 72))
    assert {(row.name, row.first, row.second) for row in found.measures} == {
        ("Length", 576.0, 864.0), ("Bays", 12, 18), ("Hoops", 13, 19),
    }
    assert counts(found)["TI26"] == (6, 9)
    assert counts(found)["BC190"] == (56, 62)
    assert found.lit_second == {"H14-tie:tie:1", "H16-tie:tie:1", "H18-tie:tie:1"}
    assert not found.lit_first
    assert not found.marks
    assert not found.landings
    assert not found.options


def test_the_side_brace_of_another_spacing_lands_elsewhere():
    """G26 A stands 6 ft apart: its side brace is 5-11 7/8 (71.875 in.) where D's is 4-1 3/8 (49.375)."""
    found = compare(document("g26-a", 72), document("g26-d", 72))
    rows = {row.station: row for row in found.landings if row.role == "side braces"}
    assert (rows["foot"].first, rows["foot"].second) == ((8.0,), (8.0,))
    assert (rows["foot"].first_length_in, rows["foot"].second_length_in) == ((71.875,), (49.375,))
    assert len(rows["mid"].first) == 2
    assert rows["mid"].first != rows["mid"].second
    assert found.all_differ
    assert not found.lit_first
    assert not found.lit_second


def test_what_only_one_has_is_more_or_fewer_or_only_there():
    found = compare(document("g20-b", 48), document("g26-d", 48))
    assert counts(found)["SB20"] == (8, 0)
    assert counts(found)["SB26"] == (0, 8)
    assert [(row.first, row.second) for row in found.words if row.name == "Family"] == [("G20", "G26")]
    assert next((row.first, row.second) for row in found.measures if row.name == "Width") == (240.0, 312.0)


def test_it_reads_the_same_from_either_side():
    there, back = compare(document("g26-c", 48), document("g26-d", 72)), compare(document("g26-d", 72), document("g26-c", 48))
    assert {(row.part, row.first, row.second) for row in there.lines} == {(row.part, row.second, row.first) for row in back.lines}
    assert (there.lit_first, there.lit_second) == (back.lit_second, back.lit_first)
    assert {row.code for row in there.marks} == {row.code for row in back.marks}
