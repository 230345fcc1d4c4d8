"""A bay in a real browser: the tap on the drawing, the suggested class, the device's clock, the photo before it is sent."""

import pytest
from django.urls import reverse

from tests.inspections import walking

pytestmark = pytest.mark.browser
FOOT = "H3-R-foot:band:1"


@pytest.fixture
def visit(transactional_db, ada):
    return walking.under_way(walking.structure(ada), ada)


@pytest.fixture
def at_bay_2(visit, ada, visitor_for):
    visitor = visitor_for(ada)
    visitor.goto(reverse("inspections:walk-stretch", kwargs={"pk": visit.pk, "stretch": "B2-R"}))
    return visitor


def test_a_tap_beside_a_mark_takes_the_nearest_place_in_hand(at_bay_2):
    page = at_bay_2.page
    mark = page.locator('[data-place="H3-R-foot"]')
    at = mark.bounding_box()
    beside = (at["x"] + at["width"] / 2 + 18, at["y"] + at["height"] / 2 + 4)
    with page.expect_navigation():
        page.mouse.click(*beside)
    page.wait_for_function("() => document.querySelector('#in-hand')")
    at_bay_2.look()
    assert page.locator("#in-hand h2").inner_text().split() == ["H3-R-foot", "side", "brace,", "lower", "end"]


def test_what_is_wrong_is_asked_only_when_something_is_and_suggests_a_class(at_bay_2):
    page = at_bay_2.page
    at_bay_2.follow(page.get_by_role("link", name="H3-R-foot side brace, lower end"))
    assert not page.get_by_text("Brace end lifted off its clamp").is_visible()
    page.get_by_text("Something wrong", exact=True).click()
    page.get_by_text("Brace end lifted off its clamp").click()
    assert page.locator('[name="fault_class"]:checked').get_attribute("value") == "mend"
    page.get_by_text("Stop and ask", exact=True).click()
    page.get_by_text("Band clamp loosened").click()
    assert page.locator('[name="fault_class"]:checked').get_attribute("value") == "stop"
    at_bay_2.look()


def test_an_answer_goes_with_its_photo_and_the_devices_clock(at_bay_2, visit):
    page = at_bay_2.page
    at_bay_2.follow(page.get_by_role("link", name="H3-R-foot side brace, lower end"))
    page.get_by_text("Looks as built", exact=True).click()
    page.locator("input[type=file]").set_input_files({"name": "leg.jpg", "mimeType": "image/jpeg", "buffer": walking.picture()})
    page.wait_for_function("() => document.querySelector('[data-photo-slot] img')?.naturalWidth > 0")
    at_bay_2.press("Keep")
    made = visit.observations.get()
    assert (made.place, made.state) == (FOOT, "well")
    assert abs((made.server_at - made.device_at).total_seconds()) < 60
    assert visit.photos.get().place == FOOT


def test_the_bay_works_without_any_script(browser, screen, live_server, visit, ada, visitor_for):
    signed_in = visitor_for(ada)
    context = browser.new_context(**screen, java_script_enabled=False)
    context.add_cookies(signed_in.page.context.cookies())
    page = context.new_page()
    page.goto(live_server.url + reverse("inspections:walk-stretch", kwargs={"pk": visit.pk, "stretch": "B2-R"}))
    page.locator('a[aria-label="H3-R-foot"]').click()
    page.get_by_text("Could not see", exact=True).click()
    page.get_by_role("button", name="Keep", exact=True).click()
    page.get_by_role("button", name="All the rest looks as built").click()
    page.wait_for_url("**/walk/B3-R/")
    context.close()
    assert visit.observations.filter(given="one by one").get().state == "unseen"
    assert visit.observations.filter(given="all the rest").count() == 15
    assert visit.observations.filter(given="one by one").get().device_at is None


def test_every_page_of_a_walk_is_fit_to_be_used(visit, ada, visitor_for):
    walking.wrong(visit, ada)
    visitor = visitor_for(ada)
    for name in ("visit-before", "visit-walk", "visit-corners", "visit-end", "visit-detail"):
        visitor.goto(reverse(f"inspections:{name}", kwargs={"pk": visit.pk}))
    for key in ("B1-L", "E1"):
        visitor.goto(reverse("inspections:walk-stretch", kwargs={"pk": visit.pk, "stretch": key}))
    observation = visit.observations.get()
    visitor.goto(reverse("inspections:observation-correct", kwargs={"pk": observation.pk}))
    visitor.goto(reverse("inspections:wrong-detail", kwargs={"pk": observation.requests.get().pk}))
