"""Towns, figures and words of a storm."""

from datetime import date

import pytest

from inspections.storms import Weather, full_walk, meanings, nearest_town, not_there, read_towns, same_town, snow_weight_psf, title, why

MARCH = Weather("wind", date(2025, 3, 9), gust_mph=61)


def test_towns_are_read_once_each_as_they_were_written():
    assert read_towns("Quillmere,  Alder Ford;\nquillmere\n, ") == ("Quillmere", "Alder Ford")


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("Quillmere", "  QUILLMERE ", True), ("St. Ebba", "Saint Ebba", True), ("Mt Dunn", "Mount Dunn", True),
        ("Orée", "Oree", True), ("Quillmere", "Quillmere Croft", False), ("", "", False), ("Alder-Ford", "Alder Ford", True),
    ],
)
def test_two_spellings_of_one_town_are_the_same(one, other, same):
    assert same_town(one, other) is same


def test_a_town_nobody_lives_in_gets_the_nearest_known_one():
    assert nearest_town("Quilmere", ["Alder Ford", "Quillmere"]) == "Quillmere"
    assert nearest_town("Nowhere", ["Alder Ford", "Quillmere"]) == ""


def test_the_title_names_what_came_and_when():
    assert title(MARCH) == "After the gusts of 9 March"
    assert title(Weather("wet snow", date(2024, 11, 14), snow_in=9)) == "After the wet snow of 14 November"


def test_why_says_the_figure_the_town_and_who_measured_it():
    assert why(MARCH, "Quillmere", "the airfield's station") == (
        "Gusts of 61 mph near Quillmere, says the airfield's station. A full walk, from outside first."
    )
    snow = Weather("wet snow", date(2024, 11, 14), snow_in=9)
    assert why(snow, "Quillmere", "a neighbour") == (
        "9 in. of wet snow near Quillmere, says a neighbour. 5 to 10 minutes, from outside first."
    )
    assert why(Weather("thaw", date(2025, 4, 3)), "Quillmere", "a neighbour").startswith("No figure was given near Quillmere")


@pytest.mark.parametrize(("gust", "whole"), [(None, False), (46, False), (57, False), (58, True), (61, True)])
def test_warning_level_gusts_ask_for_a_full_walk(gust, whole):
    assert full_walk(Weather("wind", date(2025, 3, 9), gust_mph=gust)) is whole


@pytest.mark.parametrize(
    ("weather", "count"),
    [
        (Weather("wind", date(2025, 3, 9), gust_mph=45), 0), (Weather("wind", date(2025, 3, 9), gust_mph=46), 1), (MARCH, 2),
        (Weather("hail", date(2025, 7, 11), gust_mph=52, hail_in=1), 2), (Weather("snow", date(2025, 1, 22), snow_in=14), 1),
    ],
)
def test_every_meaning_comes_with_its_source(weather, count):
    found = meanings(weather)
    assert len(found) == count
    assert all(one.source for one in found)


# One inch of water is 5.2 psf (Bartok, University of Connecticut, 2013): 9 in. at 4:1; 14 in. at 10:1 plus 0.8 in. of rain.
@pytest.mark.parametrize(("depth", "ratio", "rain", "psf"), [(9, 4, 0, 11.7), (14, 10, 0.8, 11.4), (12, 12, 0, 5.2)])
def test_snow_weighs_what_its_water_weighs(depth, ratio, rain, psf):
    assert snow_weight_psf(depth, ratio, rain) == pytest.approx(psf, abs=0.05)


@pytest.mark.parametrize(
    ("finished_on", "from_paper", "reason"),
    [
        (None, False, "Still in parcels: no day is known on which it was finished."), (None, True, ""),
        (date(2025, 3, 8), False, ""), (date(2025, 3, 9), False, ""),
        (date(2025, 3, 10), False, "Finished on 10 March 2025, after the storm."),
        (date(2025, 3, 10), True, "Finished on 10 March 2025, after the storm."),
    ],
)
def test_only_what_stood_when_the_storm_came_is_walked_round(finished_on, from_paper, reason):
    assert not_there(MARCH, finished_on=finished_on, from_paper=from_paper) == reason


def test_nothing_said_of_a_storm_speaks_of_strength():
    for weather in (MARCH, Weather("snow", date(2025, 1, 22), snow_in=14)):
        words = " ".join([title(weather), why(weather, "Quillmere", "x"), *(one.words for one in meanings(weather))])
        assert not {"safe", "certified", "approved", "compliant"} & set(words.lower().split())
