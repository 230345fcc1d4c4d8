"""The corners, from outside and from inside: drawn ends against computed ones, what hides what, mirrors, numbers and words.

The projection is made here anew, from where one stands and which way one looks, by plain vector products.
"""

import dataclasses
import math
import re
from itertools import pairwise

import pytest

from structures.frame.drawing import CORNER_VIEWS, SIZES, corner_rows, render, views_of
from structures.frame.profile import Profile
from structures.frame.said import Said
from tests.structures.drawn import SVG, Drawn, points, words_of
from tests.structures.frames import document
from tests.structures.looks import CORNERS, OPTIONS, Eye, drawn, from_the_left, groups, rings

CASES = [("r14-a", 20), ("r14-a", 100), ("g20-b", 24), ("g26-a", 24), ("g26-d", 48), ("g30-b", 24), ("g30-b", 96)]
NEAR = 0.25                     # figures in a drawing are rounded to a tenth of a px


def fitted(picture, frame, view):
    """The projection of this sheet: the eye's, scaled and moved so that two ends of one hoop's straight leg fit, and the factor by
    which tubes are drawn wider than to scale."""
    eye, side = Eye(view), view.rpartition("-")[2]
    sign = 1.0 if side == "right" else -1.0
    lowest = {}
    for ident, shapes in groups(picture):
        tube = next((s for s in shapes if s.attrib["class"] in ("tube-o", "lit-a")), None)
        if tube is not None and re.match(rf"H\d+-{side[0].upper()}-foot:section", ident):
            lowest[int(ident[1:ident.index("-")])] = max(points(tube), key=lambda p: p[1]), float(tube.attrib["stroke-width"])
    (a, (at_a, width)), (b, (at_b, _)) = sorted(lowest.items())[0], sorted(lowest.items())[-1]
    place = {hoop: eye.flat((sign * frame.measures.width_in / 2, (hoop - 1) * frame.measures.spacing_in, 0.0)) for hoop in (a, b)}
    scale = math.dist(at_a, at_b) / math.dist(place[a], place[b])
    factor = width / (frame.tubes["hoop"] * scale)

    def project(point):
        x, y = eye.flat(point)
        return at_a[0] + (x - place[a][0]) * scale, at_a[1] + (y - place[a][1]) * scale
    return project, factor


def drawn_hole(frame, landing, factor):
    """The hole as it must be drawn: band and hole as many times farther from node and axis as the tubes are wider."""
    profile, sign = Profile.read(frame.profile), 1.0 if landing.side == "right" else -1.0
    y = (landing.hoop - 1) * frame.measures.spacing_in
    u, z = profile.point(landing.from_foot_in)
    true = (sign * u, y, z)
    u, z = profile.point(landing.node_in + factor * (landing.from_foot_in - landing.node_in))
    return tuple(axis + factor * (hole - here) for axis, hole, here in zip((sign * u, y, z), landing.hole, true, strict=True))


def braces_of(frame, view):
    corner = " ".join(view.split("-")[1:])
    return [brace for brace in frame.braces if brace.corner == corner]


@pytest.mark.parametrize(("name", "length"), CASES)
@pytest.mark.parametrize("size", SIZES)
def test_every_brace_of_a_corner_is_drawn_from_hole_to_hole(name, length, size):
    frame = document(name, length)
    for view in (v for v in views_of(frame) if v in CORNER_VIEWS):
        picture = drawn(name, length, view, size)
        project, factor = fitted(picture, frame, view)
        assert 1.0 <= factor < 8
        lines = {ident: next(points(s) for s in shapes if s.attrib["class"] == "lit-b") for ident, shapes in groups(picture)
                 if any(s.attrib["class"] == "lit-b" for s in shapes)}
        mine = braces_of(frame, view)
        assert mine
        for brace in mine:
            ends = [project(drawn_hole(frame, landing, factor)) for landing in (brace.landing_from, brace.landing_to)]
            for at, wanted in zip(lines[brace.id], ends, strict=True):
                assert math.dist(at, wanted) < NEAR, (view, brace.id)


