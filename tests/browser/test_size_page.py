"""Size and options in a real browser: each choice answers at once, and the drawing stays in view while choices go by."""

import pytest

from tests.factories import family_revision

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def at(visitor_for, sue):
    """Sue at G26 D, 48 ft."""
    family_revision("G26", "D")
    visitor = visitor_for(sue)
    visitor.goto("/size/?family=G26-D&length=48-0")
    return visitor


def choose(visitor, label: str) -> None:
    """Choose as by touch, and look over the page that answers."""
    with visitor.page.expect_navigation():
        visitor.page.locator("label", has_text=label).first.click()
    visitor.look()


def test_an_option_answers_at_once_and_its_pieces_are_seen_lit_where_one_is(at):
    choose(at, "Snow pack")
    at.says("Snow pack adds 5 pieces, 10 bands")
    lit = at.page.locator(".answering figure svg:visible")
    box, height = lit.bounding_box(), at.page.viewport_size["height"]
    assert 0 <= box["y"] < height - 200
    ties = {place.get_attribute("data-id") for place in lit.locator(".pc:has(.lit, .lit-s)").all()}
    assert ties == {f"H{hoop}-tie:tie:1" for hoop in (3, 5, 7, 9, 11)}
    assert at.page.evaluate("() => window.scrollY") > 0


def test_another_view_is_drawn_and_focus_and_place_stay(at):
    choose(at, "Roll-up sides")
    for label, view in (("A corner", "inside-tag-right"), ("Laid flat", "unrolled"), ("One hoop", "section")):
        choose(at, label)
        assert at.page.locator(f"svg[aria-labelledby^={view}-]:visible").count() >= 1
        assert at.page.evaluate("() => document.activeElement.id") == f"view-{view}"
    at.says("Roll-up sides add 10 pieces")
    at.page.keyboard.press("ArrowRight")
    at.page.wait_for_function("() => document.querySelector('#view-unrolled').checked")


def test_nothing_that_has_the_focus_lies_beneath_the_drawing(at, screen):
    """WCAG 2.2, 2.4.11: going back through the choices by keys, each is seen."""
    boxes = at.page.locator(".choices input[type=checkbox]")
    boxes.last.focus()
    for _ in range(boxes.count() - 1):
        at.page.keyboard.press("Shift+Tab")
        seen = at.page.evaluate("""() => {
          const box = document.activeElement.getBoundingClientRect();
          const on_top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
          return document.activeElement === on_top;
        }""")
        assert seen
