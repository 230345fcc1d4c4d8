"""Where one stands: what is on the left hand and the right, which view that is, and the frame turned to its far end."""

import dataclasses
import math

import pytest

from structures.frame import drawing
from structures.frame.drawing.turned import turned
from tests.structures.drawn import SVG, Drawn, points, words_of
from tests.structures.frames import document
from tests.structures.looks import OPTIONS, from_the_left, rings
from tests.structures.test_drawing_labels import CASES, assert_clear

FAR = "outside far end"


@pytest.fixture(scope="module")
def g26():
    return document("g26-d", 48)


def title_and_desc(svg):
    root = Drawn(svg).root
    return ["".join(root.find(f"{SVG}{tag}").itertext()) for tag in ("title", "desc")]


# Worked out with a compass: the structure lies along north, its tag end in the south, so left is west and right is east.
# Whoever faces north has west on the left hand; facing south, east; facing east, north; facing west, south.
@pytest.mark.parametrize(("code", "left", "right"), [
    ("outside tag end", "the left side (L)", "the right side (R)"),
    ("outside far end", "the right side (R)", "the left side (L)"),
    ("outside left", "hoop 13, the far end", "hoop 1, the tag end"),
    ("outside right", "hoop 1, the tag end", "hoop 13, the far end"),
    ("inside facing tag left", "the tag end", "the left side, toward the far end"),
    ("inside facing tag right", "the right side, toward the far end", "the tag end"),
    ("inside facing far left", "the left side, toward the tag end", "the far end"),
    ("inside facing far right", "the far end", "the right side, toward the tag end"),
    ("outside facing tag left", "the left side, toward the far end", "the tag end"),
    ("outside facing tag right", "the tag end", "the right side, toward the far end"),
    ("outside facing far left", "the far end", "the left side, toward the tag end"),
    ("outside facing far right", "the right side, toward the tag end", "the far end"),
])
def test_each_place_says_what_is_on_each_hand(g26, code, left, right):
    place = next(place for place in drawing.standing(g26) if place.code == code)
    assert (place.left, place.right) == (left, right)


def test_the_words_of_a_corner_name_its_hoops_as_they_stand_on_the_sheet(g26):
    for place in drawing.standing(g26):
        if "facing" in place.code:
            hoops = ", ".join(map(str, from_the_left(Drawn(drawing.render(g26, place.views[0], "narrow")))))
            assert place.words.endswith(f"hoops {hoops} from your left.")
            way = "inside" if place.code.startswith("inside") else "outside"
            assert place.words.startswith(f"You stand {way}, facing the ")
    inside = next(place for place in drawing.standing(g26) if place.code == "inside facing tag left")
    assert inside.words == ("You stand inside, facing the left corner of the tag end and looking up: hoops 1, 2, 3 from your left.")


def test_every_view_but_the_flat_one_is_seen_from_somewhere_and_says_so(g26):
    seen = {view for place in drawing.standing(g26) for view in place.views}
    assert seen == set(drawing.views_of(g26)) - {"unrolled"}
    for view in drawing.views_of(g26):
        words = drawing.caption(g26, view)
        assert bool(words) == (view in seen)
        assert title_and_desc(drawing.render(g26, view, "narrow"))[1].startswith(words.partition(" Tubes")[0])


def test_mid_length_is_a_place_to_stand_where_braces_are():
    codes = {place.code for place in drawing.standing(document("g30-b", 96))}
    assert {"inside facing mid left", "inside facing mid right"} <= codes
    assert not any("mid" in place.code for place in drawing.standing(document("g26-d", 48)))


def test_people_may_name_the_ends(g26):
    places = {place.code: place for place in drawing.standing(g26, {1: "road end", 2: "field end"})}
    assert places["outside left"].right == "hoop 1, the tag end (road end)"
    assert "the left corner of the far end (field end)" in places["inside facing far left"].words


def test_the_caption_of_a_close_up_says_how_much_is_enlarged(g26):
    words = drawing.caption(g26, "inside-tag-right", "wide")
    factor = float(words.rpartition(" times")[0].rpartition(" ")[2])
    picture = Drawn(drawing.render(g26, "inside-tag-right", "wide"))
    at = rings(picture)
    # three bays of 48 in. across the sheet, of which one sees the cosine of 38 degrees; a hoop is 1.9 in. and drawn 12 px wide
    scale = abs(at[1][0] - at[3][0]) / (96 * math.cos(math.radians(38)))
    assert factor == pytest.approx(12 / (1.9 * scale), abs=0.06)
    assert "Tubes" not in drawing.caption(g26, "frame")


@pytest.mark.parametrize("standing", ["", "inside", "outside far", "outside facing mid left"])
def test_a_place_that_is_not_there_is_refused_by_name(g26, standing):
    with pytest.raises(ValueError, match=f"no place {standing!r}"):
        drawing.render(g26, "frame", "wide", standing=standing)


