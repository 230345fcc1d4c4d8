"""The hoop's shape: the tangent arc solved, stated figures checked."""

import math
import tomllib

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from structures.frame.reader.access import Problems, Table
from structures.frame.reader.shape import read_shape
from tests.structures.family_texts import changed, sentences


@pytest.mark.parametrize(("pairs", "said"), [
    pytest.param(
        [('peak = "13-2 15/16"', 'peak = "13-3 1/2"'), ('developed = "41-7 15/16"', 'developed = "42ft"')],
        [
            'shape.peak = 13-3 1/2, and the segments make 13-2 15/16: write 13-2 15/16, or change the figures of the shape.',
            'shape.developed = 42-0, and the segments make 41-7 15/16: write 41-7 15/16, or change the figures of the shape.',
        ],
        id="stated figures that disagree",
    ),
    pytest.param(
        [('radius = "5-0"', 'radius = "25-0"')],
        ['shape.radius = 25-0 leaves no straight roof in a hoop 26-0 wide: less than 22-6 3/16 would do.'],
        id="a bend that leaves no roof",
    ),
    pytest.param(
        [('radius = "5-0"\n', ''), ('peak = "13-2 15/16"', 'peak = "6ft"')],
        ['shape.peak = 6-0 is too low for a leg of 4-0 and a roof at 25 degrees: more than 10-1 3/8 would do.'],
        id="a peak below what leg and pitch reach",
    ),
    pytest.param(
        [('radius = "5-0"\n', ''), ('peak = "13-2 15/16"\n', '')],
        ["shape.radius is missing: write the bend's radius, or the peak and the radius is solved."],
        id="neither radius nor peak",
    ),
    pytest.param(
        [('[shape]', '[shap]')],
        ['shape is missing: write a block [shape].', 'shap is no key that can be here: did you mean shape?'],
        id="no shape",
    ),
])
def test_it_says_what_is_wrong_and_what_would_do(pairs, said):
    assert sentences(changed(*pairs)) == said


def test_a_round_hoop_has_one_radius():
    assert sentences(changed(('radius = "7ft"', 'radius = "8ft"'), name="r14-a"), "r14-a") == [
        "shape.radius = 8-0 makes a hoop 16-0 wide, and width says 14-0: write radius 7-0, or shape the hoop by segments."
    ]


def shape_of(block: str):
    """The shape and profile that a [shape] block alone is read as."""
    problems = Problems("mine.toml")
    shape, profile, _ = read_shape(Table(tomllib.loads(block), "", problems))
    return shape, profile, [str(refusal) for refusal in problems.found]


@given(
    width=st.integers(120, 480), leg=st.integers(0, 96), radius=st.integers(24, 90), pitch=st.integers(10, 45),
    by_peak=st.booleans(),
)
def test_the_tangent_arc_of_any_gothic_hoop(width, leg, radius, pitch, by_peak):
    """The arc's centre lies at (width/2 - radius, leg); the roof is the tangent at `pitch` that leaves it upward."""
    p = math.radians(pitch)
    centre_u, touch_u = width / 2 - radius, width / 2 - radius + radius * math.sin(p)
    assume(touch_u > 1)
    touch_z = leg + radius * math.cos(p)
    peak = touch_z + touch_u * math.tan(p)
    figure = f'peak = "{peak!r} in"' if by_peak else f'radius = "{radius} in"'
    shape, profile, said = shape_of(
        f'[shape]\nkind = "gothic"\nwidth = "{width} in"\nleg = "{leg} in"\npitch_deg = {pitch}\n{figure}\n'
    )
    assert said == []
    assert shape.peak_in == pytest.approx(peak)
    assert shape.width_in == pytest.approx(width)
    assert shape.radius_in == pytest.approx(radius)
    assert 2 * profile.half_in == pytest.approx(2 * (leg + radius * (math.pi / 2 - p) + touch_u / math.cos(p)))
    for share in (0.0, 0.3, 1.0):
        s = leg + share * radius * (math.pi / 2 - p)
        u, z = profile.point(s)
        assert math.hypot(u - centre_u, z - leg) == pytest.approx(radius)


