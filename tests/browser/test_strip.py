"""The strip: our name, the rooms and the search box stand in one row wherever there is room for it."""

import pytest
from django.urls import reverse

pytestmark = pytest.mark.browser
# Rooms with the longest names beside the six that are always named, at widths from where one row begins.
ROOMS = ("inspections:wrong-list", "structures:family-list", "inspections:storm-list", "inventory:order-list")
HEIGHT = """() => {
  const strip = document.querySelector('.strip'), rows = new Set([...strip.children].map((one) => {
    const box = one.getBoundingClientRect();
    return Math.round((box.top + box.bottom) / 2);
  }));
  return [...rows];
}"""


@pytest.mark.parametrize("who", ["olive", "sue"])
def test_the_search_box_stays_beside_the_rooms(who, transactional_db, request, screen, visitor_for):
    visitor = visitor_for(request.getfixturevalue(who))
    for room in ROOMS:
        visitor.goto(reverse(room))
        for wide in (1056, 1100, 1150, 1199, 1200):
            visitor.page.set_viewport_size({"width": wide, "height": 800})
            assert len(visitor.page.evaluate(HEIGHT)) == 1, f"{room} at {wide} px"
            visitor.look()
        visitor.page.set_viewport_size(screen["viewport"])
