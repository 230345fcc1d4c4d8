"""What is drawn is what was computed: drawn ends are the projections of the document's holes, worked out here anew."""

import dataclasses
import math

import pytest

from structures.frame.drawing import letters, render, render_bay, section_marks
from structures.frame.drawing.breaks import Axis, Stretch, stretches
from structures.frame.lengths import feet_inches, read_length
from structures.frame.profile import Profile
from structures.frame.said import Said
from tests.structures.drawn import SVG, Drawn, points, words_of
from tests.structures.frames import document

SIZES = ("wide", "desk", "narrow")
NEAR = 0.11                                   # figures in a drawing are rounded to a tenth of a px
OPTIONS = ["side-braces", "roof-braces", "mid-braces"]


@pytest.fixture(scope="module")
def g26():
    return document("g26-d", 48)


def rings(drawn: Drawn) -> dict[int, tuple[float, float]]:
    """Hoop number to the middle of its ring."""
    circles = drawn.of_class("bub")
    numbers = [int(text.text) for text in drawn.of_class("bubt")]
    return {number: points(circle)[0] for number, circle in zip(numbers, circles, strict=True)}


def lit_lines(drawn: Drawn, kind: str = "lit") -> list[tuple[tuple[float, float], tuple[float, float]]]:
    return [tuple(points(element)) for element in drawn.of_class(kind)]


def expect_lines(drawn_lines, expected):
    """The same set of lines, whichever end comes first."""
    assert len(drawn_lines) == len(expected)
    for a, b in expected:
        assert any(max(math.dist(a, c), math.dist(b, d)) < NEAR * 2 or max(math.dist(a, d), math.dist(b, c)) < NEAR * 2
                   for c, d in drawn_lines), (a, b)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("side", ["right", "left"])
@pytest.mark.parametrize(("name", "length"), [("g26-d", 48), ("g30-b", 96), ("r14-a", 40), ("g20-b", 24)])
def test_a_side_view_draws_every_brace_from_hole_to_hole(name, length, side, size):
    frame = document(name, length)
    drawn = Drawn(render(frame, f"side-{side}", size, lit=OPTIONS))
    at, m = rings(drawn), frame.measures
    hoop = points(drawn.of_class("t2")[0])
    soil, top = hoop[0][1], hoop[1][1]
    scale = (soil - top) / m.peak_in * (1 if side == "right" else -1)
    # one scale both ways; like bays may be left out between the corners, so that each hoop is looked up by its ring
    assert at[3][0] - at[1][0] == pytest.approx(2 * m.spacing_in * scale, rel=0.01)

    def project(landing):
        beside = landing.hole[1] - (landing.hoop - 1) * m.spacing_in
        return at[landing.hoop][0] + beside * scale, soil - landing.hole[2] * abs(scale)

    mine = [b for b in frame.braces if (b.landing_from.hole[0] > 0) == (side == "right")]
    assert mine
    expect_lines(lit_lines(drawn), [(project(b.landing_from), project(b.landing_to)) for b in mine])


@pytest.mark.parametrize("size", ["wide", "desk", "narrow"])
def test_hoop_one_stands_at_the_left_from_the_right_side_and_at_the_right_from_the_left_side(g26, size):
    right, left = (rings(Drawn(render(g26, f"side-{side}", size))) for side in ("right", "left"))
    assert [right[h][0] for h in sorted(right)] == sorted(x for x, _ in right.values())
    assert [left[h][0] for h in sorted(left)] == sorted((x for x, _ in left.values()), reverse=True)
    assert right[1][0] < right[g26.measures.hoops][0]
    assert left[1][0] > left[g26.measures.hoops][0]


def test_both_sides_of_a_symmetric_frame_are_mirror_images(g26):
    right, left = (Drawn(render(g26, f"side-{side}", "narrow", lit=OPTIONS)) for side in ("right", "left"))
    mirrored = [((right.width - a[0], a[1]), (right.width - b[0], b[1])) for a, b in lit_lines(right)]
    expect_lines(lit_lines(left), mirrored)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(("name", "length"), [("g26-d", 48), ("g30-b", 96), ("r14-a", 40), ("g20-b", 48)])
