"""Closed-form counts of random structures, derived on paper and not by building a frame.

With N bays, r runs, L long and the tangent arc solved here from width, leg, peak and pitch:
half width w = leg-side run + roof run, so  R = (peak - leg - w tan p) cos p / (1 - sin p)  and the developed length is
2 (leg + R (90 - p) + (w - R (1 - sin p)) / cos p). Hoops N + 1; connectors r (N - 1); sticks r ceil((L - 2 ft) / 10 ft);
bands 2 (braces + ties + purlin ends). These are plain geometry and counting; common practice for which piece goes
where, no source.
"""

import math
import re
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.lengths import feet_inches
from structures.frame.reader import read_family

TEMPLATE = (Path(__file__).parent / "families" / "common_practice_30.toml").read_text(encoding="utf-8")
OFFSET, HALF_BAND = 2.0, 0.625


def radius_of(width, leg, peak, pitch):
    p = math.radians(pitch)
    return (peak - leg - width / 2 * math.tan(p)) * math.cos(p) / (1 - math.sin(p))


def half_of(width, leg, radius, pitch):
    p = math.radians(pitch)
    roof = (width / 2 - radius * (1 - math.sin(p))) / math.cos(p)
    return leg + radius * (math.pi / 2 - p) + roof


def at(s, width, leg, radius, pitch):
    """(u, z) of the hoop's axis, s along the tube from the foot."""
    p = math.radians(pitch)
    turned = min(max(s - leg, 0) / radius, math.pi / 2 - p)
    roof = max(s - leg - radius * (math.pi / 2 - p), 0)
    u = width / 2 - radius * (1 - math.cos(turned)) - roof * math.cos(p)
    return u, min(s, leg) + radius * math.sin(turned) + roof * math.sin(p)


def made_length(shape, spacing, low, high):
    """Hole to hole of a piece between two hoops, from band centre `low` to band centre `high`."""
    return math.dist((0, *at(low, *shape)), (spacing - 2 * OFFSET, *at(high, *shape)))


def text_of(width, leg, peak, pitch, spacing, half):
    """The common-practice file with another shape and the lengths that follow from it; twists are made on site."""
    shape = width, leg, radius_of(width, leg, peak, pitch), pitch
    shoulder, high = half * 0.55 + 4, half - 6
    roof = (shoulder + high) / 2
    lengths = {
        "CP-SB": made_length(shape, spacing, (8 + 58.5) / 2 + HALF_BAND, 58.5),
        "CP-RL-L": made_length(shape, spacing, shoulder, roof - HALF_BAND),
        "CP-RU": made_length(shape, spacing, roof + HALF_BAND, high),
    }
    text = TEMPLATE.replace('width = "30ft"', f'width = "{width} in"').replace('leg = "5-0"', f'leg = "{leg} in"')
    text = text.replace('radius = "6-0"', f'peak = "{peak:.6f} in"').replace("pitch_deg = 22", f"pitch_deg = {pitch}")
    text = text.replace('spacings = ["6ft"]', f'spacings = ["{spacing} in"]').replace('longest = "96ft"', 'longest = "400ft"')
    text = text.replace('length = "39-6 1/16"', f'length = "{feet_inches(2 * half - 108)}"')
    text = text.replace('mid = "33.25 in"', 'mid = "half way from foot to brace-hip"')
    text = text.replace('purlin = "10-10"', f'purlin = "{half * 0.55:.4f} in"')
    text = text.replace('shoulder = "11-0 1/2"', 'shoulder = "purlin + 4in"')
    text = re.sub(r"\[parts\.CP-RL-R\][^\[]*", "", text).replace('hand = "left"\n', "")
    text = text.replace('twist_made = "press"', 'twist_made = "site"')
    for part, made in lengths.items():
        text = re.sub(rf'(\[parts\.{part}\][^\[]*?length = )"[^"]*"\ncut = "[^"]*"', rf'\1"{made:.4f} in"', text)
    return text


@st.composite
def structures(draw):
    width = draw(st.integers(18 * 12, 34 * 12))
    leg = draw(st.integers(58, 80))
    pitch = draw(st.integers(18, 32))
    bend = draw(st.integers(36, 80))
    peak = leg + bend * (1 - math.sin(math.radians(pitch))) / math.cos(math.radians(pitch)) + (
        width / 2 * math.tan(math.radians(pitch)))
    spacing = draw(st.sampled_from([48, 60, 72]))
    bays = draw(st.integers(6, 40))
    return width, leg, round(peak, 6), pitch, spacing, bays, draw(st.booleans()), draw(st.booleans())


@settings(max_examples=60, deadline=None)
@given(structures())
def test_a_random_structure_has_the_counts_worked_out_on_paper(drawn):
    width, leg, peak, pitch, spacing, bays, roofed, framed = drawn
    radius = radius_of(width, leg, peak, pitch)
    half = half_of(width, leg, radius, pitch)
    assume(radius > 30)
    assume(spacing * bays >= 288)
    family = read_family(text_of(width, leg, peak, pitch, spacing, half), source="random.toml")
    end = "framed" if framed else "open"
    doc = compute(family, choose(family, length_in=spacing * bays, ends=(end, end),
                                 with_=["roof-braces"] if roofed else []), sha256="0" * 64)
    assert doc.measures.developed_in == pytest.approx(2 * half, abs=1e-3)
    assert doc.measures.radius_in == pytest.approx(radius, abs=1e-4)
    counted = {line.part: line.needed for line in doc.lines}
    braces = 16 if roofed else 8
    ties = bays - 1 if framed else bays + 1
    sticks = math.ceil((spacing * bays - 24) / 120)
    assert doc.measures.hoops == bays + 1
    assert counted["CP-S"] == 2 * (bays + 1)
    assert counted["CP-R"] == bays + 1
    assert counted["CP-PS"] == 3 * sticks
    assert counted["CP-PE"] == 6
    assert counted["CP-CC"] == 3 * (bays - 1)
    assert counted["CP-TI"] == ties
    assert counted["CP-SB"] == 8
    assert sum(counted.get(part, 0) for part in ("CP-RL-L", "CP-RU")) == braces - 8
    assert counted["CP-BC"] == counted["CP-BT1"] == 2 * (braces + ties + 6)
    assert counted["CP-NT"] == counted["CP-BC"] + 2 * counted["CP-CC"]
    brackets = 4 if framed else 0
    assert counted["CP-SC"] == 2 * (bays + 1) + 3 * (sticks + 1) + 4 * brackets
