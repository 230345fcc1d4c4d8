"""Refusals become words in a person's own units."""

import pytest

from structures.frame.names import listed
from structures.frame.refusal import Refusal, Refused
from structures.refusals import Conflict, Refuse
from structures.sentences import counted, say, say_by_field, say_each

LENGTH = Refusal("x", "Length {length_in} is no whole number of {spacing_in} bays.", {"length_in": 600.0, "spacing_in": 48.0}, "length")
OPTION = Refusal("y", "{name} can't be had.", {"name": "Snow pack"}, "options")


def test_lengths_are_said_in_the_readers_units():
    assert say(LENGTH) == "Length 50-0 is no whole number of 4-0 bays."
    assert say(LENGTH, "metric") == "Length 15240 mm is no whole number of 1219 mm bays."
    assert say(LENGTH) == str(LENGTH)


def test_several_are_said_one_by_one_or_by_field():
    both = Refused([LENGTH, OPTION])
    assert say_each(both) == ["Length 50-0 is no whole number of 4-0 bays.", "Snow pack can't be had."]
    assert say(both) == "Length 50-0 is no whole number of 4-0 bays. Snow pack can't be had."
    assert say_by_field(both) == {
        "length": ["Length 50-0 is no whole number of 4-0 bays."], "options": ["Snow pack can't be had."],
    }


def test_an_actions_refusal_is_its_sentence():
    assert say(Refuse("The name is taken.")) == say(Conflict("The name is taken.")) == say("The name is taken.")


@pytest.mark.parametrize(("items", "said"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")])
def test_a_list_in_words(items, said):
    assert listed(items) == said


@pytest.mark.parametrize(
    ("count", "said"), [(1, "1 piece"), (0, "0 pieces"), (8, "8 pieces"), (1238, "1,238 pieces")]
)
def test_a_count_in_words(count, said):
    assert counted(count, "piece") == said


def test_an_odd_plural():
    assert counted(2, "person", "people") == "2 people"
