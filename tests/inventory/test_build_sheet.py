"""The sheet that goes up the ladder: as a page, as papers read back, for whom, and at true size."""

import re
from dataclasses import replace
from datetime import date
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from django.urls import reverse
from pypdf import PdfReader

from inventory.actions.orders import cancel_order, confirm_order
from inventory.actions.shipments import Stands, ship
from inventory.views.build_sheets import rain_context, sheet_context
from structures.frame.drawing import GREY
from structures.frame.lengths import read_length
from structures.frame.sheet import BuildSheet, Heading, build_sheet, make_card
from structures.models import Belonging, Design, Structure
from structures.papers import make_paper
from tests.factories import structure
from tests.inventory.printed import shapes_on, texts_on
from tests.inventory.selling import a_confirmed, a_draft, a_family, a_paper_order, a_structure, pick_all, stock_for
from tests.pages import queries, words
from tests.structures.frames import document

pytestmark = pytest.mark.django_db
SCHEMA_1 = Path(__file__).parents[1] / "structures" / "documents" / "schema-1-gothic-48.json"
SECTIONS = ("What you must bring", "Marks", "Corner 1 of 4", "Corner 2 of 4", "Corner 3 of 4", "Corner 4 of 4", "Braces and ties",
            "Purlin runs", "Where it is tight", "Flattened ends", "Joints", "In this order", "Expected left over")
HEADING = Heading("order 1207", "Ada Quill, Quillmere Croft", "12 Mar 2024")
LEAST_PT = 7.0
PT_PER_IN = 72.0


def address(name: str, order, *more) -> str:
    return reverse(f"inventory:order-{name}", args=[order.label, 1, *more])


def paper(client, url: str) -> PdfReader:
    answer = client.get(url)
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    return PdfReader(BytesIO(answer.content))


def says(reader: PdfReader, *wanted: str) -> bool:
    """Whether each of these stands on one of the pages, read no further than need be: a page with a drawing takes long to read."""
    pages, missing = iter(reader.pages), set(wanted)
    while missing and (page := next(pages, None)) is not None:
        text = " ".join(page.extract_text().split())
        missing = {words for words in missing if words not in text}
    return not missing


@pytest.fixture
def order(sue):
    return a_confirmed(by=sue)


@pytest.fixture
def shipped(order, wes, ada):
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    ship(order, by=wes, shipped_on=date(2024, 3, 12), structures={1: Stands(tag="T-0412", name="Long field")})
    Belonging.objects.create(user=ada, structure=Structure.objects.get(tag="T-0412"), since=date(2024, 3, 12))
    return order


# --- the papers, made once each ------------------------------------------------------------------------

def corners_context(sheet: BuildSheet) -> dict[str, object]:
    """What the sheet's template needs for its corners, and nothing else to lay out."""
    bare = replace(sheet, marks=(), braces=(), ties=(), cuts=(), gaps=(), joints=(), stages=(), leftovers=())
    return sheet_context(bare) | {"overall": (), "joints": ()}


PAPERS = {
    "sheet": ("pdf/build_sheet.html", sheet_context), "corners": ("pdf/build_sheet.html", corners_context),
    "rain": ("pdf/rain_sheet.html", rain_context),
    "card": ("pdf/life_card.html", lambda sheet: {"sheet": sheet, "card": make_card(sheet, "RL26-L", GREY)}),
}


@cache
def printed(paper_: str, units: str, name: str, feet: float) -> PdfReader:
    """A paper of a frozen document, made by the same templates as the views': the slow part, and it needs no database."""
    template, context = PAPERS[paper_]
    return PdfReader(BytesIO(make_paper(template, context(build_sheet(document(name, feet), HEADING, units)))))


@cache
def texts_of(paper_: str, units: str, name: str, feet: float) -> tuple[tuple[str, tuple[tuple[float, str], ...]], ...]:
    """Of each of its pages the words as they are read, and each text with its size: what takes as long as making it, at once."""
    return tuple(texts_on(page) for page in printed(paper_, units, name, feet).pages)