@pytest.mark.parametrize("size", SIZES)
def test_tubes_bands_and_holes_are_enlarged_by_one_factor(size):
    frame = document("g26-d", 48)
    picture = Drawn(render(frame, "inside-tag-right", size))
    project, factor = fitted(picture, frame, "inside-tag-right")
    brace = next(b for b in frame.braces if b.id == "B2-R-side:brace:1")
    tube = next(s for ident, shapes in groups(picture) if ident == brace.id for s in shapes if s.attrib["class"] == "tube-o")
    hoop = next(s for ident, shapes in groups(picture) if ident == "H3-R-foot:section:1" for s in shapes)
    assert float(tube.attrib["stroke-width"]) / float(hoop.attrib["stroke-width"]) == pytest.approx(1.315 / 1.9, abs=0.02)
    ear, _ = next(shapes for ident, shapes in groups(picture) if ident == brace.landing_to.joint)
    low, high = points(ear)[:2]
    at = project((156.0, 96.0, 8.0)), project((156.0, 96.0, 9.0))
    assert math.dist(low, high) / math.dist(*at) == pytest.approx(1.25 * factor, rel=0.06)   # a band is 1 1/4 in. wide
    # the hole lies 1 5/8 in. from the hoop's axis, lengthwise
    hole = points(next(s for s in dict(groups(picture))[brace.id] if s.attrib["class"] == "bolt-q" and points(s)[0] == points(tube)[-1]))[0]
    inch = math.dist(project((156.0, 96.0, 8.0)), project((156.0, 95.0, 8.0)))
    assert math.dist(hole, at[0]) / inch == pytest.approx(1.625 * factor, rel=0.05)


def test_standing_inside_facing_a_corner_its_end_is_on_the_hand_that_plain_geometry_says():
    # facing the left side (west, the tag end being south) the tag end is on the left hand; facing the right side, on the right
    frame = document("g26-d", 48)
    last = frame.measures.hoops
    order = {view: from_the_left(drawn("g26-d", 48, view)) for view in CORNER_VIEWS if view in views_of(frame)}
    assert order["inside-tag-left"] == [1, 2, 3]
    assert order["inside-tag-right"] == [3, 2, 1]
    assert order["inside-far-left"] == [last - 2, last - 1, last]
    assert order["inside-far-right"] == [last, last - 1, last - 2]
    # seen from outside the left side hoop 1 is on the right
    assert order["corner-tag-left"] == [3, 2, 1]
    assert order["corner-tag-right"] == [1, 2, 3]
    assert order["corner-far-left"] == [last, last - 1, last - 2]
    assert order["corner-far-right"] == [last - 2, last - 1, last]


@pytest.mark.parametrize(("name", "length"), [("g26-d", 48), ("r14-a", 40), ("g30-b", 96)])
@pytest.mark.parametrize("way", ["inside", "corner"])
@pytest.mark.parametrize("size", SIZES)
def test_mirrored_corners_are_mirrored_drawings(name, length, way, size):
    frame = document(name, length)

    def shapes(view):
        picture = drawn(name, length, view, size)
        return picture, [points(e) for kind in ("lit-b", "tube-o", "clamp", "conn", "bolt") for e in picture.of_class(kind)]

    left, of_left = shapes(f"{way}-tag-left")
    right, of_right = shapes(f"{way}-tag-right")
    assert len(of_left) == len(of_right) > 10
    rest = [sorted(((left.width - x, y) for x, y in shape)) for shape in of_right]
    for shape in (sorted(shape) for shape in of_left):
        found = next((other for other in rest if len(other) == len(shape) and all(
            abs(a[0] - b[0]) <= 0.1001 and abs(a[1] - b[1]) <= 0.1001 for a, b in zip(shape, other, strict=True))), None)
        assert found is not None, shape
        rest.remove(found)
    assert rest == []
    swapped = {"left": "right", "right": "left"}
    title = "".join(right.root.find(f"{SVG}title").itertext())
    assert "".join(left.root.find(f"{SVG}title").itertext()) == re.sub("left|right", lambda m: swapped[m[0]], title)
    hands = {brace.corner: {b.hand for b in frame.braces if b.corner == brace.corner and b.twist_made} for brace in frame.braces}
    if hands["tag left"]:
        assert hands["tag left"] == {swapped[hand] for hand in hands["tag right"]}
        letters = [{r.letter for r in corner_rows(frame, corner) if "twist" in r.what} for corner in ("tag-left", "tag-right")]
        assert letters[0].isdisjoint(letters[1])


