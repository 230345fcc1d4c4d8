"""Measured back in a real browser: figures typed, the answer read beside its drawing, and kept."""

import pytest
from django.urls import reverse

from structures.models import MeasuredBack
from tests.factories import structure

pytestmark = pytest.mark.browser


@pytest.fixture
def at_the_form(transactional_db, ada, visitor_for):
    visitor = visitor_for(ada)
    visitor.goto(reverse("inventory:measured-back", args=[structure(belongs_to=ada).tag]))
    return visitor


def test_figures_are_typed_read_and_kept(at_the_form):
    at_the_form.fill("Ridge purlin, in.", "73")
    at_the_form.fill("Bay 2, hoops 2 and 3, in.", "46 15/16")
    at_the_form.press("Say what it means")
    at_the_form.says("The last stick of the ridge purlin is 6-1 and 6-0 was computed")
    at_the_form.press("Keep these figures with T-0412")
    at_the_form.says("Kept what was measured with T-0412.")
    at_the_form.says("Measured before")
    assert MeasuredBack.objects.get().figures == {"last_sticks": {"ridge": 73.0}, "gaps": {"2": 46.938}, "bands": {}}


@pytest.mark.parametrize("piece", ["B2-L-side:brace:1/from", "B12-R-side:brace:1/to", "H4-tie:tie:1/to"])
def test_a_piece_that_won_t_meet_is_lit_in_the_drawing_beside_its_causes(piece, at_the_form):
    page = at_the_form.page
    page.get_by_label("Which piece, and which of its ends is off").select_option(piece)
    at_the_form.fill("By how much, in.", "15/16")
    at_the_form.press("Say what it means")
    at_the_form.says("Stop: check the spacing, then the length. Don't drill, cut or force it.")
    shown = page.locator("#means figure svg:visible")
    assert shown.count() == 1                   # one for this screen; the other is for the other
    box, screen = shown.bounding_box(), page.viewport_size
    assert box["width"] <= screen["width"]
    lit = shown.locator('[class^="lit"]').first.bounding_box()
    for at, size in (("x", "width"), ("y", "height")):
        assert box[at] <= lit[at]
        assert lit[at] + lit[size] <= box[at] + box[size]


def test_a_figure_that_can_t_be_read_stays_typed_at_its_field(at_the_form):
    at_the_form.fill("Ridge purlin, in.", "long")
    at_the_form.press("Say what it means")
    at_the_form.says("long is no length: 46 1/8, 3-10 1/8 or 46.125 in would do.")
    assert at_the_form.page.get_by_label("Ridge purlin, in.", exact=True).input_value() == "long"