# seen from the far end
def test_from_the_far_end_left_and_right_change_places_on_the_sheet_while_numbers_and_codes_stay(g26):
    near, far = (Drawn(drawing.render(g26, "frame", "wide", standing=s, lit=OPTIONS)) for s in ("outside tag end", FAR))
    last = g26.measures.hoops
    at_near, at_far = rings(near), rings(far)
    assert {hoop: at_near[hoop] for hoop in at_near} == {hoop: at_far[last + 1 - hoop] for hoop in at_near}
    assert "far end" in words_of(far)
    assert "tag end" not in words_of(far)
    # the brace drawn nearest on the right is the far end's LEFT corner there, which takes a right lower roof piece as tag left does
    lit = {tuple(points(e)) for e in far.of_class("lit")} | {tuple(points(e)) for e in far.of_class("lit-far")}
    wanted = {tuple(points(e)) for e in near.of_class("lit")} | {tuple(points(e)) for e in near.of_class("lit-far")}
    flat = sorted(tuple(sorted(line)) for line in lit)
    assert len(flat) == len(wanted)
    for a, b in zip(flat, sorted(tuple(sorted(line)) for line in wanted), strict=True):
        assert max(math.dist(p, q) for p, q in zip(a, b, strict=True)) < 0.25     # the frame is the same turned half round


def test_a_place_with_something_wrong_turns_with_the_frame(g26):
    place = {"H3-R-foot:band:1": "mend"}
    near, far = (Drawn(drawing.render(g26, "frame", "wide", standing=s, faults=place)) for s in ("outside tag end", FAR))
    assert "H3-R-foot" in words_of(near)
    assert "H3-R-foot" in words_of(far)
    ring_near, ring_far = (points(d.of_class("fault-ring")[0])[0] for d in (near, far))
    mirror = Drawn(drawing.render(g26, "frame", "wide", faults={"H11-L-foot:band:1": "mend"}))
    assert math.dist(ring_far, points(mirror.of_class("fault-ring")[0])[0]) < 0.25
    assert math.dist(ring_near, ring_far) > 100


def test_a_seam_on_the_right_alone_comes_to_lie_on_the_left_of_the_section():
    frame = document("g20-b", 48)
    near, far = (words_of(Drawn(drawing.render(frame, "section", "wide", standing=s))) for s in ("outside tag end", FAR))
    assert "seam, 0-6 right of the ridge" in near
    assert "seam, right only" in far
    assert not any("of the ridge" in words for words in far)
    rows = drawing.section_marks(frame, standing=FAR)
    assert [row.words for row in rows if row.words in far] == [row.words for row in rows if not row.offered]
    title, desc = title_and_desc(drawing.render(frame, "section", "wide", standing=FAR))
    assert title == "A hoop, seen from outside the far end"
    assert desc.startswith("You stand outside the far end, looking in: places with R are on your left, with L on your right")


def test_hoops_in_the_marks_keep_their_numbers_from_the_far_end(g26):
    assert [row.hoops for row in drawing.section_marks(g26)] == [row.hoops for row in drawing.section_marks(g26, standing=FAR)]


def test_bays_left_out_are_counted_from_the_tag_end_wherever_one_stands():
    frame = document("g26-d", 300)
    said = [next(w for w in words_of(Drawn(drawing.render(frame, "frame", "wide", standing=s))) if "left out" in w)
            for s in ("outside tag end", FAR)]
    bays = [sorted(map(int, words.removeprefix("bays ").removesuffix(" left out").split(" to "))) for words in said]
    assert bays[1] == sorted(frame.measures.bays + 1 - bay for bay in bays[0])


@pytest.mark.parametrize(("name", "length"), [("g26-d", 48), ("g30-b", 96), ("r14-a", 20), ("g20-b", 24)])
def test_turned_twice_is_the_structure_as_it_was(name, length):
    frame = document(name, length)
    once, twice = turned(frame), turned(turned(frame))
    assert [m.id for m in once.members] == [m.id for m in frame.members]
    assert [j.code for j in once.joints] == [j.code for j in frame.joints]
    for what in ("members", "joints", "braces", "ties", "panels", "boxes", "bars", "swings"):
        for before, after in zip(getattr(frame, what), getattr(twice, what), strict=True):
            assert flattened(before) == pytest.approx(flattened(after), abs=1e-9)


def flattened(value):
    """Every value of a dataclass as a flat row, words as numbers of their own."""
    if dataclasses.is_dataclass(value):
        return [one for field in dataclasses.fields(value) for one in flattened(getattr(value, field.name))]
    if isinstance(value, tuple | list):
        return [one for item in value for one in flattened(item)]
    if isinstance(value, dict):
        return flattened(list(value.items()))
    return [value if isinstance(value, int | float) else sum(map(ord, str(value)))]


@pytest.mark.parametrize(("name", "length"), CASES)
def test_the_far_end_leaves_every_label_clear(name, length):
    frame = document(name, length)
    for view in ("frame", "section"):
        for size in drawing.SIZES:
            assert_clear(Drawn(drawing.render(frame, view, size, lit=[o.code for o in frame.options], standing=FAR)), f"{view} {size}")


@pytest.mark.parametrize("view", ["side-left", "side-right", "inside-tag-left", "corner-far-right"])
def test_a_view_that_has_its_own_place_does_not_turn(g26, view):
    assert drawing.render(g26, view, "narrow", standing=FAR) == drawing.render(g26, view, "narrow")
