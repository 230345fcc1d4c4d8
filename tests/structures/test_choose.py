"""From what a person asks for to a configuration: defaults, and each refusal word for word."""

import pytest

from structures.frame.choose import choose, configuration_json, read_configuration
from structures.frame.family import OneOff
from structures.frame.refusal import Refused
from tests.structures.frames import family


def refusals(name="g26-d", **asked):
    with pytest.raises(Refused) as caught:
        choose(family(name), **asked)
    return [(refusal.field, str(refusal)) for refusal in caught.value.refusals]


def test_what_is_left_out_takes_the_familys_first_and_shortest():
    chosen = choose(family("g26-d"))
    assert (chosen.length_in, chosen.spacing_in, chosen.base, chosen.ends) == (288, 48, "fixed", ("framed", "framed"))
    assert {"side-braces", "roof-braces", "ties"} <= chosen.options
    assert "snow-ties" not in chosen.options


def test_a_length_that_is_no_whole_number_of_bays_names_the_two_nearest():
    assert refusals(length_in=600) == [
        ("length", "Length 50-0 is no whole number of 4-0 bays: 48-0 or 52-0 would do.")
    ]


def test_a_length_out_of_range_names_the_range():
    assert refusals(length_in=240) == [("length", "Length 20-0 is not made in G26: from 24-0 to 300-0 would do.")]


def test_a_spacing_that_is_not_made_names_what_is():
    assert ("spacing", "Spacing 6-0 is not made in G26 revision D: 4-0 would do.") in refusals(spacing_in=72)


def test_a_base_and_an_end_that_are_not_made_are_refused_together():
    found = refusals(base="floating", ends=("framed", "brick"))
    assert [field for field, _ in found] == ["base", "ends"]
    assert "'floating'" in found[0][1]
    assert "'brick'" in found[1][1]


def test_an_unknown_option_names_the_nearest():
    assert refusals(with_=("roof-brace",)) == [
        ("options", "Option 'roof-brace' is not known in G26 revision D: did you mean 'roof-braces'?")
    ]


def test_an_option_asked_for_and_left_out_at_once_is_refused():
    found = refusals(with_=("ties",), without=("ties",))
    assert found == [("options", "Option 'ties' is asked for and left out at once: choose one.")]


def test_an_option_that_is_not_made_for_this_size_says_why():
    (found,) = refusals("g30-b", length_in=864, with_=("mid-braces",))
    assert found[0] == "options"
    assert "72-0" in found[1]


def test_a_standard_option_can_be_left_out():
    assert "roof-braces" not in choose(family("g26-d"), without=("roof-braces",)).options


def test_a_configuration_reads_back_as_itself():
    one_off = OneOff("leave out", "B1-L-side:brace:1", "Olive", "door there", "2026-03-01")
    chosen = choose(family("g26-d"), length_in=576, with_=("snow-ties",), one_offs=(one_off,))
    assert read_configuration(configuration_json(chosen)) == chosen