def pages_of(paper_: str, units: str = "us", name: str = "g26-d", feet: float = 48) -> tuple[str, ...]:
    """The words of each of its pages, one blank between them."""
    return tuple(" ".join(said.split()) for said, _ in texts_of(paper_, units, name, feet))


def said_by(paper_: str, units: str = "us") -> str:
    return " ".join(pages_of(paper_, units))


def test_every_page_says_whose_it_is_and_which_of_how_many():
    pages = pages_of("sheet")
    for number, said in enumerate(pages, 1):
        assert "Only for order 1207, Ada Quill, Quillmere Croft. G26 × 48-0, revision D. Printed 12 Mar 2024" in said
        assert f"page {number} of {len(pages)}" in said


def test_no_section_is_missing():
    said = said_by("sheet")
    assert [section for section in SECTIONS if section not in said] == []


def test_the_marks_on_paper_are_the_documents():
    """Each band's edge, middle and distance from the foot, read off the paper one after the other, within a sixteenth."""
    found = [read_length(figure) for figure in re.findall(r"\d+-\d+(?: \d+/\d+)?(?![-\d])", said_by("sheet"))]
    threes = list(zip(found, found[1:], found[2:], strict=False))
    bands = [mark for mark in document("g26-d", 48).marks if mark.kind == "band"]
    assert bands
    for mark in bands:
        wanted = (mark.edge_in, mark.from_datum_in, mark.from_foot_in)
        assert any(all(abs(a - b) < 1 / 16 for a, b in zip(three, wanted, strict=True)) for three in threes), mark


def test_each_step_stands_on_the_paper_with_its_caution():
    said = _close(said_by("sheet"))
    steps = document("g26-d", 48).sequence
    assert steps
    for step in steps:
        for told in (step.does, *step.cautions, step.not_yet):
            assert _close(told.in_units("us")) in said


def _close(text: str) -> str:
    """Without blanks, page feet and page numbers: where a line or a page ends on paper is no matter."""
    text = re.sub(r"Only for order 1207.*?Printed 12 Mar 2024|page \d+ of \d+", "", text)
    return "".join(text.split())


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("paper_", ["sheet", "rain", "card"])
def test_no_text_is_under_seven_points(paper_, units):
    sizes = {round(size, 2): said for _, texts in texts_of(paper_, units, "g26-d", 48) for size, said in texts}
    assert sizes
    assert {size: said for size, said in sizes.items() if size < LEAST_PT} == {}


def test_who_measures_in_millimetres_gets_a4_and_millimetres():
    said = said_by("sheet", "metric")
    assert "14630 mm: 12 bays of 1219 mm, 13 hoops" in said          # 48 x 304.8 and 4 x 304.8
    assert {round(float(page.mediabox.width)) for page in printed("sheet", "metric", "g26-d", 48).pages} == {595, 842}
    assert "6-7 3/16" not in said


@pytest.mark.parametrize(("paper_", "units", "name", "feet", "corners"), [
    ("sheet", "us", "g26-d", 48, 4), ("sheet", "metric", "g26-d", 48, 4),
    ("corners", "us", "g30-b", 96, 6), ("corners", "metric", "g30-b", 96, 6), ("corners", "us", "r14-a", 40, 4),
])
def test_each_corner_has_one_page_of_its_own(paper_, units, name, feet, corners):
    said = pages_of(paper_, units, name, feet)
    starts = [number for number, one in enumerate(said) if "from your left" in one]
    assert starts == list(range(starts[0], starts[0] + corners))
    assert all("This order has no other brace" in said[number] for number in starts)
    assert "Braces and ties" in said[starts[-1] + 1]


@pytest.mark.parametrize(("name", "feet"), [("g26-d", 48), ("g30-b", 96)])
def test_the_rain_sheet_is_one_sheet_of_paper(name, feet):
    said, = pages_of("rain", "us", name, feet)
    assert "Only for order 1207" in said
    assert "Tag end, left" in said
    assert "the same at the far end, right" in said


def test_the_rain_sheet_has_marks_letters_and_lengths():
    said = said_by("rain")
    for wanted in ("0-7 3/8", "3-1 3/8 down from the seam", "6-7 3/16", "twist 5.5° right, turned at 4"):
        assert wanted in said