def test_the_section_draws_every_brace_where_it_is_across(name, length, size):
    frame = document(name, length)
    drawn = Drawn(render(frame, "section", size, lit=OPTIONS))
    tube = points(drawn.of_class("t3")[0])
    (left, soil), (right, _) = tube[0], tube[-1]
    half = size == "narrow"                     # the left half alone, up to the ridge
    across = frame.measures.width_in / (2 if half else 1)
    scale = (right - left) / across
    middle = left + frame.measures.width_in / 2 * scale
    assert min(y for _, y in tube) == pytest.approx(soil - frame.measures.peak_in * scale, abs=NEAR)

    def project(hole):
        return middle + hole[0] * scale, soil - hole[2] * scale

    wanted = {tuple(sorted((project(b.landing_from.hole), project(b.landing_to.hole)))) for b in frame.braces
              if not half or b.landing_from.side == "left"}
    assert len(wanted) >= 2
    for a, b in wanted:
        assert any(max(math.dist(a, c), math.dist(b, d)) < 1.2 for c, d in (sorted(line) for line in lit_lines(drawn))), (a, b)


@pytest.mark.parametrize(("name", "length", "size"), [
    ("g26-d", 48, "wide"), ("g30-b", 96, "wide"), ("r14-a", 40, "wide"), ("g26-d", 48, "desk"), ("g26-d", 48, "narrow"),
    ("g20-b", 48, "narrow"), ("r14-a", 40, "narrow"),
])
def test_the_whole_frame_is_one_projection_of_the_computed_holes(name, length, size):
    frame = document(name, length)
    drawn = Drawn(render(frame, "frame", size, lit=OPTIONS))
    m = frame.measures
    hoops = [points(e) for e in drawn.of_class("tube-o") if "t2" in e.attrib["class"]]     # far to near
    if size == "narrow":                                                                   # hoops as lines, the nearest heavier
        hoops = [points(e) for kind in ("obj15", "obj2") for e in drawn.of_class(kind)]
    assert len(hoops) == m.hoops
    left, right, far_right = hoops[-1][0], hoops[-1][-1], hoops[0][-1]
    across = tuple((b - a) / m.width_in for a, b in zip(left, right, strict=True))
    along = tuple((b - a) / m.length_in for a, b in zip(right, far_right, strict=True))
    # an orthographic view of a box: the three foreshortened axes' squares add up to two
    scale = math.hypot(across[0], along[0])
    rise = math.sqrt(max(2 * scale**2 - math.hypot(*across) ** 2 - math.hypot(*along) ** 2, 0.0))
    middle = ((left[0] + right[0]) / 2, (left[1] + right[1]) / 2)

    def project(hole):
        x, y, z = hole
        return (middle[0] + x * across[0] + y * along[0], middle[1] + x * across[1] + y * along[1] - z * rise)

    lines = [line for kind in ("lit", "lit-s", "lit-far") for line in lit_lines(drawn, kind)]
    assert len(lines) == len(frame.braces)
    for brace in frame.braces:
        a, b = project(brace.landing_from.hole), project(brace.landing_to.hole)
        near = 0.6 if size == "wide" else 0.9      # the basis is read off figures rounded to a tenth, at a smaller scale
        assert any(max(math.dist(a, c), math.dist(b, d)) < near or max(math.dist(a, d), math.dist(b, c)) < near
                   for c, d in lines), brace.id