def test_diagonal_corners_are_the_same_drawing():
    one, other = drawn("g26-d", 48, "inside-tag-right", "narrow"), drawn("g26-d", 48, "inside-far-left", "narrow")
    assert [points(e) for e in one.of_class("lit-b")] == [points(e) for e in other.of_class("lit-b")]


def axes_of(frame, view):
    """Points every 2 in. along the axis of every hoop, purlin, brace and drawn tie end: by place id, with the radius."""
    corner = view.split("-", 1)[1].replace("-", " ")
    side, sign = corner.split()[1], 1.0 if corner.endswith("right") else -1.0
    found = {}

    def line(ident, a, b, radius):
        steps = max(1, int(math.dist(a, b) / 2))
        found[ident] = [tuple(p + (q - p) * i / steps for p, q in zip(a, b, strict=True)) for i in range(steps + 1)], radius

    profile = Profile.read(frame.profile)
    for member in frame.members:
        if member.role == "section":
            low, high = member.s_from_in, member.s_to_in
            s_of = [low + (high - low) * i / 80 for i in range(81)]
            own = [s if side == "left" else 2 * profile.half_in - s for s in s_of]
            found[member.id] = [(sign * u, member.start[1], z) for s in own if 0 <= s <= profile.half_in
                                for u, z in [profile.point(s)]], member.radius_in
        elif member.role in ("stick", "end"):
            line(member.id, member.start, member.end, member.radius_in)
    for brace in frame.braces:
        if brace.corner == corner:
            line(brace.id, brace.landing_from.hole, brace.landing_to.hole, frame.tubes["stick"] / 2)
    for tie in frame.ties:
        hole = next(end.hole for end in (tie.landing_from, tie.landing_to) if end.side == side)
        line(tie.id, hole, (hole[0] - sign * 30, hole[1], hole[2]), frame.tubes["stick"] / 2)
    return found


@pytest.mark.parametrize(("name", "length"), [("g26-d", 48), ("g30-b", 96), ("r14-a", 40), ("g20-b", 48)])
@pytest.mark.parametrize("way", ["inside", "corner"])
@pytest.mark.parametrize("corner", CORNERS)
def test_what_lies_nearer_to_the_eye_is_painted_later(name, length, way, corner):
    """Wherever two tubes cross on the sheet, the one whose axis is nearer along the line of sight hides the other."""
    frame, view = document(name, length), f"{way}-{corner}"
    eye, axes = Eye(view), axes_of(frame, view)
    order = {ident: i for i, (ident, _) in enumerate(groups(drawn(name, length, view, lit=()))) if ident in axes}
    crossings = 0
    shown = [(ident, [(eye.flat(p), eye.depth(p)) for p in axes[ident][0]]) for ident in order]
    for i, (a, of_a) in enumerate(shown):
        for b, of_b in shown[i + 1:]:
            for flat, depth in of_a:
                for other, beyond in of_b:
                    if abs(flat[0] - other[0]) < 1 and abs(flat[1] - other[1]) < 1 and abs(depth - beyond) > 1.3:
                        crossings += 1
                        assert (depth > beyond) == (order[a] < order[b]), (view, a, b, depth - beyond)
    assert crossings


