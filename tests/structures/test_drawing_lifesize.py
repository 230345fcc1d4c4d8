"""Life-size ends: every millimetre of the drawing is a millimetre of steel, in the file and in the PDF's own coordinates."""

import io
import math
import re

import pytest
from pypdf import PdfReader

from structures.frame.document import read_document
from structures.frame.drawing import DARK, GREY, LIGHT, life_ends, render_life_end
from tests.structures.drawn import Drawn, points, words_of
from tests.structures.frames import all_names, document
from tests.structures.test_drawing_labels import USUAL_FT

NEAR_MM = 0.03                                # a tenth of a px
MM = 25.4


@pytest.fixture(scope="module")
def g26():
    return document("g26-d", 48)


class Life(Drawn):
    """A card read back, its labels in the px of its one scaled group."""

    def __init__(self, svg):
        super().__init__(svg)
        group = next(e for e in self.root.iter() if "transform" in e.attrib)
        self.to_mm = float(re.fullmatch(r"scale\((.+)\)", group.attrib["transform"])[1])
        self.mm = (self.width, self.height)
        self.width, self.height = self.width / self.to_mm, self.height / self.to_mm


def card(frame, part, **more):
    one = next(end for end in life_ends(frame) if end.part == part)
    return Life(render_life_end(frame, one.piece, one.end, **more))


def test_width_height_and_view_box_are_the_same_millimetres(g26):
    svg = render_life_end(g26, g26.braces[0].id, "from")
    found = re.search(r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    assert found
    assert found[1] == found[3]
    assert found[2] == found[4]
    assert float(found[1]) == pytest.approx(7 * MM)


@pytest.mark.parametrize("part", ["SB26", "RL26-R", "TI26"])
def test_hole_trim_tube_and_thickness_are_true_millimetres(g26, part):
    drawn = card(g26, part)
    piece = next(p for p in (*g26.braces, *g26.ties) if p.part == part)
    to_mm = drawn.to_mm
    hole = next(e for e in drawn.of_class("obj2") if e.tag.endswith("circle"))
    assert 2 * float(hole.attrib["r"]) * to_mm == pytest.approx(piece.flat.hole_in * MM, abs=2 * NEAR_MM)
    face = next(e for e in drawn.of_class("obj2") if e.tag.endswith("path"))
    outline = [tuple(map(float, pair.split())) for pair in re.sub("[ML]", "|", face.attrib["d"]).strip("|").split("|")]
    (hx, hy) = points(hole)[0]
    assert (hx - min(x for x, _ in outline)) * to_mm == pytest.approx(piece.flat.length_in * MM, abs=2 * NEAR_MM)
    beside = [y for x, y in outline if abs(x - hx) < 30]
    assert (max(beside) - min(beside)) * to_mm == pytest.approx(piece.flat.width_in * MM, abs=2 * NEAR_MM)
    round_by = [math.dist((x, y), (hx, hy)) * to_mm for x, y in outline if x < hx - 1]
    assert max(round_by) == pytest.approx(piece.flat.round_in * MM, abs=2 * NEAR_MM)
    tube = [y for x, y in outline if x > hx + 4 * 96]
    assert (max(tube) - min(tube)) * to_mm == pytest.approx(g26.tubes[piece.role] * MM, abs=2 * NEAR_MM)
    edge = next(points(e) for e in drawn.of_class("obj2") if e.tag.endswith("polygon"))
    thin = [y for x, y in edge if x < hx]
    assert (max(thin) - min(thin)) * to_mm == pytest.approx(piece.flat.thick_in * MM, abs=2 * NEAR_MM)


@pytest.mark.parametrize(("part", "sign"), [("RL26-R", 1), ("RL26-L", -1)])
def test_the_twist_is_drawn_as_it_is_and_a_right_one_turns_like_a_screw_thread(g26, part, sign):
    """Looking along it a screw thread turns clockwise as it goes away: on the sheet down at the right."""
    drawn = card(g26, part)
    brace = next(b for b in g26.braces if b.part == part)
    bars = [points(e) for e in (*drawn.of_class("obj2"), *drawn.of_class("hid")) if e.tag.endswith("polygon") and len(points(e)) == 4]
    angles = sorted(math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) for a, b, *_ in bars)
    turned = max(angles, key=abs)
    assert turned == pytest.approx(sign * abs(brace.twist_deg), abs=0.15)
    assert any(f"{brace.hand} twist, {abs(brace.twist_deg):.1f}°" in words for words in words_of(drawn))