def test_tubes_are_drawn_from_far_to_near_and_lit_pieces_on_top(g26):
    drawn = Drawn(render(g26, "frame", "wide", lit=OPTIONS))
    kinds = [element.attrib["class"] for element in drawn.elements]
    hoops = [points(e)[-1][1] for e in drawn.of_class("tube-o") if "t2" in e.attrib["class"]]
    assert len(hoops) == g26.measures.hoops
    assert hoops == sorted(hoops)                                    # the nearer a foot, the lower on the sheet
    assert kinds.index("far") < kinds.index("tube-o t1") < kinds.index("tube-o t2")
    last_tube = max(i for i, kind in enumerate(kinds) if kind.startswith("tube-o"))
    assert last_tube < kinds.index("halo") < kinds.index("lit") < kinds.index("bolt")
    far = [e for e in drawn.of_class("far") if len(points(e)) > 2]
    assert len(far) == g26.measures.hoops                            # the left wall, thin, behind everything


def test_a_lit_piece_has_a_white_hole_at_each_landing(g26):
    drawn = Drawn(render(g26, "side-right", "wide", lit=["side-braces"]))
    holes = [points(circle)[0] for circle in drawn.of_class("bolt")]
    ends = [end for line in lit_lines(drawn) for end in line]
    assert sorted(holes) == sorted(ends)
    assert len(ends) == 8


def test_lit_takes_piece_ids_parts_and_options_alike(g26):
    one = g26.braces[0]
    by_id = Drawn(render(g26, "frame", "wide", lit=[one.id]))
    assert len(lit_lines(by_id) + lit_lines(by_id, "lit-far")) == 1
    by_part = Drawn(render(g26, "frame", "wide", lit=[one.part]))
    same = [b for b in g26.braces if b.part == one.part]
    assert len(lit_lines(by_part) + lit_lines(by_part, "lit-far")) == len(same)
    assert not lit_lines(Drawn(render(g26, "frame", "wide")))


def test_boards_channel_and_purlins_light_up_along_their_length():
    frame = document("g26-d", 48, ("boards",))
    rings_at = rings(Drawn(render(frame, "side-right", "wide")))
    for asked, count in (("boards", 2), ("channel", 1), ("PS131-106", 2), ("PE131-10", 2)):
        drawn = Drawn(render(frame, "side-right", "wide", lit=[asked]))
        lines = lit_lines(drawn)
        assert len(lines) == count, asked
        assert {a[0] for a, _ in lines} == {rings_at[1][0]}
        assert not drawn.of_class("bolt")


def test_a_shape_without_leg_radius_or_pitch_is_drawn_without_their_figures(g26):
    bare = dataclasses.replace(g26, measures=dataclasses.replace(g26.measures, leg_in=None, radius_in=None, pitch_deg=None))
    for size in ("wide", "narrow"):
        shown = words_of(Drawn(render(bare, "section", size)))
        assert not any("radius" in words or "leg" in words or "°" in words for words in shown)
        assert any("13-2 15/16" in words for words in shown)


def test_what_was_offered_and_not_bought_is_a_phantom_with_open_ends(g26):
    with_pack = document("g26-d", 48, ("snow-ties",))
    drawn = Drawn(render(g26, "frame", "wide", offered=with_pack))
    extra = {t.id for t in with_pack.ties} - {t.id for t in g26.ties}
    assert len(drawn.of_class("gone2")) == len(extra) == 5
    assert len(drawn.of_class("gone-end")) == 10
    assert any("offered, not bought" in words for words in words_of(drawn))
    assert not drawn.of_class("lit")


def test_a_replaced_option_names_what_took_its_place(g26):
    answers = tuple(dataclasses.replace(o, no_because="replaced", no_words=Said("now A, B")) if o.code == "snow-ties" else o
                    for o in g26.options)
    drawn = Drawn(render(dataclasses.replace(g26, options=answers), "frame", "wide",
                         offered=document("g26-d", 48, ("snow-ties",))))
    assert any(words.startswith("now A, B") for words in words_of(drawn))


def test_what_was_added_later_carries_a_second_ring_and_its_date(g26):
    drawn = Drawn(render(g26, "frame", "wide", lit=["roof-braces"], added={"roof-braces": "3 May 2024"}))
    assert len(drawn.of_class("mk-2")) == len(drawn.of_class("mk"))
    assert any("added 3 May 2024" in words for words in words_of(drawn))


