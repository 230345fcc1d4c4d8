"""A one-off change in a real browser: chosen in lists that answer at once, lit, and signed."""

import pytest
from django.urls import reverse

from inventory.models import OneOff
from tests.inventory.selling import a_confirmed

pytestmark = pytest.mark.browser


@pytest.fixture
def at_the_lists(transactional_db, olive, visitor_for):
    visitor = visitor_for(olive)
    visitor.goto(reverse("inventory:order-one-off", args=[a_confirmed(by=olive).label]))
    return visitor


def take(visitor, label, value):
    """Choose in a list; the page answers by itself and is looked over."""
    with visitor.page.expect_navigation():
        visitor.page.get_by_label(label, exact=True).select_option(value)
    visitor.look()


def lit(visitor):
    """The pieces that are lit in the one drawing for this screen."""
    shown = visitor.page.locator("figure svg:visible")
    assert shown.count() == 1
    return shown.locator('.pc:has([class^="lit"])').evaluate_all("(all) => all.map((one) => one.dataset.id)")


def test_a_piece_is_chosen_lit_and_signed_away(at_the_lists):
    take(at_the_lists, "Which piece or fitting", "B1-L-side:brace:1")
    at_the_lists.says("B1-L-side, side brace SB26, hoops 1 to 2, left.")
    assert lit(at_the_lists) == ["B1-L-side:brace:1"]
    at_the_lists.fill("Why", "a door stands there")
    at_the_lists.press("Sign this change")
    at_the_lists.says("Signed. Kit, marks and drawing of this order have the change.")
    assert OneOff.objects.get().target == "B1-L-side:brace:1"


def test_from_act_to_part_to_hoop_each_list_leads_to_the_next(at_the_lists):
    take(at_the_lists, "What is changed", "add")
    take(at_the_lists, "Part", "TI26")
    take(at_the_lists, "On which hoop", "5")
    at_the_lists.says("Collar tie, 26 ft (TI26): 1 more")
