"""Distances of straight pieces computed once more by other means.

Sources: the distance of two skew lines, |(a2 - a1) . (b1 x b2)| / |b1 x b2| (any textbook of vector geometry; from memory), worked
by hand below; scipy.optimize.minimize (L-BFGS-B with bounds) for two segments, and scipy.optimize.minimize_scalar
(bounded) over points of a segment whose distance from a body scipy finds by minimising over the body's own points.
"""

import math

import numpy as np
import pytest
from scipy.optimize import minimize, minimize_scalar

from structures.frame.build import family_profile
from structures.frame.build.gaps.outline import Outline
from structures.frame.solids import Block, Pillar, Quarter
from structures.frame.vectors import along, segment_nearest
from tests.structures.frames import document, family

WITHIN = 1e-6
STARTS = [(0.5, 0.5), (0, 1)]


@pytest.fixture
def random():
    return np.random.default_rng(26)


def points(random, count, reach=60.0):
    return [tuple(point) for point in random.uniform(-reach, reach, (count, 3))]


def between_segments(a0, a1, b0, b1):
    """The least distance over the unit square of the two shares, as scipy finds it; the squared distance is convex there."""
    p, u, q, v = (np.array(one) for one in (a0, np.subtract(a1, a0), b0, np.subtract(b1, b0)))

    def square(shares):
        away = p + shares[0] * u - q - shares[1] * v
        return away @ away, np.array([2 * away @ u, -2 * away @ v])

    found = [minimize(square, start, jac=True, bounds=[(0, 1), (0, 1)], method="L-BFGS-B", options={"ftol": 1e-16, "gtol": 1e-12})
             for start in STARTS]
    return math.sqrt(max(min(one.fun for one in found), 0.0))


def test_two_skew_lines_worked_by_hand():
    # a: (1, 0, 0) + s (0, 1, 1), b: (0, 0, 3) + t (1, 1, 0). b1 x b2 = (0, 1, 1) x (1, 1, 0) = (1*0 - 1*1, 1*1 - 0*0, 0*1 - 1*1)
    # = (-1, 1, -1), of length sqrt 3; a2 - a1 = (-1, 0, 3); its product with it is 1 + 0 - 3 = -2; the distance is 2 / sqrt 3.
    # They are nearest where the way between them is square to both: (1 - t, s - t, s - 3) . (0, 1, 1) = 2s - t - 3 = 0 and
    # . (1, 1, 0) = 1 + s - 2t = 0, so s = 7/3 and t = 5/3: within the segments drawn here, s up to 5 and t up to 3.
    distance, share = segment_nearest((1, 0, 0), (1, 5, 5), (0, 0, 3), (3, 3, 3))
    assert distance == pytest.approx(2 / math.sqrt(3), abs=1e-12)
    assert share == pytest.approx(7 / 15, abs=1e-12)


@pytest.mark.parametrize(
    ("a0", "a1", "b0", "b1", "distance"),
    [
        ((0, 0, 0), (10, 0, 0), (5, 3, 4), (5, 3, 4), 5.0),            # a point over the middle: 3-4-5
        ((0, 0, 0), (0, 0, 0), (3, 4, 12), (3, 4, 12), 13.0),          # two points: 3-4-12-13
        ((0, 0, 0), (10, 0, 0), (12, 0, 0), (20, 0, 0), 2.0),          # end to end on one line
        ((0, 0, 0), (10, 0, 0), (4, 0, 7), (30, 0, 7), 7.0),           # side by side
        ((0, 0, 0), (10, 0, 0), (-8, 6, 0), (-3, 4, 0), 5.0),          # beyond an end: 3-4-5
        ((0, 0, 0), (10, 0, 0), (5, -5, 0), (5, 5, 0), 0.0),           # crossing
        ((0, 0, 0), (3600, 0, 0), (0, 2, 0), (3600, 1, 0), 1.0),       # long and all but parallel: the nearer end
    ],
)
def test_segments_at_known_distances(a0, a1, b0, b1, distance):
    assert segment_nearest(a0, a1, b0, b1)[0] == pytest.approx(distance, abs=1e-9)
    assert segment_nearest(b0, b1, a0, a1)[0] == pytest.approx(distance, abs=1e-9)


def test_two_hundred_random_pairs_of_segments_are_as_far_apart_as_scipy_finds(random):
    for _ in range(200):
        a0, a1, b0, b1 = points(random, 4)
        distance, share = segment_nearest(a0, a1, b0, b1)
        assert distance == pytest.approx(between_segments(a0, a1, b0, b1), abs=WITHIN)
        assert between_segments(along(a0, a1, share), along(a0, a1, share), b0, b1) == pytest.approx(distance, abs=WITHIN)