def test_each_part_has_its_own_mark_and_each_hand_its_own():
    frame = document("g26-d", 48)
    marks = letters(frame)
    assert marks == {"SB26": "A", "RL26-L": "B", "RL26-R": "C", "RU26": "D", "TI26": "E"}
    offered = document("g26-c", 48, ("snow-ties",))
    assert letters(document("g26-c", 48), offered) == letters(offered)
    without = document("g26-d", 48, (), ("roof-braces",))
    assert letters(without, frame) == {"SB26": "A", "TI26": "B", "RL26-L": "C", "RL26-R": "D", "RU26": "E"}


def test_heights_beside_a_side_view_add_up_to_the_peak_as_shown(g26):
    drawn = Drawn(render(g26, "side-right", "wide"))
    shown = [words for words in words_of(drawn) if words in ("4-6", "8-8 15/16")]
    assert len(shown) == 2
    assert sum(read_length(words) for words in shown) == pytest.approx(read_length(feet_inches(g26.measures.peak_in)))
    metric = words_of(Drawn(render(g26, "side-right", "wide", units="metric")))
    heights = [int(w.removesuffix(" mm")) for w in metric if w.endswith(" mm") and "=" not in w]
    assert round(g26.measures.peak_in * 25.4) in (heights[-1] + heights[-2], sum(heights[1:3]))


def test_section_marks_are_the_documents_own_places(g26):
    rows = {row.words: row for row in section_marks(g26, lit=["side-braces"])}
    brace = next(b for b in g26.braces if b.role == "side-brace" and b.corner == "tag right")
    low = min((brace.landing_from, brace.landing_to), key=lambda landing: landing.node_in)
    assert rows["side brace, foot"].from_foot_in == pytest.approx(8.0)
    assert rows["side brace, middle"].hoops == "H2 and H12"
    assert low.node_in in [pytest.approx(row.from_foot_in) for row in rows.values()]
    assert rows["ridge"].figure == "20-10"
    assert [row.lit for row in rows.values()].count(True) == 3
    assert [row.key for row in rows.values()] == list("abcdefghjkm")


def test_ticks_on_the_running_line_lie_square_out_from_their_places(g26):
    drawn = Drawn(render(g26, "section", "wide"))
    tube = points(drawn.of_class("t3")[0])
    (left, soil), (right, _) = tube[0], tube[-1]
    scale, middle = (right - left) / g26.measures.width_in, (left + right) / 2
    profile = Profile.read(g26.profile)
    centres = [tuple((a + b) / 2 for a, b in zip(*points(e), strict=True)) for e in drawn.of_class("tick")]
    for row in section_marks(g26):
        s = min(row.from_foot_in, profile.half_in - 1e-6)
        (u, z), (nu, nz) = profile.point(s), profile.normal(s)
        at = (middle - u * scale - nu * 18, soil - z * scale - nz * 18)
        assert any(math.dist(at, centre) < 0.3 for centre in centres), row.words


def test_a_bay_is_mirrored_on_the_left_and_draws_its_places_where_they_are(g26):
    place = next(j for j in g26.joints if j.code == "H3-R-foot" and j.kind == "band")
    right = Drawn(render_bay(g26, 2, "right", {place.id: "not"}))
    target = right.of_class("target")[0]
    assert target.attrib["data-place"] == "H3-R-foot"
    at = rings(right)
    assert at[1][0] < at[2][0] < at[3][0] < at[4][0]
    assert float(target.attrib["cx"]) == pytest.approx(at[3][0], abs=NEAR)
    left = rings(Drawn(render_bay(g26, 2, "left", {})))
    assert left[1][0] > left[2][0] > left[3][0] > left[4][0]
    soil = points(right.of_class("obj2")[0])[0][1]
    scale = (at[3][0] - at[2][0]) / g26.measures.spacing_in
    assert float(target.attrib["cy"]) == pytest.approx(soil - place.at[2] * scale, abs=0.3)


