"""Feet, inches and sixteenths against conversions of NIST SP 811 (2008) appendix B.8 and NIST Handbook 44 appendix C."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structures.frame.lengths import (
    MM_PER_INCH,
    LengthError,
    feet_inches,
    inches_only,
    millimetres,
    read_length,
    sixteenths,
)
from tests.outside import published

UNITS = published.values("units.json")


def factor(unit_from: str, unit_to: str) -> float:
    return next(float(f["factor"]) for f in UNITS["factors"] if (f["from"], f["to"]) == (unit_from, unit_to))


def test_an_inch_has_the_millimetres_of_nist():
    assert factor("in", "mm") == MM_PER_INCH


def test_a_foot_has_the_metres_of_nist():
    assert read_length("1 m") == pytest.approx(12 / factor("ft", "m"), rel=1e-15)


@pytest.mark.parametrize("case", UNITS["sixteenths"], ids=lambda case: case["inches"])
def test_lengths_round_to_the_nearest_sixteenth_and_carry(case):
    total = 16 * (12 * case["feet"] + case["inch"]) + case["sixteenths"]
    assert sixteenths(float(case["inches"])) == total
    fraction = f" {Fraction(case['sixteenths'], 16)}" if case["sixteenths"] else ""
    assert feet_inches(float(case["inches"])) == f"{case['feet']}-{case['inch']}{fraction}"


@pytest.mark.parametrize(
    ("words", "inches"),
    [
        ("4ft 6in", 54), ("104 3/4 in", 104.75), ("8-11 1/4", 107.25), ("2660 mm", 2660 / 25.4), ("48ft", 576),
        ("4 ft", 48), ("1.9 in", 1.9), ("3/4 in", 0.75), ("0-8", 8), ("4'6\"", 54), ("1.5 ft", 18), ("2.66 m", 2660 / 25.4),
        ("266 cm", 2660 / 25.4), ("4ft 6 1/2in", 54.5), (" 13-2 15/16 ", 158.9375), ("-3in", -3), (".083 in", 0.083),
    ],
)
def test_a_length_is_read_from_words(words, inches):
    assert read_length(words) == pytest.approx(inches, abs=1e-12)


@pytest.mark.parametrize("words", ["12", "", "four feet", "4ft6ft", "8-1/0", "4 in in", "1e3 in", "4-", "nan mm", "4--6"])
def test_words_that_are_no_length_are_refused_with_what_would_do(words):
    with pytest.raises(LengthError) as caught:
        read_length(words)
    assert "4-6" in str(caught.value)


@given(st.integers(min_value=-16 * 12 * 400, max_value=16 * 12 * 400))
def test_what_is_shown_reads_back_as_the_same_sixteenth(count):
    assert sixteenths(read_length(feet_inches(count / 16))) == count


@given(st.integers(min_value=0, max_value=40_000))
def test_whole_millimetres_read_back(mm):
    assert millimetres(read_length(f"{mm} mm")) == f"{mm} mm"


@pytest.mark.parametrize(("inches", "shown"), [(1.625, "1 5/8"), (0.625, "5/8"), (2, "2"), (-0.5, "-1/2"), (0, "0")])
def test_a_small_measure_is_shown_in_inches(inches, shown):
    assert inches_only(inches) == shown
