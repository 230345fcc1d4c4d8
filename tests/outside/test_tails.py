"""Tails, bends and following ends once more, by plain vector arithmetic on the shapes' own figures and nothing of ours.

The demo families' figures are invented; the formula of a tail is our own convention (length of the tail over the hoop's line,
the lifted edge of a flat that is turned, ear and bolt head), and the exact corner points below hold it to account.
"""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from structures.frame.choose import choose
from structures.frame.compute import compute
from tests.structures.frames import document, family

# Half width, leg, radius, pitch in degrees (None is round), hole from the hoop's axis, hoop's diameter.
SHAPES = {
    "r14-a": (84, 18, 84, None, 1.5, 1.66),
    "g20-b": (120, 42, 54, 25, 1.5, 1.66),
    "g26-d": (156, 48, 60, 25, 1.625, 1.9),
    "g30-b": (180, 54, 66, 25, 1.625, 1.9),
}
LENGTHS = {"r14-a": 40, "g20-b": 48, "g26-d": 72, "g30-b": 96}
TAIL, WIDTH, WALL, EAR, HEAD = 9 / 16, 9 / 8, 0.058, 1 / 8, 7 / 32
SLACK = {"r14-a": 10, "g20-b": 5, "g26-d": 5, "g30-b": 5}


def at(name, s, side):
    """The point of the hoop's axis and its outward normal, (x, z) each, s inches up the tube."""
    half, leg, radius, pitch, _, _ = SHAPES[name]
    turn = math.radians(90 if pitch is None else 90 - pitch)
    bend = min(max((s - leg) / radius, 0), turn)
    past = max(s - leg - radius * turn, 0)
    x = half - radius * (1 - math.cos(bend)) - past * math.sin(bend)
    z = min(s, leg) + radius * math.sin(bend) + past * math.cos(bend)
    sign = -1 if side == "left" else 1
    return (sign * x, z), (sign * math.cos(bend), math.sin(bend))


def end_of(name, spacing, landing, other):
    """Hole and outward normal of one end, as vectors."""
    (x, z), (nx, nz) = at(name, landing.from_foot_in, landing.side)
    y = (landing.hoop - 1) * spacing + math.copysign(SHAPES[name][4], other.hoop - landing.hoop)
    return (x, y, z), (nx, 0.0, nz)


def minus(a, b):
    return tuple(p - q for p, q in zip(a, b, strict=True))


def times(a, k):
    return tuple(p * k for p in a)


def plus(*vectors):
    return tuple(map(sum, zip(*vectors, strict=True)))


def dot(a, b):
    return sum(p * q for p, q in zip(a, b, strict=True))


def unit(a):
    return times(a, 1 / math.sqrt(dot(a, a)))


def cross(a, b):
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def ends_of(name, doc, brace):
    spacing = doc.measures.spacing_in
    return (end_of(name, spacing, brace.landing_from, brace.landing_to),
            end_of(name, spacing, brace.landing_to, brace.landing_from))


def turn_of(d, n1, n2):
    """Degrees between the two normals as one sees them looking along the piece."""
    m1, m2 = (unit(minus(n, times(d, dot(n, d)))) for n in (n1, n2))
    return math.degrees(math.acos(max(-1.0, min(1.0, dot(m1, m2)))))


