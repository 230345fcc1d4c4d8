"""The frame laid flat: every brace from hole to hole as it is developed, at one scale both ways, left foot on top."""

import math

import pytest

from structures.frame.drawing import LAYERS, render
from tests.structures.drawn import Drawn, points, words_of
from tests.structures.frames import document

NEAR = 0.25
OPTIONS = ["side-braces", "roof-braces", "mid-braces"]


def hoops_of(drawn):
    """Each drawn hoop's upright line, left to right."""
    tubes = [points(e) for e in drawn.of_class("tube-o") if "t2" in e.attrib["class"].split()]
    return sorted(tubes)


def rings(drawn):
    circles, numbers = drawn.of_class("bub"), drawn.of_class("bubt")
    found = {}
    for circle, number in zip(circles, numbers, strict=True):
        found.setdefault(int(number.text), points(circle)[0])
    return found


def lit(drawn):
    return [tuple(points(e)) for e in drawn.of_class("lit") if e.tag.endswith("line")]


@pytest.mark.parametrize("size", ["wide", "desk", "narrow"])
@pytest.mark.parametrize(("name", "length"), [("g26-d", 48), ("g30-b", 96), ("r14-a", 40), ("g20-b", 24), ("g30-b", 300)])
def test_every_brace_is_drawn_from_hole_to_hole_as_it_is_developed(name, length, size):
    """s along the tube from the left foot: a right landing's own measure is taken from the other end of the hoop."""
    frame = document(name, length)
    drawn = Drawn(render(frame, "unrolled", size, lit=OPTIONS))
    hoops, at, m = hoops_of(drawn), rings(drawn), frame.measures
    top, bottom = hoops[0][0][1], hoops[0][1][1]
    scale = (bottom - top) / m.developed_in
    assert (at[2][0] - at[1][0]) / m.spacing_in == pytest.approx(scale, rel=0.01)      # one scale both ways

    def project(landing):
        s = m.developed_in - landing.from_foot_in if landing.side == "right" else landing.from_foot_in
        beside = landing.hole[1] - (landing.hoop - 1) * m.spacing_in
        return at[landing.hoop][0] + beside * scale, top + s * scale

    lines = lit(drawn)
    assert len(lines) == len(frame.braces)
    for brace in frame.braces:
        a, b = project(brace.landing_from), project(brace.landing_to)
        assert any(max(math.dist(a, c), math.dist(b, d)) < NEAR for line in lines for c, d in (line, line[::-1])), brace.id


@pytest.mark.parametrize("size", ["wide", "desk", "narrow"])
def test_the_left_foot_is_on_top_and_hoop_1_at_the_left(size):
    frame = document("g26-d", 48)
    drawn = Drawn(render(frame, "unrolled", size, lit=["side-braces"], layers=LAYERS))
    codes = {e.text: points_of_text(e) for e in drawn.elements if e.tag.endswith("text") and e.text and e.text.startswith("H")}
    left = [at[1] for code, at in codes.items() if "-L-" in code]
    right = [at[1] for code, at in codes.items() if "-R-" in code]
    assert left
    assert right
    assert max(left) < min(right)
    at = rings(drawn)
    assert [at[h][0] for h in sorted(at)] == sorted(x for x, _ in at.values())


def points_of_text(element):
    return float(element.attrib["x"]), float(element.attrib["y"])


def test_both_halves_of_a_symmetric_frame_are_mirror_images():
    frame = document("g26-d", 48)
    drawn = Drawn(render(frame, "unrolled", "wide", lit=OPTIONS))
    hoop = hoops_of(drawn)[0]
    middle = hoop[0][1] + hoop[1][1]
    lines = lit(drawn)
    for a, b in lines:
        mirrored = ((a[0], middle - a[1]), (b[0], middle - b[1]))
        assert any(max(math.dist(mirrored[0], c), math.dist(mirrored[1], d)) < NEAR for line in lines for c, d in (line, line[::-1]))


def test_lengthwise_lines_lie_at_their_marks_and_are_named():
    frame = document("g26-d", 48)
    drawn = Drawn(render(frame, "unrolled", "wide"))
    hoop = hoops_of(drawn)[0]
    scale = (hoop[1][1] - hoop[0][1]) / frame.measures.developed_in
    heights = {round(points(e)[0][1], 1) for e in drawn.of_class("tube-o") if "t1" in e.attrib["class"].split()
               and points(e)[0][1] == points(e)[1][1]}
    for s in (104.0, frame.measures.ridge_mark_in, frame.measures.developed_in - 104.0):
        assert any(abs(y - hoop[0][1] - s * scale) < NEAR for y in heights)
    shown = words_of(drawn)
    for words in ("left side purlin", "right seam", "ridge", "left foot", "8-8", "20-10", "tag end", "far end", "left roof", "right side"):
        assert words in shown, words


def test_ties_land_twice_and_offered_ones_have_open_ends():
    frame = document("g26-d", 48)
    offered = document("g26-d", 48, ("snow-ties",))
    drawn = Drawn(render(frame, "unrolled", "wide", offered=offered))
    extra = len(offered.ties) - len(frame.ties)
    assert len(drawn.of_class("gone-end")) == 2 * extra
    assert len(drawn.of_class("tick")) == 2 * len(frame.ties)


def test_a_long_structure_leaves_out_like_bays_and_says_which():
    drawn = Drawn(render(document("g30-b", 300), "unrolled", "wide", lit=OPTIONS))
    at = rings(drawn)
    assert {1, 2, 3, 37, 38, 39, 74, 75, 76} <= set(at)
    assert len(at) < 40
    assert any(words.startswith("bays ") for words in words_of(drawn))


def test_every_joint_of_the_skin_has_its_sign_in_the_hardware_layer():
    """Those on hoops, and the slip joints of the purlins: G26 D of 48 ft has no others."""
    frame = document("g26-d", 48)
    plain, full = (Drawn(render(frame, "unrolled", "wide", layers=layers)) for layers in ((), ("hardware",)))
    added = [len(full.of_class(kind)) - len(plain.of_class(kind)) for kind in ("conn", "dot")]
    assert sum(added) == len(frame.joints)
    assert len(full.of_class("layer-hardware")) == 1
    assert not plain.of_class("layer")
