"""What stands in the demo, and that a second start changes nothing."""

import pytest

import inspections.demo_data
import structures.demo_data
from inspections.models import FaultRequest, Observation, Photo, Storm, Visit
from structures.actions.structures import change_structure
from structures.models import Event, Structure, User
from tests.inspections import walking
from tests.pages import words

pytestmark = pytest.mark.django_db


@pytest.fixture
def loaded():
    said = []
    structures.demo_data.load(said.append)
    inspections.demo_data.load(said.append)
    return said


def _counts():
    tables = (Structure, Storm, Visit, Observation, Photo, FaultRequest, Event)
    return {table.__name__: table.objects.count() for table in tables}


def test_what_its_order_brought_gets_only_what_is_missing(client_for):
    structures.demo_data.load(lambda words: None)
    ada = User.objects.get(username="grower")
    brought = walking.structure(tag="T-0412", name="Long field", finished_on=None, town="")
    other = walking.structure(tag="T-0305", name="River side", finished_on=None, design=brought.design)
    inspections.demo_data.load(lambda words: None)
    brought.refresh_from_db()
    other.refresh_from_db()
    assert (brought.finished_on.isoformat(), brought.town) == ("2024-05-02", "Quillmere")
    assert brought.belongings.get().user == ada
    assert brought.design == other.design
    assert other.finished_on.isoformat() == "2020-05-08"
    assert other.visits.filter(kind="annual").exists()
    values = {"name": "River side", "town": "", "place": "", "finished_on": None, "zone": other.zone}
    change_structure(other, values, by=ada)
    inspections.demo_data.load(lambda words: None)
    other.refresh_from_db()
    assert other.finished_on is None


def test_the_demo_stands_once(loaded, client_for):
    assert Structure.objects.filter(tag="T-0412", belongings__user__username="grower").count() == 1
    assert Storm.objects.count() == 6
    assert Photo.objects.filter(stand_in=False).count() == 0
    first = _counts()
    structures.demo_data.load(loaded.append)
    inspections.demo_data.load(loaded.append)
    assert _counts() == first
    _a_persons_change_stays()
    _the_grower_sees_their_own(client_for)


def _a_persons_change_stays():
    Structure.objects.filter(tag="T-0412").update(name="The long one")
    inspections.demo_data.load(lambda words: None)
    assert Structure.objects.get(tag="T-0412").name == "The long one"


def _the_grower_sees_their_own(client_for):
    page = words(client_for(User.objects.get(username="grower")).get("/mine/"))
    for said in ("The long one T-0412", "Orchard end T-0388", "1 wrong", "3 not looked at", "1 could not see", "Due now After the"):
        assert said in page
    assert "Seedling house" not in page
