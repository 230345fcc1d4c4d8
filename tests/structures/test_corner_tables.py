"""The table beside a corner and the words on it: numbers, marks, layers, what can be lit, clear labels."""

import io
import logging
import re

import pytest
from pypdf import PdfReader

from structures.frame.drawing import CORNER_VIEWS, GREY, SIZES, corner_rows, render, views_of
from structures.frame.drawing.style import RULES
from structures.frame.lengths import read_length
from tests.structures.drawn import SVG, Drawn, points, words_of
from tests.structures.frames import all_names, document
from tests.structures.looks import CORNERS, OPTIONS, drawn
from tests.structures.test_drawing_labels import CASES as EVERY
from tests.structures.test_drawing_labels import USUAL_FT, assert_clear

CASES = [("r14-a", 20), ("r14-a", 100), ("g20-b", 24), ("g26-a", 24), ("g26-d", 48), ("g30-b", 24), ("g30-b", 96)]

# each way of looking in both hands, at both ends: the others are the same drawings or mirrored ones
ONE_OF_EACH = ("inside-tag-left", "inside-far-left", "inside-mid-left", "corner-tag-right", "corner-far-right")


def braces_of(frame, view):
    corner = " ".join(view.split("-")[1:])
    return [brace for brace in frame.braces if brace.corner == corner]


@pytest.mark.parametrize(("name", "length"), CASES)
def test_numbers_are_the_same_in_every_size_and_in_the_table(name, length):
    frame = document(name, length)
    for view in (v for v in views_of(frame) if v in CORNER_VIEWS):
        rows = corner_rows(frame, view.partition("-")[2])
        places = {row.number: row.code for row in rows}
        assert list(places) == list(range(1, len(places) + 1))
        for size in SIZES:
            picture = drawn(name, length, view, size)
            assert sorted(int(e.text) for e in picture.of_class("mkqt")) == sorted(places), (view, size)
            if size != "narrow":
                assert set(places.values()) <= set(words_of(picture))
        landings = [end for b in braces_of(frame, view) for end in (b.landing_from, b.landing_to, *b.passes)]
        assert {row.place for row in rows if ":band:" in row.place and "tie" not in row.code} == {end.joint for end in landings}


def test_the_table_of_a_corner_says_where_each_band_goes():
    rows = {(row.code, row.which): row for row in corner_rows(document("g26-d", 48), "tag-right")}
    # a band is 1 1/4 in. wide, so its edge lies 5/8 in. before its middle; the seam lies 12-0 from the foot, the ridge 20-10
    foot = rows["H3-R-foot", ""]
    assert (foot.number, foot.measure, foot.setting) == (1, "up from the foot", "set here")
    assert foot.centre_in == pytest.approx(8.0)
    assert foot.edge == "0-7 3/8"
    shoulder = rows["H1-R-shoulder", ""]
    assert (shoulder.number, shoulder.measure, shoulder.setting, shoulder.turned) == (4, "down from the seam", "follows", True)
    assert shoulder.centre_in == pytest.approx(144 - shoulder.from_foot_in)
    high = rows["H3-R-high", ""]
    assert (high.number, high.measure, high.centre, high.from_foot) == (6, "down from the ridge", "1-0", "19-10")
    lower, upper = rows["H2-R-roof", "lower"], rows["H2-R-roof", "upper"]
    assert lower.number == upper.number == 5
    assert upper.from_foot_in - lower.from_foot_in == pytest.approx(1.25)
    assert (lower.measure, lower.letter, upper.letter) == ("up from the seam", "B", "D")
    for row in rows.values():
        assert row.centre_in - row.edge_in == pytest.approx(0.625)
        assert read_length(row.from_foot) == pytest.approx(row.from_foot_in, abs=1 / 32)


def test_only_a_twist_that_the_press_makes_has_a_turned_end():
    frame = document("g26-d", 48)
    made = {brace.id for brace in frame.braces if brace.twist_made}
    for corner in CORNERS:
        turned = [row for row in corner_rows(frame, corner) if row.turned]
        assert {row.piece for row in turned} == made & {row.piece for row in corner_rows(frame, corner)}
        assert len(turned) == 1
        assert "this end is turned" in words_of(drawn("g26-d", 48, f"inside-{corner}"))


def test_lengths_come_in_the_readers_units():
    metric = corner_rows(document("g26-d", 48), "tag-left", units="metric")
    assert metric[0].from_foot == "203 mm"                # 8 in. x 25.4
    words = words_of(Drawn(render(document("g26-d", 48), "inside-tag-left", "wide", units="metric")))
    assert "203 mm from the foot, set here" in words


@pytest.mark.parametrize("corner", ["", "middle", "tag", "mid-left", "far-right "])
def test_a_corner_that_is_not_there_is_refused_by_name(corner):
    with pytest.raises(ValueError, match=re.escape(repr(corner))):
        corner_rows(document("g26-d", 48), corner)