@pytest.mark.parametrize("name", SHAPES)
def test_every_tail_and_bend_is_what_plain_arithmetic_gives(name):
    doc = document(name, LENGTHS[name])
    diameter = SHAPES[name][5]
    assert doc.braces
    for brace in doc.braces:
        (p, n1), (q, n2) = ends_of(name, doc, brace)
        d = unit(minus(q, p))
        assert brace.bend_from_deg == pytest.approx(math.degrees(math.asin(dot(d, n1))), abs=1e-6)
        assert brace.bend_to_deg == pytest.approx(math.degrees(math.asin(dot(d, n2))), abs=1e-6)
        twist = turn_of(d, n1, n2)
        assert twist == pytest.approx(abs(brace.twist_deg), abs=1e-4)
        # A tail goes on beyond its hole: backward at the first end, forward at the second.
        for end, tail, rises in (("from", brace.tail_from, -dot(d, n1)), ("to", brace.tail_to, dot(d, n2))):
            turned = twist if brace.turned_end == end else 0.0
            left = turned if twist < SLACK[name] else 0.0
            flat = TAIL * max(rises, 0) + max(WALL, EAR + HEAD) - diameter / 2
            assert tail.unmade_in == pytest.approx(flat + WIDTH / 2 * math.sin(math.radians(turned)), abs=1e-6)
            assert tail.made_in == pytest.approx(flat + WIDTH / 2 * math.sin(math.radians(left)), abs=1e-6)
        assert brace.proud_in == max(brace.tail_from.made_in, brace.tail_to.made_in)


@pytest.mark.parametrize("name", SHAPES)
def test_the_highest_corner_of_a_flat_lies_where_the_formula_says(name):
    """The flat's two far corners as points, turned about the piece by the whole twist: their height over the plane in which the
    hole lies. The formula leaves out the cosine of the bend, so it is never lower, and at most 1/64 in. higher."""
    doc = document(name, LENGTHS[name])
    diameter = SHAPES[name][5]
    for brace in doc.braces:
        (p, n1), (q, n2) = ends_of(name, doc, brace)
        ahead = unit(minus(q, p))
        (hole, n, d), tail = (((p, n1, times(ahead, -1)), brace.tail_from) if brace.turned_end == "from"
                              else ((q, n2, ahead), brace.tail_to))
        m = unit(minus(n, times(d, dot(n, d))))
        across = cross(d, m)
        twist = math.radians(turn_of(ahead, n1, n2))
        turned = plus(times(across, math.cos(twist)), times(m, math.sin(twist)))
        corners = [plus(hole, times(d, TAIL), times(turned, side * WIDTH / 2)) for side in (-1, 1)]
        exact = max(dot(minus(corner, hole), n) for corner in corners) + max(WALL, EAR + HEAD) - diameter / 2
        assert exact - 1e-9 <= tail.unmade_in <= exact + 1 / 64


def test_one_tail_in_figures():
    """The lower roof piece at the tag end, right, of G26: it leaves its hoop inward at 7.30 degrees, and its twist of 5.45 degrees is
    made. 9/16 sin 7.30 = 0.0715; 9/16 sin 5.45 = 0.0534; 1/8 + 7/32 - 0.95 = -0.6063."""
    brace = next(b for b in document("g26-d", 72).braces if b.id == "B1-R-roof:brace:1")
    assert brace.turned_end == "from"
    assert brace.tail_from.made_in == pytest.approx(0.0715 - 0.6063, abs=2e-4)
    assert brace.tail_from.unmade_in == pytest.approx(0.0715 + 0.0534 - 0.6063, abs=2e-4)


def resolved(name, doc, brace, out):
    """Where the free end's band lies with its hoop moved `out` inches away, found by halving between the quarters above and below."""
    held, free = ((brace.landing_from, brace.landing_to) if brace.reach.end == "to"
                  else (brace.landing_to, brace.landing_from))
    spacing = doc.measures.spacing_in
    fixed, _ = end_of(name, spacing, held, free)

    def span(s):
        (x, z), _ = at(name, s, free.side)
        away = math.copysign(1.0, free.hoop - held.hoop)
        y = (free.hoop - 1) * spacing - away * SHAPES[name][4] + away * out
        return math.dist((x, y, z), fixed)

    low, high = free.from_foot_in - 9, free.from_foot_in + 9
    rising = span(high) > span(low)
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if (span(middle) < brace.length_in) == rising else (low, middle)
    return low