# --- life size ---------------------------------------------------------------------------------------

def test_the_ruler_on_the_card_is_true():
    """A PDF's unit is 1/72 in. (ISO 32000-1, 8.3.2.3). The ruler's base line is 6 in. long on the paper, its inches 1 in. apart."""
    for page in printed("card", "us", "g26-d", 48).pages:
        level = [shape for shape in shapes_on(page) if shape.high < 0.01]
        ruler = min(level, key=lambda shape: abs(shape.wide - 6 * PT_PER_IN))
        assert _is(ruler.wide, 6.0)
        upright = [one for one in shapes_on(page) if one.wide < 0.01 and one.high > 0.01 and abs(one.low - ruler.top) < 0.1]
        longest = max(one.high for one in upright)
        inches = sorted(one.left - ruler.left for one in upright if longest - one.high < 0.1)
        assert len(inches) == 7
        assert all(_is(at, n) for n, at in enumerate(inches))


@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_hole_lies_where_the_document_says(units):
    """From the tip of the flat to the hole's middle, and across hole and flat: measured between the drawn lines on the paper."""
    flat = next(brace.flat for brace in document("g26-d", 48).braces if brace.part == "RL26-L")
    for page in printed("card", units, "g26-d", 48).pages:
        shapes = shapes_on(page)
        hole = next(one for one in shapes if _is(one.wide, flat.hole_in) and _is(one.high, flat.hole_in))
        piece = next(one for one in shapes if one.wide > 4 * PT_PER_IN and one.left < hole.left and one.low < hole.low < hole.top < one.top)
        assert _is(hole.middle[0] - piece.left, flat.length_in)
        tip = [y for x, y in piece.points if x < hole.right]
        assert _is(max(tip) - min(tip), flat.width_in)
        assert _is(hole.middle[1] - min(tip), flat.width_in / 2)


def _is(points: float, inches: float) -> bool:
    return abs(points / PT_PER_IN - inches) < 0.01


# --- the page ----------------------------------------------------------------------------------------

def page_of(client, order):
    return client.get(reverse("inventory:order-build-sheet", args=[order.label]))


@pytest.mark.parametrize("who", ["sue", "wes", "olive"])
def test_the_page_says_what_the_paper_says(who, client_for, order, request):
    said = words(page_of(client_for(request.getfixturevalue(who)), order))
    assert [section for section in SECTIONS if section not in said] == []
    assert "H1-L-shoulder side section down from the seam 3-1 3/8 3-2 8-10 C" in said


def test_the_page_leads_to_each_of_its_sections(client_for, order, sue):
    html = page_of(client_for(sue), order).content.decode()
    listed = re.search(r'<nav class="view-row before" aria-label="On this sheet">.*?</nav>', html, re.S)[0]
    assert re.findall(r'href="#([a-z0-9-]+)"', listed) == [one for one in re.findall(r'<section id="([a-z0-9-]+)"', html) if one != "notes"]


@pytest.mark.parametrize(("name", "more"), [("build-sheet-pdf", ()), ("rain-sheet", ()), ("card", ("RL26-L",))])
def test_the_papers_of_an_order_say_whose_they_are(client_for, order, sue, name, more):
    made = paper(client_for(sue), address(name, order, *more))
    assert says(made, f"Only for order {order.label}, Ada Quill, Quillmere Croft. G26 × 48-0, revision D.")


def test_the_order_and_its_answer_lead_to_it(client_for, order, sue):
    url = reverse("inventory:order-build-sheet-line", args=[order.label, 1])
    for name in ("order-detail", "order-answer"):
        assert f'href="{url}"' in client_for(sue).get(reverse(f"inventory:{name}", args=[order.label])).content.decode()


def test_a_structures_page_leads_its_grower_to_it(client_for, shipped, ada):
    client = client_for(ada)
    url = reverse("inventory:structure-build-sheet", args=["T-0412"])
    assert f'href="{url}"' in client.get(reverse("structures:structure-detail", args=["T-0412"])).content.decode()
    assert f"order {shipped.label}, structure T-0412" in words(client.get(url))
    made = paper(client, reverse("inventory:structure-rain-sheet", args=["T-0412"]))
    assert says(made, f"Only for order {shipped.label}, structure T-0412, Ada Quill")


