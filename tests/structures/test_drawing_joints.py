"""Joint drawings: what has a figure is to scale, bolts point as the family says, every label is clear."""

import dataclasses
import math
import re

import pytest

from structures.frame.document import read_document
from structures.frame.drawing import GREY, joint_key, joint_kinds, render_joint
from structures.frame.lengths import inches_only
from tests.structures.drawn import Drawn, points, words_of
from tests.structures.frames import all_names, document
from tests.structures.full_family import full_document
from tests.structures.test_drawing_labels import USUAL_FT, assert_clear

PX = {"wide": 40.0, "desk": 27.0, "narrow": 27.0}
NEAR = 0.11                                   # figures in a drawing are rounded to a tenth of a px


@pytest.fixture(scope="module")
def g26():
    return document("g26-d", 48, ("boards",))


def drawn_of(frame, role, size="wide", **more):
    kind = next(kind for kind in joint_kinds(frame) if kind.role == role)
    return Drawn(render_joint(frame, kind.fitting, size, role=role, **more))


def hardware_of(frame, code):
    return next(h for h in frame.hardware if h.code == code)


def left_of(drawn, elements):
    """Those in the left half of a wide or desk drawing, where the face is."""
    return [element for element in elements if max(x for x, _ in points(element)) < drawn.width / 2]


def middle(element):
    at = points(element)
    return sum(x for x, _ in at) / len(at), sum(y for _, y in at) / len(at)


def hexagon(drawn):
    return next(e for e in left_of(drawn, drawn.of_class("clamp")) if len(points(e)) == 6)


