"""Tube weights against the printed rows of ASME B36.10M table 1 (ASTM A53/A53M table X2.2)."""

import pytest

from structures.frame.weights import pounds_per_foot
from tests.outside import published

ROWS = published.rows("steel_pipe_weight.csv")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"NPS {row['nps']} schedule {row['schedule']}")
def test_the_formula_gives_the_printed_weight(row):
    """The standard prints two decimals; half of the last one, and a hair for its own rounding, is allowed."""
    ours = pounds_per_foot(float(row["od_in"]), float(row["wall_in"]))
    assert ours == pytest.approx(float(row["published_lb_per_ft"]), abs=0.0061)


def test_there_are_rows_to_compare():
    assert len(ROWS) == 12
