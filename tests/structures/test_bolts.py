"""Which way bolts point: head to thread end, by plain arithmetic on the hoop's own tangent."""

import dataclasses
import math
from pathlib import Path

import pytest

from structures.frame.bolts import bolt_direction
from structures.frame.document import read_document
from tests.structures.test_sequence import full

DOCUMENTS = Path(__file__).parent / "documents"


def first(doc, fitting, side="", station=""):
    return next(joint for joint in doc.joints if joint.fitting == fitting and joint.side == side and station in ("", joint.station))


def test_a_bolt_on_the_leg_points_in_across_the_structure():
    doc = full("g26-d", 48)
    assert bolt_direction(doc, first(doc, "foot-bolt", "left")) == pytest.approx((1, 0, 0))
    assert bolt_direction(doc, first(doc, "foot-bolt", "right")) == pytest.approx((-1, 0, 0))


def test_a_brace_bolt_on_the_roof_points_square_into_it():
    """The roof of G26 rises at 25 degrees, so inward from it is sin 25 toward the middle and cos 25 down."""
    doc = full("g26-d", 48)
    band = next(joint for joint in doc.joints if joint.fitting == "brace-band" and joint.station == "high" and joint.side == "left")
    pitch = math.radians(25)
    assert bolt_direction(doc, band) == pytest.approx((math.sin(pitch), 0, -math.cos(pitch)))


@pytest.mark.parametrize(
    ("fitting", "side", "direction"),
    [("connector", "", (0, 0, -1)), ("connector", "left", (0, 0, -1)), ("end-band", "right", (0, 0, -1)),
     ("tie-band", "left", (0, 1, 0)), ("joint-screw", "left", (0, 0, 1))],
)
def test_others_point_plumb_or_lengthwise(fitting, side, direction):
    doc = full("g26-d", 48)
    assert bolt_direction(doc, first(doc, fitting, side)) == pytest.approx(direction)


@pytest.mark.parametrize(
    ("points", "direction"),
    [("in", (0, 0, -1)), ("out", (0, 0, 1)), ("up", (0, 0, 1)), ("down", (0, 0, -1)), ("away from the tag end", (0, 1, 0)),
     ("toward the tag end", (0, -1, 0))],
)
def test_at_the_ridge_in_is_down(points, direction):
    doc = full("g26-d", 48)
    turned = dataclasses.replace(doc, hardware=tuple(dataclasses.replace(one, bolt_points=points) for one in doc.hardware))
    assert bolt_direction(turned, first(doc, "connector", "")) == pytest.approx(direction)


def test_a_slip_joint_that_points_in_does_so_square_to_the_hoops_beside_it():
    doc = full("g26-d", 48)
    turned = dataclasses.replace(doc, hardware=tuple(dataclasses.replace(one, bolt_points="in") for one in doc.hardware))
    slip = next(joint for joint in doc.joints if ":slip:" in joint.id and joint.side == "right")
    beside = next(joint for joint in doc.joints if joint.kind == "connector" and joint.side == "right")
    assert bolt_direction(turned, slip) == pytest.approx(bolt_direction(turned, beside))
    assert bolt_direction(turned, dataclasses.replace(slip, station="nowhere")) == pytest.approx((0, 0, -1))


def test_what_is_driven_nowhere_has_no_direction():
    doc = full("g26-d", 48)
    bare = dataclasses.replace(doc, lines=tuple(line for line in doc.lines if line.kind != "fastener"))
    assert bolt_direction(bare, first(doc, "connector", "")) is None


def test_a_document_of_schema_1_says_nothing_of_bolts():
    old = read_document((DOCUMENTS / "schema-1-gothic-48.json").read_text(encoding="utf-8"))
    assert [bolt_direction(old, joint) for joint in old.joints[:50]] == [None] * 50


def test_every_direction_is_a_unit_vector_and_mirrored_sides_are_mirrored():
    doc = full("g30-b", 48)
    by_place = {joint.id: bolt_direction(doc, joint) for joint in doc.joints}
    checked = 0
    for ident, found in by_place.items():
        if found is None:
            continue
        assert math.hypot(*found) == pytest.approx(1)
        twin = by_place.get(ident.replace("-L-", "-R-"))
        if "-L-" in ident and twin is not None:
            assert twin == pytest.approx((-found[0], found[1], found[2]))
            checked += 1
    assert checked > 100