def over_a_segment(distance, a, b):
    """The least of a convex distance over the segment: its ends and what scipy's bounded search finds between them."""
    found = minimize_scalar(lambda share: distance(along(a, b, share)), bounds=(0, 1), method="bounded", options={"xatol": 1e-12})
    return min(found.fun, distance(a), distance(b))


def random_block(random):
    """A block turned any way: directions from the QR decomposition of a random matrix."""
    turned, _ = np.linalg.qr(random.normal(size=(3, 3)))
    return Block(points(random, 1, 20)[0], tuple(tuple(column) for column in turned.T), tuple(random.uniform(0.2, 12, 3)))


def test_a_block_is_as_far_as_scipy_finds_over_both_the_segment_and_the_block(random):
    for _ in range(100):
        block = random_block(random)
        a, b = points(random, 2)
        corner, ways = np.array(block.centre), np.array(block.directions)
        p, u = np.array(a), np.subtract(b, a)

        def square(free, corner=corner, ways=ways, p=p, u=u):
            away = p + free[0] * u - corner - free[1:] @ ways
            return away @ away, np.array([2 * away @ u, *(-2 * ways @ away)])

        bounds = [(0, 1), *((-half, half) for half in block.halves)]
        found = min(minimize(square, [start, 0, 0, 0], jac=True, bounds=bounds, method="L-BFGS-B",
                             options={"ftol": 1e-16, "gtol": 1e-12, "maxiter": 5000}).fun for start in (0.0, 0.5, 1.0))
        gap, share = block.nearest(a, b)
        if found > 1e-10:
            assert gap == pytest.approx(math.sqrt(found), abs=WITHIN)
        else:
            assert gap <= WITHIN
        inside = np.abs(ways @ (np.array(along(a, b, share)) - corner)) - block.halves
        assert math.hypot(*np.maximum(inside, 0)) == pytest.approx(max(gap, 0), abs=WITHIN)


def test_a_segment_through_a_block_is_as_deep_as_scipy_finds(random):
    """Depth inside a block is the way to its nearest face: the least of six, and along the segment the greatest of these."""
    entered = 0
    for _ in range(300):
        block = random_block(random)
        a, b = points(random, 2, 15)
        ways = np.array(block.directions)

        def over(point, block=block, ways=ways):
            return max(np.abs(ways @ np.subtract(point, block.centre)) - block.halves)

        deepest = over_a_segment(over, a, b)
        if deepest < -WITHIN:
            entered += 1
            assert block.nearest(a, b)[0] == pytest.approx(deepest, abs=WITHIN)
    assert entered > 20


def test_an_upright_block_by_hand():
    # A post 4 by 2 and 80 high; a pole 5 over it, one 3 beside and 4 behind its corner, one through its middle along y.
    post = Block.upright((2, -1, 0), (-2, 1, 80))
    assert post.nearest((-50, 0, 85), (50, 0, 85)) == (pytest.approx(5), pytest.approx(0.48))
    assert post.nearest((5, 5, -10), (5, 5, 100))[0] == pytest.approx(5)
    assert post.nearest((0, -50, 40), (0, 50, 40)) == (pytest.approx(-1), pytest.approx(0.5))
    assert post.nearest((5, 5, 40), (5, 5, 40))[0] == pytest.approx(5)


def quarter_distance(quarter, point):
    """The distance to the quarter, as scipy finds it over turn, radius and height of its own points: none if inside."""
    def reached(free):
        turn, out, height = free
        return np.array([quarter.x + quarter.across * out * math.cos(turn), quarter.y + quarter.forth * out * math.sin(turn), height])

    bounds = [(0, math.pi / 2), (0, quarter.radius_in), (quarter.z0, quarter.z1)]
    starts = [(turn, out * quarter.radius_in, (quarter.z0 + quarter.z1) / 2) for turn in (0, 0.8, 1.57) for out in (0.2, 1)]
    return min(np.linalg.norm(reached(minimize(lambda free: np.sum((reached(free) - point) ** 2), start, bounds=bounds,
                                               method="L-BFGS-B", options={"ftol": 1e-15, "gtol": 1e-10}).x) - point)
               for start in starts)


