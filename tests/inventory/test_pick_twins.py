"""The warning of a pick line for everything that a structure is made of: tubes are drawn, the rest is named."""

import pytest
from django.urls import reverse

from inventory.actions.parts import sync_parts
from tests.factories import family_revision
from tests.inventory.selling import a_confirmed
from tests.pages import words

pytestmark = pytest.mark.django_db


@pytest.fixture
def screens(wes, client_for):
    """The page of every line of a pick, by part number."""
    sync_parts(family_revision("G20", "B"), by=None)   # its bands and braces are the look-alikes
    order = a_confirmed(by=wes)
    client = client_for(wes)
    found = {}
    for line in order.pick.lines.select_related("part"):
        address = reverse("inventory:pick-line", kwargs={"number": order.pick.number, "pk": line.pk})
        found[line.part.number] = client.get(address)
    return found


def test_every_line_opens(screens):
    assert {number: page.status_code for number, page in screens.items() if page.status_code != 200} == {}
    assert {"BC190", "BT516-1", "NT516", "CH10", "SB26", "RL26-R"} <= set(screens)


def test_a_tubes_twin_is_drawn(screens):
    page = screens["SB26"].content.decode()
    assert "Twin in no bin now: SB20" in words(screens["SB26"])
    assert 'class="twin"' in page
    assert "15/16" in page


@pytest.mark.parametrize(
    ("number", "twin"), [("BC190", "Band clamp 1.66"), ("BT516-1", "Bolt 5/16 x 2"), ("NT516", "Nut 3/8")]
)
def test_what_is_no_tube_has_its_twin_named(screens, number, twin):
    assert f"Not this: {twin}" in words(screens[number])


def test_what_nothing_looks_like_has_no_warning(screens):
    assert 'class="twin"' not in screens["SC14"].content.decode()