def extent(element):
    xs, ys = zip(*points(element), strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize("size", ["wide", "desk"])
@pytest.mark.parametrize(("name", "role"), [("g26-d", "side brace-hip"), ("g30-b", "roof shoulder"), ("r14-a", "side foot")])
def test_a_band_and_its_hole_are_drawn_to_the_documents_inches(name, role, size):
    frame = document(name, USUAL_FT[name[:3]])
    drawn = drawn_of(frame, role, size)
    hardware, px = hardware_of(frame, "brace-band"), PX[size]
    edges = [points(e) for e in left_of(drawn, drawn.of_class("obj2")) if e.tag.endswith("line")]
    left, right = sorted(line[0][0] for line in edges if line[0][0] == line[1][0])[:2]
    assert right - left == pytest.approx(frame.tubes["hoop"] * px, abs=2 * NEAR)
    axis = (left + right) / 2
    assert abs(middle(hexagon(drawn))[0] - axis) == pytest.approx(hardware.hole_offset_in * px, abs=2 * NEAR)
    wrap = next(e for e in left_of(drawn, drawn.of_class("clamp")) if len(points(e)) == 4)
    assert extent(wrap)[1] == pytest.approx(hardware.width_in * px, abs=2 * NEAR)
    shown = words_of(drawn)
    assert shown.count(inches_only(hardware.hole_offset_in)) == 2           # on the face and in the section
    assert inches_only(hardware.width_in) in shown


def test_the_section_cuts_the_hoop_at_its_own_size_and_the_bolt_lies_as_far_off(g26):
    drawn = drawn_of(g26, "side brace-hip")
    cut = drawn.of_class("j-cut")[0]
    assert float(cut.attrib["r"]) == pytest.approx(g26.tubes["hoop"] / 2 * 40, abs=NEAR)
    tip = points(drawn.of_class("arrow")[0])[0]
    assert tip[0] - float(cut.attrib["cx"]) == pytest.approx(1.625 * 40, abs=2 * NEAR)


def test_a_piece_leaves_its_hole_at_its_own_angle(g26):
    """Worked out here from the holes: along the structure and, on the straight leg, straight up."""
    brace = next(b for b in g26.braces if b.corner == "tag right" and b.from_ == "H1-R-brace-hip")
    (_, y0, z0), (_, y1, z1) = brace.landing_from.hole, brace.landing_to.hole
    drawn = drawn_of(g26, "side brace-hip")
    lit = next(e for e in drawn.of_class("j-lit") if max(x for x, _ in points(e)) < drawn.width / 2)
    hole = middle(hexagon(drawn))
    far = max(points(lit), key=lambda at: math.dist(at, hole))
    ends = [at for at in points(lit) if math.dist(at, hole) > math.dist(far, hole) - 8]
    end = (sum(x for x, _ in ends) / len(ends), sum(y for _, y in ends) / len(ends))
    assert math.atan2(hole[1] - end[1], end[0] - hole[0]) == pytest.approx(math.atan2(z1 - z0, y1 - y0), abs=0.01)


def test_the_flattened_end_is_as_long_and_as_wide_as_stated_and_clear_of_the_hoop(g26):
    brace = next(b for b in g26.braces if b.corner == "tag right" and b.from_ == "H1-R-brace-hip")
    drawn = drawn_of(g26, "side brace-hip")
    hole = middle(hexagon(drawn))
    lit = next(e for e in drawn.of_class("j-lit") if max(x for x, _ in points(e)) < drawn.width / 2)
    nearest = min(math.dist(at, hole) for at in points(lit))
    assert nearest == pytest.approx(brace.flat.length_in * 40, abs=0.3)
    edge = min(x for x, _ in points(lit))
    hoop = max(points(e)[0][0] for e in left_of(drawn, drawn.of_class("obj2")) if points(e)[0][0] == points(e)[1][0])
    assert edge > hoop
    hidden = next(e for e in drawn.of_class("hid") if math.dist(middle(e), hole) < 40)
    assert len(points(hidden)) > 8                                       # what the ear hides is dashed


@pytest.mark.parametrize(("points_to", "down"), [("in", True), ("out", False)])
def test_the_arrow_runs_from_the_bolts_head_to_its_thread(g26, points_to, down):
    turned = tuple(dataclasses.replace(h, bolt_points=points_to) if h.code == "brace-band" else h for h in g26.hardware)
    drawn = drawn_of(dataclasses.replace(g26, hardware=turned), "side brace-hip")
    tip, *back = points(drawn.of_class("arrow")[0])
    assert (tip[1] > back[0][1]) is down
    assert f"bolt points {points_to}" in words_of(drawn)


def test_a_ties_bolt_points_away_from_the_tag_end_which_lies_at_the_left(g26):
    drawn = drawn_of(g26, "tie")
    tip, *back = points(drawn.of_class("arrow")[0])
    assert tip[0] > back[0][0]
    assert "away from the tag end" in words_of(drawn)
    assert any("tag end at left" in words for words in words_of(drawn))


def test_two_butted_bands_meet_on_the_mark_and_their_ears_point_apart(g26):
    drawn = drawn_of(g26, "side mid")
    heads = sorted(middle(e) for e in left_of(drawn, drawn.of_class("clamp")) if len(points(e)) == 6)
    assert len(heads) == 2
    (x0, y0), (x1, y1) = heads
    assert x1 - x0 == pytest.approx(2 * 1.625 * 40, abs=0.5)
    mids = [b for b in g26.braces if "H2-R-mid" in (b.from_, b.to)]
    low, high = sorted(landing.from_foot_in for b in mids for landing in (b.landing_from, b.landing_to) if landing.code == "H2-R-mid")
    assert abs(y1 - y0) == pytest.approx((high - low) * 40, abs=0.5)


def test_the_purlin_end_lies_on_the_purlins_own_line_and_its_slip_joint_where_it_is(g26):
    drawn = drawn_of(g26, "end")
    end = next(m for m in g26.members if m.id == "B1-R-purlin:end:1")
    assert f"{inches_only(end.end[1])} in. to the joint" in words_of(drawn)
    stated = [words for words in words_of(drawn) if words.endswith("swage inside")]
    assert stated == ["6 in. swage inside"]                              # 18 in. made, 12 in. of it seen


def test_the_foot_bolt_stands_as_high_as_its_mark(g26):
    drawn = drawn_of(g26, "foot")
    bolt = next(j for j in g26.joints if j.fitting == "foot-bolt")
    lines = [points(e) for e in drawn.of_class("obj2")]
    level = max((b[0] - a[0], a[1]) for a, b in lines if a[1] == b[1])[1]          # the longest level line is the soil
    assert abs(level - middle(hexagon(drawn))[1]) == pytest.approx(bolt.from_foot_in * 40, abs=0.3)


@pytest.mark.parametrize("name", all_names())
def test_every_joint_of_a_frame_is_of_one_kind_that_can_be_drawn(name):
    frame = document(name, USUAL_FT[name[:3]])
    kinds = joint_kinds(frame)
    placed = [one for kind in kinds for one in kind.joints]
    assert len(placed) == len(set(placed))
    left = {j.id for j in frame.joints if j.holds} - set(placed)
    assert left == set()                                                 # whatever joins members has its drawing
    assert len({(kind.fitting, kind.role) for kind in kinds}) == len(kinds)


FRAMES = {name: lambda name=name: document(name, USUAL_FT[name[:3]]) for name in all_names()}
FRAMES |= {"webs": lambda: document("g30-b", 48, ("webs",)), "everything on a runner": full_document}


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("name", FRAMES)
def test_labels_of_joints_are_clear_and_none_is_left_out(name, units):
    frame = FRAMES[name]()
    for kind in joint_kinds(frame):
        for size in ("wide", "desk", "narrow"):
            drawn = Drawn(render_joint(frame, kind.fitting, size, role=kind.role, units=units))
            assert_clear(drawn, f"{kind.role} {size}")
            named = {row.letter for row in joint_key(frame, kind.fitting, role=kind.role, units=units)}
            if size == "wide":
                said = {words for row in joint_key(frame, kind.fitting, role=kind.role, units=units) for words in row.words.split(": ")}
                assert {words for words in said if words} <= set(words_of(drawn)), kind.role
            else:
                letters = {"".join(e.itertext()) for kind_ in ("mkt", "mkqt") for e in drawn.of_class(kind_)}
                assert letters == named, f"{kind.role} {size}"


SLIP = re.compile(r"[:;,.]\s*[:;,.]|^[\s:;,.]|[\s:;,]$|\s{2}|\s[:;,.]|\b([a-z]+) \1\b")


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("name", FRAMES)
def test_the_key_of_a_joint_is_written_cleanly(name, units):
    """No mark of punctuation or word stands twice, and none stands where nothing precedes or follows it."""
    frame = FRAMES[name]()
    said = {row.words for kind in joint_kinds(frame) for row in joint_key(frame, kind.fitting, role=kind.role, units=units)}
    assert len(said) > 20
    assert [words for words in said if SLIP.search(words)] == []
    assert SLIP.search("the bands meet on the mark:: one above it")


def test_the_ears_of_a_webs_band_stand_above_the_tie_and_a_ties_inward_of_the_hoop():
    """The family says so: hole_direction "upward" and "inward"."""
    frame = document("g30-b", 48, ("webs",))
    said = {row.words for kind in joint_kinds(frame) for row in joint_key(frame, kind.fitting, role=kind.role)}
    assert {"two ears, side by side: above the collar tie", "two ears, side by side: inward of the hoop"} <= said


def test_a_letter_names_one_thing_in_all_joints(g26):
    said = {}
    for kind in joint_kinds(g26):
        for row in joint_key(g26, kind.fitting, role=kind.role):
            said.setdefault(row.letter, set()).add(row.words.split(":")[0].split(" ")[0])
    assert said["s"] <= {"hoop", "hoop’s", "end"}
    assert said["u"] == {"nut", "nuts"}


def test_a_document_of_schema_1_has_no_hardware_and_so_no_joint_drawings():
    with open("tests/structures/documents/schema-1-gothic-48.json", encoding="utf-8") as file:
        old = read_document(file.read())
    assert joint_kinds(old) == ()
    with pytest.raises(ValueError, match="it has none"):
        render_joint(old, "brace-band", "wide")


def test_what_is_not_there_is_refused_by_name(g26):
    with pytest.raises(ValueError, match="no joint 'hinge'"):
        render_joint(g26, "hinge", "wide")
    with pytest.raises(ValueError, match="no huge joint drawing"):
        render_joint(g26, "brace-band", "huge")


def test_joints_print_with_a_palette(g26, caplog):
    from weasyprint import HTML
    drawings = [render_joint(g26, kind.fitting, "narrow", role=kind.role, palette=GREY) for kind in joint_kinds(g26)]
    with caplog.at_level("WARNING", logger="weasyprint"):
        HTML(string="<html lang=en><title>Joints</title>" + "".join(drawings)).write_pdf()
    assert [record.getMessage() for record in caplog.records] == []
