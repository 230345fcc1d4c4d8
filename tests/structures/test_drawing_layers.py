"""Layers and lightable pieces: what a page hides and lights without drawing again."""

import pytest

from structures.frame.drawing import LAYERS, SIZES, VIEWS, render
from tests.structures.drawn import SVG, Drawn, points, words_of
from tests.structures.frames import all_names, document
from tests.structures.full_family import full_document
from tests.structures.test_drawing_labels import USUAL_FT, assert_clear


@pytest.fixture(scope="module")
def g26():
    return document("g26-d", 48, ("boards", "film"))


@pytest.mark.parametrize("name", all_names())
def test_every_layer_at_once_leaves_every_label_clear(name):
    frame = document(name, USUAL_FT[name[:3]])
    for view in VIEWS:
        for size in SIZES:
            for lit in ((), [option.code for option in frame.options]):
                assert_clear(Drawn(render(frame, view, size, lit=lit, layers=LAYERS)), f"{view} {size}")


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("view", ["frame", "side-right", "side-left", "unrolled"])
def test_what_people_call_an_end_is_written_where_it_fits(g26, view, size):
    drawn = Drawn(render(g26, view, size, names={1: "road end", 2: "the end by the old barn and the well behind it"}))
    shown = words_of(drawn)
    assert ("road end" in shown) is (view != "frame" or size != "narrow")
    assert "tag end" not in shown
    assert not any("barn" in words for words in shown)
    assert_clear(drawn, f"{view} {size}")


@pytest.mark.parametrize("view", VIEWS)
def test_a_layer_that_was_not_asked_for_leaves_no_mark_and_moves_nothing(g26, view):
    full = render(g26, view, "wide", lit=["side-braces"], layers=LAYERS)
    bare = render(g26, view, "wide", lit=["side-braces"], layers=())
    assert 'class="layer' not in bare
    for line in bare.splitlines():
        assert line in full
    for layer in LAYERS:
        one = Drawn(render(g26, view, "wide", lit=["side-braces"], layers=(layer,)))
        assert {e.attrib["class"] for e in one.of_class("layer")} <= {f"layer layer-{layer}"}


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("size", SIZES)
def test_every_piece_that_a_view_shows_can_be_lit_by_its_id(g26, view, size):
    drawn = Drawn(render(g26, view, size))
    known = {piece.id: piece.part for piece in g26.pieces()}
    groups = drawn.of_class("pc")
    assert groups
    for group in groups:
        assert known[group.attrib["data-id"]] == group.attrib["data-part"]
        assert len(list(group)) > 0
    shown = {group.attrib["data-id"] for group in groups}
    if view == "side-right":
        assert {b.id for b in g26.braces if b.landing_from.side == "right"} <= shown
        assert not {b.id for b in g26.braces if b.landing_from.side == "left"} & shown
        sticks = {m.id for m in g26.members if m.role == "stick" and m.start[0] > -0.1}
        assert sticks <= shown if size == "wide" else sticks & shown
    if view in ("frame", "unrolled") and size == "wide":
        assert {b.id for b in g26.braces} <= shown
        assert {t.id for t in g26.ties} <= shown


def joint_groups(drawn, frame):
    """The groups of joints by place id."""
    ids = {joint.id for joint in frame.joints}
    return {group.attrib["data-id"]: group for group in drawn.of_class("pc") if group.attrib["data-id"] in ids}


def kit_parts(frame):
    """By place id, what the kit's lines say goes there."""
    found = {}
    for line in frame.lines:
        for because in line.because:
            for place in because.where:
                found.setdefault(place, set()).add(line.part)
    return found