@pytest.mark.parametrize("name", SHAPES)
def test_the_free_end_moves_for_half_an_inch_as_far_as_the_landing_solved_again(name):
    doc = document(name, LENGTHS[name])
    for brace in doc.braces:
        free = brace.landing_to if brace.reach.end == "to" else brace.landing_from
        assert resolved(name, doc, brace, 0.0) == pytest.approx(free.from_foot_in, abs=1e-6)
        assert brace.reach.moves_in == pytest.approx(resolved(name, doc, brace, 0.5) - free.from_foot_in, abs=1e-2)


@pytest.mark.parametrize("ident", ["B1-R-side:brace:1", "B2-R-side:brace:1"])
def test_what_an_inch_does_to_a_side_brace(ident):
    """Both pieces of the side chain of G26 are 49 3/8 in. long over a bay of 48 less two holes of 1 5/8: 44 3/4 along, so 20 7/8 up
    (Pythagoras). A piece an inch shorter lands 49.375 / 20.86 = 2.37 in. lower, about 2 3/8; a bay an inch wider takes
    44.75 / 20.86 = 2.14 of it at first, and more as the piece lies flatter: 1.11 for the first half inch, 2.30 for the inch."""
    doc = document("g26-d", 72)
    brace = next(b for b in doc.braces if b.id == ident)
    up = math.sqrt(49.375**2 - 44.75**2)
    assert up == pytest.approx(20.86, abs=5e-3)
    assert 49.375 / up == pytest.approx(2 + 3 / 8, abs=1 / 64)
    assert brace.reach.moves_in == pytest.approx(math.sqrt(49.375**2 - 45.25**2) - up, abs=1e-2)
    free = brace.landing_to if brace.reach.end == "to" else brace.landing_from
    assert resolved("g26-d", doc, brace, 1.0) - free.from_foot_in == pytest.approx(-2.30, abs=1e-2)


SIZES = st.tuples(st.sampled_from(sorted(SHAPES)), st.integers(4, 30))


def of_size(name, bays):
    """The document of a family at so many bays, or at the nearest number that is on offer."""
    fam = family(name)
    spacing = fam.spacings_in[0]
    bays = min(max(bays, math.ceil(fam.shortest_in / spacing)), int(fam.longest_in // spacing))
    return compute(fam, choose(fam, length_in=bays * spacing), sha256="0" * 64)


def alike(brace):
    """What two corners that mirror one another have in common."""
    reach = brace.reach
    return (brace.role, brace.turned_end, reach.end, *(
        round(value, 6) for value in (brace.tail_from.made_in, brace.tail_from.unmade_in, brace.tail_to.made_in,
                                      brace.tail_to.unmade_in, brace.bend_from_deg, brace.bend_to_deg, reach.moves_in)))


def corner(doc, name):
    return [brace for brace in doc.braces if brace.corner == name]


@settings(max_examples=30, deadline=None)
@given(SIZES)
def test_mirrored_corners_have_equal_tails_opposite_hands_and_equal_reach(size):
    doc = of_size(*size)
    opposite = {"left": "right", "right": "left", "none": "none"}
    for end in ("tag", "far", "mid"):
        left, right = corner(doc, f"{end} left"), corner(doc, f"{end} right")
        assert [alike(b) for b in left] == [alike(b) for b in right]
        assert [b.hand for b in left] == [opposite[b.hand] for b in right]
        for a, b in zip(left, right, strict=True):
            assert (a.reach.low_in, a.reach.high_in) == pytest.approx((b.reach.low_in, b.reach.high_in))
            assert a.reach.low_stop.replace("-L-", "-R-") == b.reach.low_stop


@settings(max_examples=30, deadline=None)
@given(SIZES)
def test_front_left_is_as_back_right(size):
    """Where the chains of both ends meet on one hoop, one band has to lie above the other: those short ones are left out."""
    doc = of_size(*size)
    assume(doc.measures.bays > 4)
    front, back = corner(doc, "tag left"), corner(doc, "far right")
    assert [(*alike(b), b.hand, b.part) for b in front] == [(*alike(b), b.hand, b.part) for b in back]
