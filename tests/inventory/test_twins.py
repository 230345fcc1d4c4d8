"""Look-alike parts. Lengths are those of the demo families, in inches."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.twins import NEAR_IN, Piece, Twin, nearest, twins

TUBE, FLAT = "1.315 x .058", "flat both ends"


def piece(number, length_in, hand="", tube=TUBE, ends=FLAT):
    return Piece(number, tube, ends, hand, length_in)


SB14, SB20, SB26, SB30 = piece("SB14", 58.25), piece("SB20", 48.4375), piece("SB26", 49.375), piece("SB30", 50.75)
LEFT, RIGHT, UPPER = piece("RL26-L", 79.1875, "left"), piece("RL26-R", 79.1875, "right"), piece("RU26", 79.1875)
SHELF = [SB14, SB20, SB26, SB30, LEFT, RIGHT, UPPER]


@pytest.mark.parametrize(
    ("part", "numbers"),
    [
        (SB26, ["SB20", "SB30"]),       # 15/16 shorter, 1 3/8 longer; 4-10 1/4 is too far off
        (SB20, ["SB26", "SB30"]),
        (SB14, []),
        (RIGHT, ["RL26-L", "RU26"]),
        (UPPER, ["RL26-L", "RL26-R"]),
    ],
)
def test_twins_come_nearest_first(part, numbers):
    assert [twin.piece.number for twin in twins(part, SHELF)] == numbers


def test_the_other_hand_is_named_as_such():
    assert nearest(RIGHT, SHELF) == Twin(LEFT, 0.0, other_hand=True)


def test_the_difference_is_signed_from_the_part_asked_for():
    assert nearest(SB26, SHELF) == Twin(SB20, -0.9375, other_hand=False)
    assert nearest(SB20, SHELF) == Twin(SB26, 0.9375, other_hand=False)


@pytest.mark.parametrize(
    ("other", "is_twin"),
    [
        (piece("X", 49.375 + 3.0), True),
        (piece("X", 49.375 + 3.0625), False),
        (piece("X", 49.375 - 3.0), True),
        (piece("X", 49.375, tube="1.66 x .083"), False),
        (piece("X", 49.375, ends="plain both ends"), False),
        (piece("X", None), False),
    ],
)
def test_the_edges_of_looking_alike(other, is_twin):
    assert (nearest(SB26, [other]) is not None) is is_twin


def fitting(number, role, length_in=None):
    return Piece(number, "", "", "", length_in, role)


@pytest.mark.parametrize(
    ("part", "other", "is_twin"),
    [
        (fitting("BC190", "band"), fitting("BC166", "band"), True),
        (fitting("BC190", "band"), fitting("CC190-131", "connector"), False),
        (fitting("BT516-1", "bolt", 1.0), fitting("BT516-2", "bolt", 2.0), True),
        (fitting("BT516-1", "bolt", 1.0), fitting("BT516-5", "bolt", 5.0), False),
        (fitting("BT516-1", "bolt", 1.0), fitting("NT516", "nut"), False),
        (fitting("BT516-1", "bolt", 1.0), fitting("BT", "bolt"), False),
        (fitting("X", ""), fitting("Y", ""), False),
        (fitting("BC190", "band"), SB26, False),
    ],
)
def test_what_is_no_tube_looks_alike_within_its_role(part, other, is_twin):
    assert (nearest(part, [other]) is not None) is is_twin


LENGTHS = st.floats(1, 200).map(lambda inches: round(inches * 16) / 16)
PIECES = st.lists(
    st.builds(piece, st.uuids().map(str), LENGTHS, st.sampled_from(["", "left", "right"])), min_size=1, max_size=12
)


@given(PIECES)
def test_being_a_twin_is_mutual_and_never_far(shelf):
    for one in shelf:
        for twin in twins(one, shelf):
            assert abs(twin.longer_in) <= NEAR_IN + 1 / 32
            back = [other for other in twins(twin.piece, shelf) if other.piece == one]
            assert [(other.longer_in, other.other_hand) for other in back] == [(-twin.longer_in, twin.other_hand)]
