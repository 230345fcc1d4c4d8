"""Location codes read apart and said in few words. No database."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.whereabouts import Place, chains, chains_in_words, chains_said, hoops_said, read_place
from structures.frame.names import listed


@pytest.mark.parametrize(("code", "place"), [
    ("H2-R-mid:band:1", Place("H", 2, "R", "mid")),
    ("H1-ridge", Place("H", 1, "", "ridge")),
    ("H13-L-brace-hip:band:2", Place("H", 13, "L", "brace-hip")),
    ("B3-L-hip:hip-board:1", Place("B", 3, "L", "hip")),
    ("E1-wall:end wall:1", Place("E", 1, "", "wall")),
])
def test_a_code_is_read_apart(code, place):
    assert read_place(code) == place


@pytest.mark.parametrize("code", ["", "hoop 3", "H-R-mid", "X1-L-foot", "3-L-foot"])
def test_what_is_no_code_is_none(code):
    assert read_place(code) is None


@pytest.mark.parametrize(("numbers", "said"), [
    ([], ""), ([3], "H3"), ([13, 1], "H1 and H13"), ([1, 2], "H1 and H2"), (range(1, 14), "H1 to H13"),
    ([2, 4, 6, 8, 10, 12], "H2, H4, H6, H8, H10 and H12"), (range(2, 19, 2), "every second one from H2 to H18"),
    ([1, 2, 5], "H1, H2 and H5"),
])
def test_hoops_as_one_says_them(numbers, said):
    assert hoops_said(numbers) == said


def test_pieces_that_share_a_landing_are_one_chain_whatever_their_order():
    pairs = [("H2-L-mid", "H3-L-foot"), ("H1-L-hip", "H2-L-mid")]
    assert chains(pairs) == chains(reversed(pairs)) == [["H1-L-hip", "H2-L-mid", "H3-L-foot"]]


def test_left_and_right_alike_lose_their_side():
    pairs = [(f"H1-{side}-hip", f"H2-{side}-mid") for side in "LR"]
    assert chains_said(pairs) == "H1-hip to H2-mid"


def test_one_side_alone_keeps_it():
    assert chains_said([("H1-R-shoulder", "H2-R-roof")]) == "H1-R-shoulder to H2-R-roof"


@given(st.lists(st.text("abc", min_size=1), max_size=5))
def test_listing_loses_no_word(words):
    assert listed(words).replace(" and ", ", ").split(", ") == (words or [""])


@pytest.mark.parametrize(("codes", "said"), [
    ("H1-brace-hip to H2-mid to H3-foot", "hoop 1 hip to hoop 2 middle to hoop 3 foot, left and right alike"),
    ("H1-R-shoulder to H2-R-roof", "hoop 1 right shoulder to hoop 2 right middle"),
    ("H1-L-brace-hip to H2-L-mid; H2-R-mid to H3-R-foot",
     "hoop 1 left hip to hoop 2 left middle; hoop 2 right middle to hoop 3 right foot"),
    ("across H2, H4 and H6", ""),
    ("", ""),
])
def test_codes_are_said_in_words_for_the_telephone(codes, said):
    assert chains_in_words(codes) == said