@pytest.mark.parametrize("layer", ["marks", "hardware", "places", "names"])
def test_a_layer_that_is_not_asked_for_is_left_out_and_moves_nothing(layer):
    frame = document("g26-d", 48)
    every = render(frame, "inside-tag-right", "wide", lit=OPTIONS, names={1: "road end"})
    rest = render(frame, "inside-tag-right", "wide", lit=OPTIONS, names={1: "road end"},
                  layers=[name for name in ("marks", "hardware", "places", "names") if name != layer])
    assert f"layer-{layer}" in every
    assert f"layer-{layer}" not in rest
    kept = Drawn(rest)
    assert [points(e) for e in kept.of_class("lit-b")] == [points(e) for e in Drawn(every).of_class("lit-b")]
    sought = {"marks": "0-8 from the foot, set here", "places": "H3-R-foot", "names": "road end"}.get(layer)
    if sought:
        assert sought in words_of(Drawn(every))
        assert sought not in words_of(kept)
    else:
        assert not kept.of_class("clamp")


def test_the_name_of_an_end_stands_at_its_own_corners():
    frame, names = document("g26-d", 48), {1: "road end", 2: "field end"}
    for view in (v for v in views_of(frame) if v in CORNER_VIEWS):
        words = words_of(Drawn(render(frame, view, "narrow", names=names)))
        own, other = ("road end", "field end") if "-tag-" in view else ("field end", "road end")
        assert own in words
        assert other not in words
        assert f"{view.split('-')[1]} end" in words


@pytest.mark.parametrize(("lit", "kind", "count"), [
    ("HS26-S", "lit-a", 3), ("PE131-10", "lit-a", 2), ("H3-R-foot:band:1", "clamp-lit", 2), ("CC190-131", "clamp-lit", 4)])
def test_sections_purlins_bands_and_connectors_light_by_part_or_by_place(lit, kind, count):
    assert len(Drawn(render(document("g26-d", 48), "inside-tag-right", "wide", lit=[lit])).of_class(kind)) == count


def test_every_piece_in_view_can_be_lit_by_its_place_and_part():
    frame = document("g26-d", 48)
    parts = {piece.id: piece.part for piece in frame.pieces()}
    picture = drawn("g26-d", 48, "inside-tag-right", lit=())
    seen = {group.attrib["data-id"]: group.attrib["data-part"] for group in picture.root.iter(f"{SVG}g")
            if group.attrib.get("class") == "pc"}
    assert {b.id for b in braces_of(frame, "inside-tag-right")} <= set(seen)
    assert {"H1-R-foot:section:1", "H2-R-foot:section:1", "H3-R-foot:section:1", "B1-ridge:end:1", "H2-tie:tie:1"} <= set(seen)
    assert all(parts.get(ident, part) == part and part for ident, part in seen.items())


def test_things_wrong_and_unseen_stand_at_their_places():
    frame = document("g26-d", 48)
    picture = Drawn(render(frame, "inside-tag-right", "wide", faults={"H2-R-mid:band:1": "mend", "H9-R-foot:post:1": "stop"},
                           unseen=["H2-ridge:connector:1"]))
    assert len(picture.of_class("flag")) == 1                # hoop 9 is not in view
    assert picture.of_class("fault")
    assert picture.of_class("chk-unseen")


@pytest.mark.parametrize(("name", "length"), EVERY)
def test_every_corner_leaves_every_label_clear(name, length):
    frame = document(name, length)
    lit = [option.code for option in frame.options]
    for view in (v for v in views_of(frame) if v in ONE_OF_EACH):
        for size in SIZES:
            assert_clear(Drawn(render(frame, view, size, lit=lit, names={1: "road end", 2: "field end"})), f"{view} {size}")


@pytest.mark.parametrize("name", all_names())
def test_corners_in_millimetres_with_what_is_offered_and_added_leave_every_label_clear(name):
    length = USUAL_FT[name[:3]]
    frame = document(name, length)
    wanted = [o.code for o in frame.options if o.no_because == "offered, not bought"]
    offered = document(name, length, tuple(wanted))
    for view in (v for v in views_of(frame) if v in ONE_OF_EACH):
        for size in SIZES:
            drawing = Drawn(render(frame, view, size, lit=["side-braces"], offered=offered, units="metric",
                                   added={"side-braces": "12 March 2024"}, faults={"H2-R-mid:band:1": "mend"}))
            assert_clear(drawing, f"{view} {size}")


def test_every_class_of_a_corner_has_a_rule_and_it_carries_no_style_of_its_own():
    frame, plain = document("g30-b", 96), {"num", "lab", "code", "pc", "layer"}
    for view in (v for v in views_of(frame) if v in CORNER_VIEWS):
        for lit in ((), OPTIONS, ("HS30-S", "BC190", "CC190-131")):
            svg = render(frame, view, "desk", lit=lit, names={1: "road end"})
            assert "<style" not in svg
            assert " style=" not in svg
            for element in Drawn(svg).elements:
                for name in element.attrib["class"].split():
                    assert name in plain or name.startswith("layer-") or re.search(rf"\.{re.escape(name)}\b", RULES), name


def test_corners_print_in_grey_without_a_word_from_the_pdf_library(caplog):
    from weasyprint import HTML
    frame = document("g26-d", 48)
    drawings = [render(frame, view, size, lit=["side-braces"], palette=GREY, name=f"{view}-{size}")
                for view in ("inside-tag-left", "corner-far-left") for size in SIZES]
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        pdf = HTML(string="<html lang=en><title>Corners</title>" + "".join(drawings)).write_pdf()
    words = "".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
    assert "H1-L-brace-hip" in words
    assert [record.getMessage() for record in caplog.records] == []
