"""What the demo starts with, and what a second start leaves alone."""

import pytest

from structures.demo_data import load
from structures.models import Event, FamilyRevision, User

pytestmark = pytest.mark.django_db


def test_it_brings_a_person_for_each_role_and_every_family(client):
    load(lambda words: None)
    assert set(User.objects.values_list("username", "role")) == {
        ("owner", "owner"), ("support", "support"), ("warehouse", "warehouse"), ("grower", "grower"), ("grower2", "grower"),
    }
    assert FamilyRevision.objects.filter(code="G26").count() == 4
    assert client.post("/sign-in/", {"username": "grower", "password": "hoops-demo"}).status_code == 302


def test_a_second_start_adds_nothing_and_changes_nothing_that_a_person_changed():
    load(lambda words: None)
    grower = User.objects.get(username="grower")
    grower.first_name = "Adele"
    grower.set_password("my own long password")
    grower.save()
    FamilyRevision.objects.filter(code="R14").update(title="our small one")
    events = Event.objects.count()
    load(lambda words: None)
    grower.refresh_from_db()
    assert grower.first_name == "Adele"
    assert grower.check_password("my own long password")
    assert FamilyRevision.objects.get(code="R14").title == "our small one"
    assert Event.objects.count() == events