def test_its_drawings_say_what_people_call_its_ends_on_the_page_and_on_paper(client_for, shipped, ada, sue):
    Structure.objects.filter(tag="T-0412").update(tag_end_name="road end", far_end_name="by <the> barn & pond")
    client = client_for(ada)
    said = words(client.get(reverse("inventory:structure-build-sheet", args=["T-0412"])))
    assert "The whole frame from outside the tag end (road end)." in said
    assert "hoop 1, the tag end (road end), stands at the left" in said
    assert says(paper(client, reverse("inventory:structure-build-sheet-pdf", args=["T-0412"])), "by <the> barn & pond")
    # the corners at the far end are as those at the tag end, so the sheet for the rain draws the tag end's alone
    assert says(paper(client, reverse("inventory:structure-rain-sheet", args=["T-0412"])), "road end")
    of_order = words(client_for(sue).get(reverse("inventory:order-build-sheet-line", args=[shipped.label, 1])))
    assert "road end" not in of_order


def test_a_stranger_to_the_structure_finds_nothing(client_for, shipped, gil):
    for name, more in (("build-sheet", ()), ("build-sheet-pdf", ()), ("rain-sheet", ()), ("card", ("RL26-L",))):
        assert client_for(gil).get(reverse(f"inventory:structure-{name}", args=["T-0412", *more])).status_code == 404


def test_a_draft_has_none_and_says_why(client_for, sue):
    order = a_draft(by=sue)
    client = client_for(sue)
    answer = client.get(reverse("inventory:order-build-sheet", args=[order.label]), follow=True)
    assert f"Order {order.label} has no build sheet yet" in words(answer)
    assert client.get(address("build-sheet-pdf", order)).status_code == 404


def test_each_structure_of_an_order_has_its_own(client_for, sue):
    revision = a_family()
    order = confirm_order(a_draft(a_structure(revision), a_structure(revision, 24), by=sue), by=sue)
    second = client_for(sue).get(reverse("inventory:order-build-sheet-line", args=[order.label, 2]))
    assert f"order {order.label}, line 2" in words(second)
    assert "G26 × 24-0" in words(second)
    assert client_for(sue).get(reverse("inventory:order-build-sheet-line", args=[order.label, 3])).status_code == 404


def test_a_part_without_a_flattened_end_has_no_card(client_for, order, sue):
    assert client_for(sue).get(address("card", order, "HS26-S")).status_code == 404


def test_what_must_be_said_first_is_said_first(client_for, order, sue):
    on_paper = words(page_of(client_for(sue), a_paper_order(by=sue)))
    assert "From paper, not checked: the paper says revision C." in on_paper
    cancel_order(order, by=sue, why="another year")
    assert "This order was cancelled and nothing of it was sent." in words(page_of(client_for(sue), order))


def test_an_older_document_makes_a_sheet_that_says_what_it_lacks(client_for, sue, ada):
    made = structure(tag="T-0009", belongs_to=ada)
    old = Design.objects.create(input_hash="1" * 64, family=made.design.family, configuration={}, document=SCHEMA_1.read_text(), schema=1,
                                engine="1.0.0", family_sha256="0" * 64, family_text="")
    Structure.objects.filter(pk=made.pk).update(design=old)
    client = client_for(ada)
    lacks = ("This order was worked out before the order of work was kept; ask the maker in which order it goes up.",
             "This order was worked out before the tightest gaps were kept")
    said = words(client.get(reverse("inventory:structure-build-sheet", args=["T-0009"])))
    assert [sentence for sentence in lacks if sentence not in said] == []
    assert says(paper(client, reverse("inventory:structure-build-sheet-pdf", args=["T-0009"])), *lacks)


def test_the_queries_do_not_grow_with_the_order(client_for, sue):
    revision = a_family()
    one = a_confirmed(a_structure(revision), by=sue)
    three = a_confirmed(*[a_structure(revision)] * 3, by=sue)
    client = client_for(sue)
    assert len({queries(client, reverse("inventory:order-build-sheet", args=[order.label])) for order in (one, three)}) == 1
