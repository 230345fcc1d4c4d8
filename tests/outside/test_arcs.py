"""Arcs of a hoop against the table of circular segments in Machinery's Handbook, 31st ed., p. 83 (radius 1)."""

import math

import pytest

from structures.frame.profile import Profile
from tests.outside import published

ROWS = published.rows("circle_segment.csv")
EXAMPLES = published.values("circle_segment_examples.json")["examples"]
RADIUS = 60.0


def arc(angle_rad: float, radius: float = RADIUS) -> Profile:
    return Profile.chain(radius, [("arc", radius * angle_rad, radius)])


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['angle_deg']} degrees")
def test_an_arc_has_the_printed_length_chord_and_rise(row):
    angle = math.radians(float(row["angle_deg"]))
    profile = arc(angle)
    (u0, z0), (u1, z1) = profile.point(0), profile.point(profile.half_in)
    um, zm = profile.point(profile.half_in / 2)
    assert profile.half_in / RADIUS == pytest.approx(float(row["arc"]), abs=1e-6)
    assert math.hypot(u1 - u0, z1 - z0) / RADIUS == pytest.approx(float(row["chord"]), abs=1e-6)
    assert math.hypot(um - (u0 + u1) / 2, zm - (z0 + z1) / 2) / RADIUS == pytest.approx(float(row["height"]), abs=1e-6)


def test_the_worked_example_of_page_79_gives_its_chord():
    """Radius 60, rise 8: the book prints a chord of 59.86."""
    example = next(e for e in EXAMPLES if e["id"] == "mh31_p79_chord")
    radius, rise = example["given"]["r"], example["given"]["h"]
    profile = arc(2 * math.acos(1 - rise / radius), radius)
    (u0, z0), (u1, z1) = profile.point(0), profile.point(profile.half_in)
    assert math.hypot(u1 - u0, z1 - z0) == pytest.approx(example["expect"]["c"], abs=example["tol"])


def test_the_worked_example_of_page_50_gives_its_arc():
    """Radius 12, rise 2: the book prints an arc of 14.06."""
    example = next(e for e in EXAMPLES if e["id"] == "mh31_p50")
    radius, rise = example["given"]["r"], example["given"]["h"]
    profile = arc(math.radians(example["exact"]["angle_deg"]), radius)
    um, zm = profile.point(profile.half_in / 2)
    (u0, z0), (u1, z1) = profile.point(0), profile.point(profile.half_in)
    assert profile.half_in == pytest.approx(example["expect"]["arc"], abs=example["tol"])
    assert math.hypot(um - (u0 + u1) / 2, zm - (z0 + z1) / 2) == pytest.approx(rise, abs=1e-9)
