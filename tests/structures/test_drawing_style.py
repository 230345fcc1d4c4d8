"""The pencils: one set of rules for pages and papers, letters as wide as the font has them, drawings that print."""

import io
import logging
import re
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from pypdf import PdfReader

from structures.frame.drawing import (
    DARK,
    GREY,
    LIGHT,
    SIZES,
    STYLESHEET,
    VIEWS,
    family_icon,
    render,
    render_bay,
    render_piece,
    render_twin,
)
from structures.frame.drawing.advances import ASCENT, DESCENT, text_width
from structures.frame.drawing.sheet import wrapped
from structures.frame.drawing.style import RULES, flat_style
from tests.structures.drawn import Drawn, points
from tests.structures.frames import document

STATIC = Path(__file__).resolve().parents[2] / "structures" / "static" / "structures"
FONT = STATIC / "fonts" / "IBMPlexSansCondensed-Medium.woff2"


@pytest.fixture(scope="module")
def every_drawing():
    frame = document("g26-d", 48)
    offered = document("g26-d", 48, ("snow-ties",))
    faults = {"H3-R-foot:band:1": "mend", "H5-ridge:connector:1": "again", "B11-R-roof:brace:1": "stop"}
    made = [render(frame, view, size, lit=["side-braces"], offered=offered, faults=faults, unseen=["H6-ridge:connector:1"],
                   added={"side-braces": "3 May 2024"}) for view in VIEWS for size in SIZES]
    states = {joint.id: state for joint, state in zip(
        (j for j in frame.joints if j.hoop == 2 and j.side != "left"), ("well", "not", "unseen", "stop", "mend", "again"),
        strict=False)}
    made += [render_bay(frame, 2, "right", states, chosen="H2-R-mid", href="?place={code}")]
    made += [render_piece("flattened and drilled both ends", tube_in=1.315, hand="right", twist_deg=5.5),
             render_piece("one plain, one swaged", tube_in=1.315), render_piece("plain, one hole", tube_in=1.66),
             render_twin(49.375, "G20 side brace", 48.4375), render_twin(126, "stick", 123, holes=False), family_icon(frame)]
    return made


def test_the_style_sheet_is_the_rules():
    assert (STATIC / "drawing.css").read_text(encoding="utf-8") == STYLESHEET
    assert RULES in STYLESHEET


def test_every_class_of_a_drawing_has_a_rule(every_drawing):
    plain = {"num", "lab", "code", "pc", "layer", "layer-marks", "layer-hardware", "layer-places", "layer-names"}
    for svg in every_drawing:
        for element in Drawn(svg).elements:
            for name in element.attrib["class"].split():
                assert name in plain or re.search(rf"\.{re.escape(name)}\b", RULES), name


@pytest.mark.parametrize("palette", [LIGHT, DARK, GREY])
def test_a_palette_leaves_nothing_to_the_page(palette):
    style = flat_style(palette)
    assert "var(" not in style
    assert "@" not in style
    assert "paint-order" not in style
    assert "100%" not in style
    svg = render(document("g26-d", 48), "side-right", "narrow", palette=palette)
    assert f"<style>{style}</style>" in svg
    assert 'width="358"' in svg


def test_a_drawing_for_a_page_holds_no_style_of_its_own(every_drawing):
    for svg in every_drawing:
        assert "<style" not in svg
        assert " style=" not in svg
        assert "<script" not in svg


def test_grey_keeps_lit_and_wash_apart_from_paper():
    assert GREY["blue"] == GREY["ink"]
    assert len({GREY["paper"], GREY["blue-wash"], GREY["ink"]}) == 3


def test_letters_are_as_wide_as_the_font_has_them():
    font = TTFont(FONT)
    names, metrics = font.getBestCmap(), font["hmtx"]
    assert font["head"].unitsPerEm == 1000
    assert (font["hhea"].ascent / 1000, -font["hhea"].descent / 1000) == (ASCENT, DESCENT)
    for letter in [*map(chr, range(32, 127)), *"°×½–—’→←éü"]:
        assert text_width(letter, 1000) == metrics[names[ord(letter)]][0], letter
    assert text_width("4-1 3/8", 13) == pytest.approx(sum(text_width(c, 13) for c in "4-1 3/8"))


def test_words_are_escaped():
    svg = render_twin(49.375, "<b>& \"tie\"", 48.4375)
    assert "<b>" not in svg
    assert "not this: &lt;b&gt;&amp;" in svg


def test_the_end_views_of_all_families_share_one_scale():
    peaks = {}
    for name in ("r14-a", "g20-b", "g26-d", "g30-b"):
        frame = document(name)
        hoop = points(Drawn(family_icon(frame)).of_class("tube-o")[0])
        peaks[name] = (hoop[0][1] - min(y for _, y in hoop)) / frame.measures.peak_in
        assert (hoop[-1][0] - hoop[0][0]) / frame.measures.width_in == pytest.approx(peaks[name], rel=0.01)
    assert max(peaks.values()) == pytest.approx(min(peaks.values()), rel=0.01)


def test_a_right_twist_turns_like_a_screw_thread():
    right, left = (Drawn(render_piece("flattened and drilled both ends", tube_in=1.315, hand=hand)) for hand in ("right", "left"))
    # looking along the piece a screw thread turns clockwise as it goes away, on the sheet down at the right
    turned = [points(d.of_class("hid")[-1]) for d in (right, left)]
    right_end, left_end = (max(shape) for shape in turned)
    middle = 180
    assert right_end[1] > middle > left_end[1]


def test_a_twin_shows_the_gap_of_the_figures_on_the_side_where_it_is():
    longer = Drawn(render_twin(49.375, "G20 side brace", 48.4375))
    words = ["".join(e.itertext()) for e in longer.elements if e.tag.endswith("text")]
    assert "15/16" in words
    lit, gone = points(longer.of_class("lit")[0]), points(longer.of_class("gone2")[0])
    assert lit[0][0] == gone[0][0]
    assert lit[1][0] > gone[1][0]
    shorter = Drawn(render_twin(48.4375, "Side brace", 49.375))
    assert points(shorter.of_class("lit")[0])[1][0] < points(shorter.of_class("gone2")[0])[1][0]


def test_every_drawing_prints_without_a_word_from_the_pdf_library(every_drawing, caplog):
    from weasyprint import HTML
    frame = document("g26-d", 48)
    drawings = [render(frame, view, size, lit=["side-braces"], palette=GREY, name=f"{view}-{size}")
                for view in VIEWS for size in ("wide", "narrow")]
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        pdf = HTML(string="<html lang=en><title>Drawings</title>" + "".join(drawings)).write_pdf()
    pages = PdfReader(io.BytesIO(pdf)).pages
    strokes = sum(page.get_contents().get_data().count(b" l\n") for page in pages)
    assert strokes > 8 * 100
    assert "8-815/16" in "".join(page.extract_text() for page in pages).replace(" ", "")
    assert [record.getMessage() for record in caplog.records] == []


def test_a_long_name_breaks_into_lines_of_about_one_length():
    assert wrapped("not this: Roof brace, lower, right twist, 30 ft", 240, 14) == ["not this: Roof brace,", "lower, right twist, 30 ft"]
    assert wrapped("side brace", 270, 14) == ["side brace"]
    assert wrapped("", 270, 14) == []


@pytest.mark.parametrize(("tube_in", "words"), [(1.9, "tube 1.90 across"), (1.315, "tube 1.315 across"), (2.375, "tube 2.375 across")])
def test_a_tube_is_named_by_the_trades_figures(tube_in, words):
    assert words in render_piece("plain both ends", tube_in=tube_in)