@pytest.mark.parametrize("view", VIEWS)
def test_every_sign_of_hardware_can_be_lit_by_its_place_and_by_each_of_its_parts(g26, view):
    groups, parts = joint_groups(Drawn(render(g26, view, "wide", layers=LAYERS)), g26), kit_parts(g26)
    assert groups
    for ident, group in groups.items():
        assert set(group.attrib["data-part"].split(" ")) == parts[ident]
        assert len(list(group)) == 1
    shown = {part for ident in groups for part in parts[ident]}
    held = {part for joint in g26.joints for part in parts[joint.id]}
    assert {"BC190", "CC190-131", "BT516-1", "NT516", "BT38-3", "SC14", "UB14", "BS12"} <= held
    assert held <= shown


def test_a_side_has_a_sign_for_each_of_its_own_joints_and_those_at_the_ridge(g26):
    groups = joint_groups(Drawn(render(g26, "side-right", "wide", layers=LAYERS)), g26)
    assert set(groups) == {joint.id for joint in g26.joints if joint.side in ("right", "")}


def test_the_frame_laid_flat_has_no_sign_of_what_stands_off_its_skin():
    """Webs are bolted to ties in the air between two sides, and a door hangs in the end wall."""
    frame = full_document()
    groups = joint_groups(Drawn(render(frame, "unrolled", "wide", layers=LAYERS)), frame)
    off = {joint.id for joint in frame.joints if joint.kind in ("door", "blower") or joint.fitting == "web-tie-band"}
    assert off
    assert set(groups) == {joint.id for joint in frame.joints} - off


@pytest.mark.parametrize("layers", [(), LAYERS], ids=["no layer", "every layer"])
@pytest.mark.parametrize("view", [*VIEWS, "inside-tag-right", "corner-far-left"])
def test_hardware_that_was_asked_for_is_lit_whichever_layers_are_hidden(g26, view, layers):
    drawn = Drawn(render(g26, view, "wide", lit=["NT516"], layers=layers))
    hidden = {inner for layer in drawn.of_class("layer") for inner in layer.iter()}
    lit = {ident for ident, group in joint_groups(drawn, g26).items() if group not in hidden}
    assert lit
    every = joint_groups(Drawn(render(g26, view, "wide", layers=LAYERS)), g26)
    assert lit == {ident for ident in every if "NT516" in kit_parts(g26)[ident]}
    for ident in lit:
        (shape, *_) = list(joint_groups(drawn, g26)[ident])
        assert shape.attrib["class"] == "clamp-lit"


def test_in_section_the_joint_that_was_asked_for_stands_for_its_like(g26):
    """H7 has no brace, so its connector lies behind hoop 2's in the section; asked for by name it is the one that is lit."""
    like = [joint.id for joint in g26.joints if joint.kind == "connector" and joint.station == "ridge"]
    assert "H7-ridge:connector:1" in like[1:]
    plain = joint_groups(Drawn(render(g26, "section", "wide", layers=LAYERS)), g26)
    assert set(like) & set(plain) == {like[0]}
    asked = joint_groups(Drawn(render(g26, "section", "wide", lit=["H7-ridge:connector:1"], layers=LAYERS)), g26)
    assert set(like) & set(asked) == {"H7-ridge:connector:1"}
    assert len(asked) == len(plain)


def test_a_hoop_section_that_was_asked_for_is_lit_where_it_lies(g26):
    part = next(m.part for m in g26.members if m.role == "section" and m.s_from_in == 0.0)
    drawn = Drawn(render(g26, "side-right", "wide", lit=[part]))
    lines = [points(e) for e in drawn.of_class("lit-s")]
    assert len(lines) == g26.measures.hoops
    whole = points(drawn.of_class("t2")[0])
    scale = (whole[0][1] - whole[1][1]) / g26.measures.peak_in
    seam = next(m for m in g26.members if m.role == "section" and m.s_from_in == 0.0).end[2]
    for line in lines:
        low, high = sorted((at[1] for at in line), reverse=True)
        assert low == pytest.approx(whole[0][1], abs=0.2)
        assert low - high == pytest.approx(seam * scale, abs=0.3)