def test_the_ruler_counts_true_inches_and_centimetres(g26):
    drawn = card(g26, "SB26")
    base = max((points(e) for e in drawn.of_class("obj2") if e.tag.endswith("line")), key=lambda line: line[0][1])
    level = base[0][1]
    ticks = [points(e) for e in drawn.of_class("obj1") if e.tag.endswith("line")]
    inches = sorted(a[0] for a, b in ticks if a[1] == level and level - b[1] == pytest.approx(18))
    centimetres = sorted(a[0] for a, b in ticks if a[1] == level and b[1] - level == pytest.approx(16))
    assert len(inches) == 7
    assert len(centimetres) == 16
    assert [x * drawn.to_mm for x in inches] == pytest.approx([inches[0] * drawn.to_mm + i * MM for i in range(7)], abs=NEAR_MM)
    assert [x * drawn.to_mm for x in centimetres] == pytest.approx(
        [centimetres[0] * drawn.to_mm + 10 * i for i in range(16)], abs=NEAR_MM)


def test_the_card_says_part_length_hand_and_which_end_is_turned(g26):
    shown = " ".join(words_of(card(g26, "RL26-R")))
    for words in ("RL26-R", "6-7 3/16 hole to hole", "right twist", "this end is turned last", "hole 11/32 in. across", "1 1/8 in.",
                  "9/16 in."):
        assert words in shown, words
    metric = " ".join(words_of(card(g26, "RL26-R", units="metric")))
    assert "2011 mm hole to hole" in metric
    assert "hole 8.7 mm across" in metric


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("name", all_names())
def test_labels_of_every_card_are_clear(name, units):
    frame = document(name, USUAL_FT[name[:3]])
    webs = {p.part for p in frame.members if p.role == "web"}
    assert {end.part for end in life_ends(frame)} == {p.part for p in (*frame.braces, *frame.ties)} | webs
    for end in life_ends(frame):
        drawn = Life(render_life_end(frame, end.piece, end.end, units=units))
        assert drawn.overlaps() == [], end
        assert drawn.outside() == [], end


@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_web_has_a_card_too_without_a_letter(units):
    """It has no letter on the drawings, so the card begins with its number; its tube is 1.315 in. across."""
    frame = document("g30-b", 48, ("webs",))
    assert [end.part for end in life_ends(frame)][-1] == "WB30"
    drawn = card(frame, "WB30", units=units)
    assert drawn.overlaps() == []
    assert drawn.outside() == []
    shown = words_of(drawn)
    assert shown[0] == "WB30  Tie web, 30 ft"
    assert ("2-7 13/16 hole to hole; no twist" if units == "us" else "808 mm hole to hole; no twist") in shown
    assert ("tube 1.315 across" if units == "us" else "tube 33 mm across") in shown


def test_a_printed_inch_is_72_points_in_the_pdf(g26, caplog):
    """A point is 1/72 in. (ISO 32000-1, 8.3.2.3, from memory): the ruler's inch marks lie 72 points apart on the page."""
    from weasyprint import HTML
    end = life_ends(g26)[0]
    svg = render_life_end(g26, end.piece, end.end, palette=GREY)
    with caplog.at_level("WARNING", logger="weasyprint"):
        pdf = HTML(string=f"<html lang=en><title>Life</title><style>@page {{ size: letter; margin: 15mm }}</style>{svg}").write_pdf()
    assert [record.getMessage() for record in caplog.records] == []
    found = []

    def look(operator, operands, matrix, _):
        if operator == b"m":
            x, y = (float(value) for value in operands)
            found.append((matrix[0] * x + matrix[2] * y + matrix[4], matrix[1] * x + matrix[3] * y + matrix[5]))

    PdfReader(io.BytesIO(pdf)).pages[0].extract_text(visitor_operand_before=look)
    level = max({round(y, 1) for _, y in found}, key=lambda row: sum(abs(y - row) < 0.05 for _, y in found))
    marks = sorted({round(x, 2) for x, y in found if abs(y - level) < 0.1})
    first = marks[0]
    for inch in range(7):
        assert any(abs(x - first - 72 * inch) < 0.1 for x in marks), inch


def test_every_palette_is_written_into_the_card(g26):
    for palette in (LIGHT, DARK, GREY):
        svg = render_life_end(g26, g26.braces[0].id, "to", palette=palette)
        assert palette["ink"] in svg
        assert "var(" not in svg


def test_an_end_whose_size_no_document_states_is_refused():
    with open("tests/structures/documents/schema-1-gothic-48.json", encoding="utf-8") as file:
        old = read_document(file.read())
    assert life_ends(old) == ()
    with pytest.raises(ValueError, match="is not in this document"):
        render_life_end(old, old.braces[0].id, "from")
    with pytest.raises(ValueError, match="no end 'middle'"):
        render_life_end(old, old.braces[0].id, "middle")