def test_the_room_a_door_sweeps_is_as_far_as_scipy_finds(random):
    for index in range(12):
        x, y, radius, high = random.uniform((-20, -20, 10, 40), (20, 20, 50, 80))
        quarter = Quarter(x, y, radius, (-1) ** index, (-1) ** (index // 2), 0, high)
        a, b = points(random, 2)
        gap, share = quarter.nearest(a, b)
        met = along(a, b, share)
        assert quarter_distance(quarter, met) == pytest.approx(max(gap, 0), abs=2e-5)
        assert gap == pytest.approx(over_a_segment(quarter.distance, a, b), abs=WITHIN)


def test_the_room_a_door_sweeps_by_hand():
    # A leaf 30 wide hinged at the origin, closed toward +x, opening to -y, 80 high.
    swing = Quarter(0, 0, 30, 1, -1, 0, 80)
    assert swing.distance((18, -24, 40)) == pytest.approx(0)          # 18-24-30, on the arc
    assert swing.distance((24, -32, 40)) == pytest.approx(10)         # 24-32-40
    assert swing.distance((-3, 4, 84)) == pytest.approx(math.sqrt(41))   # 3, 4 and 4 from the hinge's top
    assert swing.distance((10, -10, 40)) == pytest.approx(-10)
    assert swing.nearest((-40, -10, 90), (40, -10, 90))[0] == pytest.approx(10)
    # A pole past the arc's middle, square to its radius there: 40 - 30 from the rim.
    assert swing.nearest((0, -40 * math.sqrt(2), 40), (40 * math.sqrt(2), 0, 40))[0] == pytest.approx(10, abs=WITHIN)


def test_a_post_by_hand():
    # A post 2 thick about the origin, 6 high; a point over it, one beside, one off its rim 3-4-5, one inside; a pole over its top.
    post = Pillar(0, 0, 1, 0, 6)
    assert post.distance((0.5, 0, 9)) == pytest.approx(3)
    assert post.distance((0, -5, 4)) == pytest.approx(4)
    assert post.distance((4, 0, 10)) == pytest.approx(5)
    assert post.distance((0, 0.4, 3)) == pytest.approx(-0.6)
    assert post.nearest((-20, 0, 8), (20, 0, 8))[0] == pytest.approx(2, abs=WITHIN)
    assert post.nearest((3, -20, 3), (3, 20, 3)) == (pytest.approx(2, abs=WITHIN), pytest.approx(0.5, abs=1e-3))


def test_a_post_is_as_far_as_scipy_finds(random):
    """scipy's sequential least squares over the points of the post: across no farther than its radius, up no higher than it."""
    for _ in range(12):
        x, y, radius, high = random.uniform((-20, -20, 1, 5), (20, 20, 5, 40))
        post = Pillar(x, y, radius, 0, high)
        a, b = points(random, 2)
        gap, share = post.nearest(a, b)
        met = np.array(along(a, b, share))
        within = {"type": "ineq", "fun": lambda at, x=x, y=y, radius=radius: radius ** 2 - (at[0] - x) ** 2 - (at[1] - y) ** 2}
        found = minimize(lambda at, met=met: np.sum((at - met) ** 2), (x, y, high / 2), bounds=[(None, None), (None, None), (0, high)],
                         constraints=[within], method="SLSQP", options={"ftol": 1e-14, "maxiter": 500})
        assert np.linalg.norm(found.x - met) == pytest.approx(max(gap, 0), abs=2e-4)
        assert gap == pytest.approx(over_a_segment(post.distance, a, b), abs=WITHIN)


def test_a_hoop_is_as_far_as_the_nearest_of_many_points_of_its_curve():
    """The hoop of G26 as two hundred thousand points of its profile; the segment as scipy's search over it."""
    doc = document("g26-d")
    profile = family_profile(family("g26-d"))
    marks = np.linspace(0, doc.measures.ridge_mark_in, 200_001)
    curve = np.array([profile.point(s) for s in marks])
    for a, b in (((100, 0, 60), (60, 96, 100)), ((150, 2, 20), (120, 90, 80)), ((140, 10, 60), (20, 40, 120))):
        def away(share, a=a, b=b):
            x, y, z = along(a, b, share)
            return math.hypot(y - 48, np.min(np.hypot(curve[:, 0] - x, curve[:, 1] - z)))

        tried = np.linspace(0, 1, 41)
        best = min(tried, key=away)
        found = minimize_scalar(away, bounds=(max(best - 0.025, 0), min(best + 0.025, 1)), method="bounded", options={"xatol": 1e-9}).fun
        assert Outline(profile).hoop(a, b, 48)[0] == pytest.approx(min(found, away(0), away(1)), abs=WITHIN)


def test_the_film_is_nearest_at_an_end_of_a_straight_piece(random):
    profile = family_profile(family("g26-d"))
    for _ in range(50):
        s, t = random.uniform(0, profile.half_in, 2)
        (u, z), (v, w) = profile.point(s), profile.point(t)
        start, end = (u * 0.95, 0.0, z * 0.97), (v * 0.9, 48.0, w * 0.99)
        assert Outline(profile).film(start, end)[0] == pytest.approx(
            min(profile.depth(*along(start, end, share)[::2]) for share in np.linspace(0, 1, 201)), abs=1e-9)