@given(width=st.integers(60, 400), leg=st.integers(0, 96))
def test_a_round_hoop_is_a_leg_and_a_quarter_circle(width, leg):
    shape, profile, said = shape_of(f'[shape]\nkind = "round"\nwidth = "{width} in"\nleg = "{leg} in"\n')
    assert said == []
    assert shape.peak_in == pytest.approx(leg + width / 2)
    assert profile.half_in == pytest.approx(leg + math.pi * width / 4)


@pytest.mark.parametrize("arc", [
    'radius = "5ft", turn_deg = 65', 'length = "68.0678 in", turn_deg = 65', 'length = "68.0678 in", radius = "5ft"',
])
def test_segments_one_by_one_make_the_same_gothic_hoop(arc):
    shape, profile, said = shape_of(
        '[shape]\nkind = "segments"\nwidth = "26ft"\npeak = "13-2 15/16"\nsegments = [\n'
        f'  {{ kind = "line", length = "4ft" }},\n  {{ kind = "arc", {arc} }},\n  {{ kind = "line", length = "133.9 in" }},\n]\n'
    )
    assert said == []
    assert shape.peak_in == pytest.approx(158.968, abs=0.01)
    assert profile.half_in == pytest.approx(249.97, abs=0.01)


def test_a_leaning_leg_turns_the_rest_with_it():
    shape, profile, said = shape_of(
        '[shape]\nkind = "segments"\nwidth = "100 in"\nlean_deg = 30\nsegments = [{ kind = "line", length = "100 in" }]\n'
    )
    assert said == []
    assert profile.point(100.0) == pytest.approx((0.0, 100 * math.cos(math.radians(30))))
    assert shape.lean_deg == 30


@pytest.mark.parametrize(("segments", "said"), [
    ('{ kind = "arc", radius = "5ft" }',
     "mine.toml: shape.segments.arc has 1 of length, radius and turn_deg: write two of them."),
    ('{ kind = "arc", radius = "5ft", length = "5ft", turn_deg = 3 }',
     "mine.toml: shape.segments.arc has 3 of length, radius and turn_deg: write two of them."),
    ('{ kind = "arc", radius = "5ft", turn_deg = 120 }',
     "mine.toml: shape.segments turn the tube 120.0 degrees from straight up, so that it comes down before the ridge: "
     "90 at most would do."),
    ('{ kind = "line", length = "5ft" }',
     "mine.toml: shape.width = 20-0, and the segments make 0-0: write 0-0, or change the figures of the shape."),
])
def test_segments_that_make_no_hoop(segments, said):
    _, _, sentences_said = shape_of(f'[shape]\nkind = "segments"\nwidth = "20ft"\nsegments = [{segments}]\n')
    assert said in sentences_said


def test_the_tube_may_end_above_or_below_the_ground():
    above, _, _ = shape_of('[shape]\nkind = "round"\nwidth = "14ft"\nleg = "1-6"\ntube_end = "3 in"\n')
    below, _, _ = shape_of('[shape]\nkind = "round"\nwidth = "14ft"\nleg = "1-6"\ntube_end = "-2ft"\n')
    assert (above.tube_end_in, below.tube_end_in) == (3.0, -24.0)


def test_a_tube_end_counts_in_the_sections():
    assert sentences(changed(('tube_end = "0 in"', 'tube_end = "-1ft"'))) == [
        "hoop.sections: the sections less their swages add up to 41-7 15/16, and the hoop's tube is 43-7 15/16 long: change a "
        "section, a swage or the shape."
    ]
    assert sentences(changed(('tube_end = "0 in"', 'tube_end = "-1ft"'), ('length = "12-6"', 'length = "13-6"'))) == []
