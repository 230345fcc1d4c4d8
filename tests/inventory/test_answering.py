"""Which pieces an order included and where each goes, from its document alone. No database."""

from dataclasses import replace

import pytest

from inventory.answer_words import braces_said, gap_sentence, gaps_said, plain
from inventory.answering import Gap, gaps, no_rows, piece_rows
from structures.frame import drawing
from tests.inventory.kits import kit


def rows(document):
    return piece_rows(document, drawing.letters(document))


def test_the_worked_example_has_the_rows_of_its_page():
    assert [(r.mark, r.part, r.count, r.tag, r.far) for r in rows(kit())] == [
        ("A", "SB26", 8, "H1-brace-hip to H2-mid to H3-foot", "H13-brace-hip to H12-mid to H11-foot"),
        ("B", "RL26-L", 2, "H1-R-shoulder to H2-R-roof", "H13-L-shoulder to H12-L-roof"),
        ("C", "RL26-R", 2, "H1-L-shoulder to H2-L-roof", "H13-R-shoulder to H12-R-roof"),
        ("D", "RU26", 4, "H2-roof to H3-high", "H12-roof to H11-high"),
        ("E", "TI26", 6, "across H2, H4, H6, H8, H10 and H12", ""),
    ]


@pytest.mark.parametrize(("name", "feet"), [("r14-a", 40), ("g20-b", 48), ("g26-a", 72), ("g26-d", 72), ("g30-b", 96)])
def test_every_brace_and_tie_is_in_one_row(name, feet):
    document = kit(name, feet)
    ids = [i for row in rows(document) for i in row.ids]
    assert sorted(ids) == sorted(piece.id for piece in (*document.braces, *document.ties))


def test_mid_length_pieces_have_a_place_of_their_own():
    side = rows(kit("g30-b", 96))[0]
    assert (side.count, side.tag) == (16, "H1-brace-hip to H2-mid to H3-foot")
    assert side.mid == "H12-brace-hip to H11-mid to H10-foot; H13-brace-hip to H14-mid to H15-foot"


def test_the_kinds_of_no_are_kept_apart():
    offered = ("double-film", "film", "anchors", "boards", "roll-up", "webs")
    assert [(no.code, no.kind) for no in no_rows(kit("g30-b", 96))] == [
        *((code, "offered, not bought") for code in offered), ("snow-ties", "replaced"),
    ]
    kinds = {no.code: no.kind for no in no_rows(kit())}
    assert kinds["mid-braces"] == "not made for this size"


def test_the_sentence_to_read_aloud():
    said = plain(braces_said(kit(with_=("film", "boards", "double-film", "anchors", "roll-up")), "included"))
    assert said == (
        "This order included 16 corner brace pieces: 8 side and 8 roof, two chains in each corner. The lower roof pieces are "
        "turned, 2 to the left and 2 to the right. It did not include snow pack."
    )


def test_what_was_asked_is_bold_and_the_rest_is_not():
    assert [text for text, bold in braces_said(kit(), "included") if bold] == [
        "16 corner brace pieces: 8 side and 8 roof", "2 to the left and 2 to the right",
    ]


def test_a_frame_with_side_braces_alone():
    assert plain(braces_said(kit("r14-a", 40), "includes")).startswith(
        "This order includes 8 corner brace pieces, all in the sides, one chain in each corner."
    )


def test_mid_length_pieces_are_counted_in_the_sentence():
    said = plain(braces_said(kit("g30-b", 96), "included"))
    assert said.startswith(
        "This order included 24 brace pieces: 16 side and 8 roof, two chains in each corner; 8 side pieces of these stand at "
        "mid-length."
    )


def test_one_turned_piece_among_many_is_no_rule_for_all():
    document = kit(without=("roof-braces",))
    first, *others = document.braces
    turned = replace(document, braces=(replace(first, hand="right", twist_made=True), *others))
    assert "Of the side pieces 1 is turned, 1 to the right. " in plain(braces_said(turned, "included"))


def test_a_frame_without_braces_says_none():
    said = plain(braces_said(kit(without=("side-braces", "roof-braces")), "included"))
    assert said.startswith("This order included no corner braces.")


def test_names_with_an_and_in_them_stay_whole():
    assert plain(braces_said(kit(), "included")).endswith(
        "It did not include double film with a blower, film, ground anchors, hip and base boards, roll-up sides or snow pack.")


def test_a_piece_left_out_breaks_the_words_each_corner():
    document = kit()
    fewer = replace(document, braces=document.braces[1:])
    assert "in each corner" not in plain(braces_said(fewer, "included"))


def test_gaps_are_the_parts_whose_counts_differ():
    found = gaps([("side brace", 8, 8, 8), ("tie", 6, 6, 4), ("band", 56, 50, 50)])
    assert found == (Gap("tie", 6, 6, 4), Gap("band", 56, 50, 50))


@pytest.mark.parametrize(("gap", "said"), [
    (Gap("side brace", 8, 6, 6), "side brace: 6 of 8 were picked and shipped; 2 are still to come."),
    (Gap("side brace", 8, 7, 7), "side brace: 7 of 8 were picked and shipped; 1 is still to come."),
    (Gap("side brace", 8, 8, 6), "side brace: of 8, 8 were picked and 6 shipped."),
])
def test_a_gap_in_a_sentence(gap, said):
    assert gap_sentence(gap) == said


def test_many_gaps_are_counted():
    assert gaps_said([Gap(f"part {n}", 4, 2, 2) for n in range(5)])[-1] == "2 more parts differ: see the packages."
