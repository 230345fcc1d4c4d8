"""Lots as they are kept."""

import pytest

from inventory.lots import UNKNOWN_LOT, LotError, read_lot


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("C-0417", "C-0417"),
        (" c-0417 ", "C-0417"),
        ("T 2207/b", "T 2207/B"),
        ("l.  2041", "L. 2041"),
        ("unknown", UNKNOWN_LOT),
        ("Unknown ", UNKNOWN_LOT),
    ],
)
def test_a_lot_is_kept_in_one_way(typed, kept):
    assert read_lot(typed) == kept
    assert read_lot(kept) == kept


def test_an_empty_lot_is_not_taken_for_unknown():
    with pytest.raises(LotError, match=r"^The lot is missing: write it as it stands on the tag, or say unknown\.$"):
        read_lot("  ")


@pytest.mark.parametrize("typed", ["=1+1", "@sum", "-17", "C#4", "C-0417\0", "é", "C" * 41])
def test_other_signs_are_refused(typed):
    with pytest.raises(LotError, match="has other signs than letters, figures"):
        read_lot(typed)
