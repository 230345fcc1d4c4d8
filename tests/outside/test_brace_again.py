"""A brace's length, twist and hand solved once more with numpy, by other means than the builder's.

The hoop is walked as a fine table of points made from the shape's own figures (width, leg, radius, pitch); normals come
from differences of that table; the following end is found by bisection; the twist is the angle by which a rotation
about the piece's axis carries one square normal into the other (Rodrigues' formula).
"""

import numpy as np
import pytest

from tests.structures.frames import document, family

STEP_IN = 0.001


def table(name):
    """(s, x, z) rows of the RIGHT half hoop from the stated figures: leg, tangent arc, straight roof."""
    shape = family(name).shape
    half, leg, radius = shape.width_in / 2, shape.leg_in, shape.radius_in
    if shape.kind == "round":
        turn = np.pi / 2
        roof = 0.0
    else:
        turn = np.pi / 2 - np.radians(shape.pitch_deg)
        roof = (half - radius + radius * np.cos(turn)) / np.sin(turn)
    total = leg + radius * turn + roof
    s = np.arange(0, total, STEP_IN)
    bend = np.clip((s - leg) / radius, 0, turn)
    x = half - radius * (1 - np.cos(bend))
    z = np.minimum(s, leg) + radius * np.sin(bend)
    past = np.maximum(s - leg - radius * turn, 0)
    return s, x - past * np.sin(turn), z + past * np.cos(turn)


def at(rows, s, side):
    x = np.interp(s, rows[0], rows[1])
    return np.array([x if side == "right" else -x, 0.0, np.interp(s, rows[0], rows[2])])


def normal(rows, s, side):
    ahead, behind = at(rows, s + 0.01, side), at(rows, s - 0.01, side)
    tangent = (ahead - behind) / np.linalg.norm(ahead - behind)
    lengthwise = np.array([0.0, 1.0, 0.0])
    square = np.cross(tangent, lengthwise)
    return square if square @ np.array([1.0 if side == "right" else -1.0, 0, 0.2]) > 0 else -square


def twist_of(d, n1, n2):
    """The signed turn about d that carries n1, made square to d, into n2 made square to d."""
    m1, m2 = (n - (n @ d) * d for n in (n1, n2))
    m1, m2 = m1 / np.linalg.norm(m1), m2 / np.linalg.norm(m2)
    candidates = np.arange(-np.pi, np.pi, 1e-4)
    turned = (np.outer(np.cos(candidates), m1) + np.outer(np.sin(candidates), np.cross(d, m1)))
    return np.degrees(candidates[np.argmax(turned @ m2)])


CASES = [("r14-a", 40), ("g20-b", 48), ("g26-d", 72), ("g26-a", 72), ("g30-b", 96)]


@pytest.mark.parametrize(("name", "length_ft"), CASES, ids=[case[0] for case in CASES])
def test_every_brace_has_the_length_twist_and_hand_that_numpy_finds(name, length_ft):
    rows = table(name)
    frame = document(name, length_ft)
    assert frame.braces
    for brace in frame.braces:
        ends = []
        for landing, other in ((brace.landing_from, brace.landing_to), (brace.landing_to, brace.landing_from)):
            offset = 1.5 if frame.tubes["hoop"] < 1.8 else 1.625
            point = at(rows, landing.from_foot_in, landing.side)
            point[1] = (landing.hoop - 1) * frame.measures.spacing_in + np.sign(other.hoop - landing.hoop) * offset
            ends.append(point)
            assert np.allclose(point, landing.hole, atol=2e-3)
        span = np.linalg.norm(ends[1] - ends[0])
        assert span == pytest.approx(brace.length_in, abs=4e-3)
        d = (ends[1] - ends[0]) / span
        normals = [normal(rows, landing.from_foot_in, landing.side) for landing in (brace.landing_from, brace.landing_to)]
        twist = twist_of(d, *normals)
        assert twist == pytest.approx(brace.twist_deg, abs=0.03)
        if abs(twist) > 0.1:
            assert brace.hand == ("right" if twist > 0 else "left")


def test_the_following_end_is_where_bisection_finds_it():
    """The middle of the side chain of G26: from the foot mark, set, up hoop 2 until the holes are a made length apart."""
    rows = table("g26-d")
    brace = next(b for b in document("g26-d", 72).braces if b.id == "B2-R-side:brace:1")
    fixed = at(rows, brace.landing_to.from_foot_in, "right")
    fixed[1] = 2 * 48 - 1.625
    low, high = brace.landing_to.from_foot_in, 50.0
    for _ in range(60):
        middle = (low + high) / 2
        point = at(rows, middle, "right")
        point[1] = 48 + 1.625
        low, high = (middle, high) if np.linalg.norm(point - fixed) < brace.length_in else (low, middle)
    assert brace.landing_from.from_foot_in == pytest.approx(low, abs=2e-3)
    assert brace.set_end == "to"