@pytest.mark.parametrize("view", ["frame", "side-right", "unrolled"])
def test_a_board_that_was_asked_for_is_lit_where_it_lies(g26, view):
    board = next(m for m in g26.members if m.role == "board" and m.start[0] > 0)
    drawn = Drawn(render(g26, view, "wide", lit=[board.id]))
    lit = drawn.of_class("lit-s")
    assert len(lit) == 1
    group = next(g for g in drawn.of_class("pc") if g.attrib["data-id"] == board.id)
    assert lit[0] in list(group)


def test_bolts_that_point_in_are_drawn_pointing_in(g26):
    """On the right leg "in" is toward the middle: an arrow whose tip lies nearer to the centre line than its tail."""
    drawn = Drawn(render(g26, "section", "wide", layers=("hardware",)))
    tube = points(drawn.of_class("t3")[0])
    middle, right, soil = (tube[0][0] + tube[-1][0]) / 2, tube[-1][0], tube[-1][1]
    arrows = [points(e) for e in drawn.of_class("arrow") if e.tag == f"{SVG}polygon"]
    legs = [a for a in arrows if abs(a[0][0] - right) < 30 and soil - a[0][1] < 100]
    assert legs
    for tip, *base in legs:
        assert tip[0] < base[0][0]
        assert tip[0] > middle


@pytest.mark.parametrize("side", ["right", "left"])
def test_seen_from_the_side_a_bolt_that_points_in_goes_through_the_sheet(g26, side):
    drawn = Drawn(render(g26, f"side-{side}", "wide", layers=("hardware",)))
    rings = [e for e in drawn.of_class("bolt-q")]
    posts = sum(j.fitting == "foot-bolt" and j.side == side for j in g26.joints)
    assert len(rings) >= posts


def test_places_are_named_beside_their_landings(g26):
    shown = words_of(Drawn(render(g26, "side-right", "wide", lit=["side-braces"], layers=("places",))))
    landings = {landing.code for b in g26.braces if b.role == "side-brace" and b.landing_from.side == "right"
                for landing in (b.landing_from, b.landing_to)}
    assert landings <= set(shown)
    assert not any(words.startswith("H") and "-L-" in words for words in shown)


def test_the_section_shows_film_boards_and_the_near_end_wall(g26):
    drawn = Drawn(render(g26, "section", "wide"))
    assert len(drawn.of_class("j-film")) == 2
    assert len(drawn.of_class("wall")) == sum(box.low[1] < 100 for box in g26.boxes)
    boards = [bar for bar in g26.bars if bar.y1 - bar.y0 > 24]
    assert len([e for e in drawn.of_class("conn") if e.tag == f"{SVG}polygon"]) == len(boards)
    bare = Drawn(render(document("g26-d", 48), "section", "wide"))
    assert not bare.of_class("j-film")


@pytest.mark.parametrize("way", ["inside", "corner"])
@pytest.mark.parametrize("size", SIZES)
def test_a_board_or_pipe_is_lit_close_up_where_it_lies(way, size):
    frame = document("g26-d", 48, ("boards", "roll-up"))
    along = [m for m in frame.members if m.hoop is None and m.role not in ("stick", "end") and abs(m.end[1] - m.start[1]) > 1]
    two_bays = 2 * frame.measures.spacing_in
    near = {m.id for m in along if m.start[0] > 0 and min(m.start[1], m.end[1]) < two_bays}
    assert len({m.part for m in along if m.id in near}) >= 2     # at least a board and a pipe
    for part in {m.part for m in along}:
        drawn = Drawn(render(frame, f"{way}-tag-right", size, lit={part}))
        groups = {g.attrib["data-id"]: g for g in drawn.of_class("pc") if g.attrib["data-part"] == part}
        assert set(groups) >= {m.id for m in along if m.part == part and m.id in near}
        assert not any("-L-" in place for place in groups)
        for group in groups.values():
            assert [line for line in group if line.attrib["class"] == "lit-s"]