def kinds_in_order(picture):
    found = []
    for ident, _ in groups(picture):
        kind = ident.split(":")[1]
        if not found or found[-1] != kind:
            found.append(kind)
    return found


def test_from_inside_purlins_lie_over_braces_and_braces_over_bands_over_hoops():
    kinds = kinds_in_order(drawn("g26-d", 48, "inside-tag-right"))
    first = {kind: kinds.index(kind) for kind in ("section", "band", "brace", "stick", "tie", "connector")}
    last = {kind: len(kinds) - 1 - kinds[::-1].index(kind) for kind in first}
    assert last["section"] < first["band"] < first["brace"] < first["stick"]
    assert last["brace"] < first["stick"]
    assert last["stick"] < first["tie"]
    outside = kinds_in_order(drawn("g26-d", 48, "corner-tag-right"))
    assert outside.index("tie") < outside.index("stick") < outside.index("section") < outside.index("brace")


def test_hoops_hide_each_other_from_far_to_near_and_the_upper_purlin_comes_after_the_lower():
    for view, order in (("inside-tag-right", [1, 2, 3]), ("corner-tag-right", [3, 2, 1]), ("inside-far-left", [25, 24, 23])):
        picture = drawn("g30-b", 96, view)
        hoops = [int(ident[1:ident.index("-")]) for ident, _ in groups(picture) if "foot:section" in ident]
        assert hoops == order, view
        runs = [ident for ident, _ in groups(picture) if ":end:" in ident]
        assert [ident.split("-")[-1].split(":")[0] for ident in runs] == ["purlin", "upper", "ridge"]


def test_the_holes_of_a_piece_are_painted_on_top_of_it():
    for lit in ((), OPTIONS):
        for ident, shapes in groups(drawn("g26-d", 48, "inside-tag-left", lit=lit)):
            if ":brace:" in ident:
                classes = [shape.attrib["class"] for shape in shapes]
                assert classes == (["lit-b", "bolt", "bolt"] if lit else ["tube-o", "tube-i", "bolt-q", "bolt-q"])


@pytest.mark.parametrize(("name", "length", "shared"), [("r14-a", 20, 3), ("g26-a", 24, 3)])
def test_where_two_corners_share_a_hoop_each_shows_its_own_band_and_the_others_piece_as_a_stub(name, length, shared):
    frame = document(name, length)
    assert frame.measures.hoops == 5
    bands = {corner: [row for row in corner_rows(frame, corner) if row.code == f"H{shared}-R-foot"] for corner in
             ("tag-right", "far-right")}
    assert {row.which for rows in bands.values() for row in rows} == {"lower", "upper"}
    for corner, rows in bands.items():
        picture = drawn(name, length, f"inside-{corner}")
        ids = [ident for ident, _ in groups(picture)]
        other = next(r for c, r in bands.items() if c != corner)[0]
        assert {rows[0].place, other.place, other.piece} <= set(ids)           # both bands
        stub = dict(groups(picture))[other.piece]
        assert [s.attrib["class"] for s in stub] == ["tube-o", "tube-i", "brk", "bolt-q"]
        assert f"{rows[0].which} band, {rows[0].from_foot} from the foot, set here" in words_of(picture)


def test_a_corner_without_braces_shows_three_hoops_and_what_else_is_there():
    bare = document("g26-d", 48, (), ("side-braces", "roof-braces"))
    for corner in CORNERS:
        assert {row.part for row in corner_rows(bare, corner)} <= {"TI26"}
        picture = Drawn(render(bare, f"inside-{corner}", "wide"))
        assert len(rings(picture)) == 3
        assert not any(":brace:" in ident for ident, _ in groups(picture))
        assert any(":stick:" in ident for ident, _ in groups(picture))