def test_places_with_one_code_share_a_check_that_shows_the_one_that_asks_for_most(g26):
    codes = [j.id for j in g26.joints if j.code == "H2-R-mid"]
    assert len(codes) == 2
    drawn = Drawn(render_bay(g26, 2, "right", {codes[0]: "well", codes[1]: "not"}))
    assert len(drawn.of_class("target")) == len(drawn.of_class("chk-not")) == 1
    assert not drawn.of_class("chk-well")
    wrong = Drawn(render_bay(g26, 2, "right", {codes[0]: "well", codes[1]: "mend"}))
    assert len(wrong.of_class("flag")) == len(wrong.of_class("fault-ring")) == 1
    assert "H2-R-mid" in words_of(wrong)
    unsorted = Drawn(render_bay(g26, 2, "right", {codes[0]: "", codes[1]: "well"}))
    assert len(unsorted.of_class("flag")) == 1


def test_long_structures_leave_out_like_bays_but_no_brace():
    frame = document("g30-b", 300)
    for view in ("side-right", "frame"):
        for size in ("wide", "narrow"):
            drawn = Drawn(render(frame, view, size, lit=OPTIONS))
            lines = len(lit_lines(drawn)) + len(lit_lines(drawn, "lit-s")) + len(lit_lines(drawn, "lit-far"))
            assert lines == (len(frame.braces) if view == "frame" else len(frame.braces) / 2)
            assert {1, 76} <= set(rings(drawn))
            assert len(drawn.of_class("t2") or drawn.of_class("obj15")) < 2 * 40


def test_stretches_keep_what_must_be_seen_and_stay_in_order():
    for hoops in (5, 9, 25, 76):
        for keep in ((), (3,), (36, 37, 38), (30, 60)):
            keep = tuple(h for h in keep if h <= hoops)
            found = stretches(hoops, keep, 8, 10)
            drawn = [h for s in found for h in range(s.first, s.last + 1)]
            assert drawn == sorted(set(drawn))
            assert {1, hoops, *keep} <= set(drawn)
            assert all(b.first - a.last > 2 for a, b in zip(found, found[1:], strict=False))


def test_an_axis_with_a_break_keeps_the_scale_on_both_sides():
    axis = Axis((Stretch(1, 4), Stretch(10, 13)), 48.0, 0.5, 30.0, 56.0)
    assert axis.px(0) == 30
    assert axis.px(3 * 48) == pytest.approx(30 + 72)
    assert axis.px(9 * 48) == pytest.approx(30 + 72 + 56)
    assert axis.end == pytest.approx(30 + 72 + 56 + 72)
    assert axis.gaps() == [(pytest.approx(30 + 72 + 28), 4, 9)]
    mirrored = Axis((Stretch(1, 4), Stretch(10, 13)), 48.0, 0.5, 230.0, 56.0, mirrored=True)
    assert mirrored.px(12 * 48) == pytest.approx(30)


def test_every_picture_has_its_own_title_and_description(g26):
    drawn = Drawn(render(g26, "section", "narrow", name="order-7"))
    assert drawn.root.attrib["aria-labelledby"] == "order-7-t order-7-d"
    title, desc = drawn.root.find(f"{SVG}title"), drawn.root.find(f"{SVG}desc")
    assert (title.attrib["id"], desc.attrib["id"]) == ("order-7-t", "order-7-d")
    assert "13 hoops" in desc.text


@pytest.mark.parametrize(("view", "size"), [("roof", "wide"), ("frame", "huge")])
def test_an_unknown_view_or_size_is_refused_by_name(g26, view, size):
    with pytest.raises(ValueError, match=f"There is no {size} drawing '{view}'"):
        render(g26, view, size)


@pytest.mark.parametrize(("bay", "side"), [(0, "right"), (13, "right"), (2, "middle")])
def test_a_bay_that_is_not_there_is_refused(g26, bay, side):
    with pytest.raises(ValueError, match="bays are 1 to 12"):
        render_bay(g26, bay, side, {})
