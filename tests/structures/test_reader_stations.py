"""Places along the tube, by a length or by way of other places."""

import pytest

from structures.frame.family import Station
from structures.frame.reader import read_family
from structures.frame.reader.access import Problems
from structures.frame.reader.stations import Places
from tests.structures.family_texts import changed, sentences, text_of


@pytest.mark.parametrize(("pairs", "said"), [
    pytest.param(
        [('mid = "half way from foot to brace-hip"', 'mid = "half way from foot to bracehip"')],
        ['stations.mid = "half way from foot to bracehip" goes by way of bracehip, which is no station: did you mean brace-hip?'],
        id="by way of nothing",
    ),
    pytest.param(
        [('foot = "8 in"', 'foot = "mid - 1ft"')],
        ['stations.foot = "mid - 1ft" leads back to itself by way of foot, mid: write one of them as a length.'],
        id="in a circle",
    ),
    pytest.param(
        [('hip = "4-6"', 'hip = "about here"')],
        [
            'stations.hip = "about here" is no place along the tube: write it like "4ft 6in", "8-11 1/4", "104 3/4 in" or '
            '"2660 mm", or "ridge - 1ft", "hip + 2in", "half way from foot to hip".',
        ],
        id="in no words we know",
    ),
    pytest.param(
        [('hip = "4-6"', 'hip = "24-6"')],
        ['stations.hip = "24-6" lies 24-6 from the foot: from 0-0 to the ridge at 20-10 would do.'],
        id="past the ridge",
    ),
    pytest.param(
        [('foot = "8 in"', 'foot = "hip - 5ft"')],
        ['stations.foot = "hip - 5ft" lies -0-6 from the foot: from 0-0 to the ridge at 20-10 would do.'],
        id="below ground",
    ),
    pytest.param(
        [('hip = "4-6"', 'hip = "4-6"\nridge = "20ft"')],
        ['stations.ridge is worked out from the shape: leave this line out.'],
        id="the ridge by hand",
    ),
    pytest.param(
        [('hip = "4-6"', 'hip = "4-6"\nHip = "20ft"')],
        ['stations.Hip is no name that can be here: write it like brace-hip.'],
        id="a name in capitals",
    ),
    pytest.param(
        [('hip = "4-6"', 'hip = 54')],
        ['stations.hip = 54 is no text: write it like "4-6".'],
        id="a bare number",
    ),
])
def test_it_says_what_is_wrong_and_what_would_do(pairs, said):
    assert sentences(changed(*pairs)) == said


@pytest.mark.parametrize(("words", "inches"), [
    ("4-6", 54.0), ("8 in", 8.0), ("2660 mm", 2660 / 25.4), ("ridge", 200.0), ("ridge - 1ft", 188.0), ("Ridge  -  1ft", 188.0),
    ("hip", 60.0), ("hip + 2in", 62.0), ("hip+2in", 62.0), ("hip -2in", 58.0), ("brace-hip", 57.0), ("brace-hip - 1 1/2 in", 55.5),
    ("half way from hip to ridge", 130.0), ("halfway from brace-hip to hip", 58.5),
])
def test_places_in_words(words, inches):
    problems = Problems("mine.toml")
    places = Places(problems, 200.0, {"hip": "60 in", "brace-hip": "hip - 3in"})
    assert places.read("stations.here", words) == pytest.approx(inches)
    assert problems.found == []


def test_a_hyphen_without_room_belongs_to_a_name():
    problems = Problems("mine.toml")
    Places(problems, 200.0, {"hip": "60 in"}).read("stations.here", "ridge-1ft")
    assert [str(refusal) for refusal in problems.found] == [
        'mine.toml: stations.here = "ridge-1ft" goes by way of ridge-1ft, which is no station: did you mean ridge?'
    ]


def test_the_ridge_is_there_without_a_line_of_its_own():
    family = read_family(text_of("g26-d"), source="g26-d.toml")
    assert family.stations["ridge"].from_foot_in == pytest.approx(family.developed_in / 2)
    assert family.stations["brace-hip"] == Station("brace-hip", 51.0, "hip - 3in")
