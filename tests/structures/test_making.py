"""Rows and differences, without a database."""

import pytest

from structures.frame.names import hoops_words
from structures.making import code_of, difference, kit_rows, lit_pieces, weight_rows
from tests.structures.frames import all_names, document


def test_roof_braces_add_eight_pieces_and_sixteen_bands():
    without, with_ = document("g26-d", 48, without=("roof-braces",)), document("g26-d", 48)
    found = difference(without, with_)
    assert (found.pieces, found.bands) == (8, 16)
    assert {part: found.parts[part] for part in ("RL26-L", "RL26-R", "RU26", "BC190")} == {
        "RL26-L": 2, "RL26-R": 2, "RU26": 4, "BC190": 16,
    }
    assert found.ids == {brace.id for brace in with_.braces if brace.option == "roof-braces"}


def test_there_and_back_again_is_nothing():
    short, long = document("g26-d", 48), document("g26-d", 72)
    there, back = difference(short, long), difference(long, short)
    assert there.parts == {part: -count for part, count in back.parts.items()}
    assert (there.pieces, there.bands) == (-back.pieces, -back.bands)
    assert not difference(short, short).any


def test_the_differences_of_the_parts_add_up_to_the_kit():
    short, long = document("g30-b", 48), document("g30-b", 96)
    counts = {line.part: line.quantity for line in short.lines}
    for part, more in difference(short, long).parts.items():
        counts[part] = counts.get(part, 0) + more
    assert counts == {line.part: line.quantity for line in long.lines}


def test_what_was_chosen_last_is_lit_and_a_whole_new_size_is_not():
    without, with_ = document("g26-d", 48, without=("roof-braces",)), document("g26-d", 48)
    assert len(lit_pieces(with_, difference(without, with_))) == 8
    other = document("g20-b", 48)
    assert lit_pieces(other, difference(with_, other)) == frozenset()
    assert lit_pieces(with_, None) == frozenset()


def test_a_row_says_what_the_last_choice_changed():
    without, with_ = document("g26-d", 48, without=("roof-braces",)), document("g26-d", 48)
    rows = {row.line.part: row for row in kit_rows(with_, difference(without, with_))}
    assert (rows["BC190"].added, rows["BC190"].lit) == (16, True)
    assert (rows["SB26"].added, rows["SB26"].lit) == (0, False)
    assert not any(row.lit for row in kit_rows(with_))


@pytest.mark.parametrize("name", all_names())
def test_weights_of_tube_add_up_to_the_total(name):
    made = document(name)
    rows = weight_rows(made)
    assert sum(row.weight_lb for row in rows) == pytest.approx(made.totals.weight_lb)
    assert [row.weight_lb for row in rows] == sorted((row.weight_lb for row in rows), reverse=True)


@pytest.mark.parametrize(
    ("hoops", "said"),
    [
        ((), ""), ((4,), "4"), ((1, 13), "1 and 13"), ((1, 2, 3), "1 to 3"), ((1, 3, 4, 5, 13), "1, 3 to 5 and 13"),
        ((2, 1), "1 and 2"), ((1, 2, 5, 6), "1, 2, 5 and 6"),
    ],
)
def test_hoop_numbers_in_words(hoops, said):
    assert hoops_words(hoops) == said


def test_the_code_of_a_place():
    assert code_of("H2-R-mid:band:1") == "H2-R-mid"
