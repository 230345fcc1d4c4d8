"""Words as data: filled in either unit, joined without mixing their values, kept in a document."""

from structures.frame.said import Said, together
from tests.structures.frames import document


def test_lengths_are_told_in_either_unit():
    said = Said("{count} of {stock_in}", {"count": 3, "stock_in": 120.0})
    assert (str(said), said.in_units("metric")) == ("3 of 10-0", "3 of 3048 mm")


def test_several_lengths_are_a_choice():
    assert str(Said("{choices_in} would do", {"choices_in": [576, 624]})) == "48-0 or 52-0 would do"


def test_sayings_are_joined_each_with_its_own_values():
    pair = together([Said("{a_in} here", {"a_in": 12}), Said("{a_in} there", {"a_in": 24}), Said("end")], "; ")
    assert (str(pair), pair.in_units("metric")) == ("1-0 here; 2-0 there; end", "305 mm here; 610 mm there; end")


def test_the_reasons_of_a_kit_hold_no_length_as_text():
    channel = next(line for line in document("g26-d", 48).lines if line.role == "channel")
    assert [str(because.words) for because in channel.because] == [
        "both sides, 48-0 each; both end hoops, foot to foot, 41-7 15/16 each: 179-3 7/8 in all, 18 of 10-0"
    ]
    assert channel.because[0].words.in_units("metric") == (
        "both sides, 14630 mm each; both end hoops, foot to foot, 12699 mm each: 54658 mm in all, 18 of 3048 mm"
    )


def test_an_option_not_made_for_this_size_says_it_in_either_unit():
    answer = next(option for option in document("g30-b", 48).options if option.code == "mid-braces")
    assert answer.no_because == "not made for this size"
    assert str(answer.no_words) == "Not made for this size: made for lengths over 72-0."
    assert answer.no_words.in_units("metric") == "Not made for this size: made for lengths over 21946 mm."