def test_mid_length_braces_have_views_of_their_own_and_only_where_they_stand():
    assert "inside-mid-left" not in views_of(document("g30-b", 48))
    with pytest.raises(ValueError, match="inside-mid-left"):
        render(document("g30-b", 48), "inside-mid-left", "wide")
    frame = document("g30-b", 96)
    for side, order in (("left", list(range(10, 16))), ("right", list(range(15, 9, -1)))):
        assert from_the_left(drawn("g30-b", 96, f"inside-mid-{side}")) == order
        assert corner_rows(frame, f"mid-{side}")[0].code == f"H10-{side[0].upper()}-foot"


def one_piece(frame):
    """The corner's two side braces as one that is clamped inside hoop 2: the fixture, not a rule."""
    low = next(b for b in frame.braces if b.id == "B2-R-side:brace:1")
    high = next(b for b in frame.braces if b.id == "B1-R-side:brace:1")
    way = dataclasses.replace(low.landing_from, code="H2-R-pass", hole=(156.0 - 1.6075, 48.0, low.landing_from.node_in),
                              from_foot_in=low.landing_from.node_in)
    long = dataclasses.replace(low, landing_from=high.landing_from, from_=high.from_, passes=(way,), length_in=98.0)
    return dataclasses.replace(frame, braces=tuple(long if b is low else b for b in frame.braces if b is not high)), long


def test_a_piece_that_passes_a_hoop_lies_before_it_from_inside_and_behind_it_from_outside():
    frame, long = one_piece(document("g26-d", 48))
    for view, before in (("inside-tag-right", False), ("corner-tag-right", True)):
        order = [ident for ident, _ in groups(Drawn(render(frame, view, "wide")))]
        assert (order.index(long.id) < order.index("H2-R-foot:section:1")) is before
    rows = {row.code: row for row in corner_rows(frame, "tag-right")}
    assert rows["H2-R-pass"].what == "A, side brace, clamped as it passes"
    line = points(next(s for ident, shapes in groups(Drawn(render(frame, "inside-tag-right", "wide"))) if ident == long.id
                       for s in shapes))
    assert len(line) == 3


def test_what_was_not_bought_is_drawn_only_when_offered_and_as_a_phantom():
    frame = document("g26-c", 48)
    plain = Drawn(render(frame, "inside-tag-left", "wide"))
    assert not plain.of_class("gone2")
    offered = document("g26-d", 48)
    shown = Drawn(render(frame, "inside-tag-left", "wide", offered=offered))
    assert len(shown.of_class("gone2")) == 2
    assert len(shown.of_class("gone-end")) == 4
    rows = corner_rows(frame, "tag-left", offered=offered)
    assert {row.code for row in rows if row.offered} == {"H1-L-shoulder", "H2-L-roof", "H3-L-high"}
    assert all(row.edge for row in rows)
    replaced = tuple(dataclasses.replace(o, no_because="replaced", no_words=Said("now B")) if o.code == "roof-braces" else o
                     for o in frame.options)
    again = Drawn(render(dataclasses.replace(frame, options=replaced), "inside-tag-left", "wide", offered=offered))
    assert "now B" in words_of(again)


def test_a_document_without_hardware_boards_or_tails_is_drawn_all_the_same():
    old = dataclasses.replace(document("g26-d", 48), schema=1, hardware=(), boxes=(), bars=(), swings=(), braces=tuple(
        dataclasses.replace(b, turned_end="", flat=None) for b in document("g26-d", 48).braces))
    picture, now = Drawn(render(old, "inside-tag-right", "wide", lit=OPTIONS)), drawn("g26-d", 48, "inside-tag-right")
    assert [points(e) for e in picture.of_class("lit-b")] == [points(e) for e in now.of_class("lit-b")]
    assert len(picture.of_class("clamp")) == len(now.of_class("clamp"))
    assert not any(row.turned for row in corner_rows(old, "tag-right"))


def test_lines_of_one_scale_keep_their_hoops_parallel_and_evenly_apart():
    at = rings(drawn("g30-b", 96, "inside-mid-left"))
    steps = {(round(b[0] - a[0]), round(b[1] - a[1])) for a, b in pairwise(at[hoop] for hoop in sorted(at))}
    assert len(steps) <= 2
