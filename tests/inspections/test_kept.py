"""What the database itself refuses: changing what was recorded, and rows that say what can't be."""

from uuid import uuid4

import pytest
from django.db import DatabaseError, IntegrityError, transaction
from django.db.models import ProtectedError

from inspections.actions.observations import add_photo
from inspections.models import FaultRequest, Observation, Photo, RequestStep, Storm, Visit, WalkRule
from tests.inspections import walking
from tests.inspections.walking import FOOT, NOON

pytestmark = pytest.mark.django_db


@pytest.fixture
def visit(ada):
    return walking.under_way(walking.structure(ada), ada)


def refuses(call, error=DatabaseError) -> str:
    with pytest.raises(error) as caught, transaction.atomic():
        call()
    return str(caught.value)


def test_an_observation_is_neither_changed_nor_deleted(visit, ada):
    walking.well(visit, ada)
    said = "An observation is never changed: correct it with a newer one."
    assert said in refuses(lambda: Observation.objects.update(state="unseen"))
    assert said in refuses(lambda: Observation.objects.all().delete())
    assert Observation.objects.get().state == "well"


def test_a_photo_and_a_step_stay_as_they_are(visit, ada):
    walking.wrong(visit, ada)
    add_photo(visit, walking.picture(), "p.jpg", by=ada, device_at=None, corner="tag left")
    assert "never changed" in refuses(lambda: Photo.objects.update(corner="tag right"))
    assert "never changed" in refuses(lambda: RequestStep.objects.update(step="sent"))
    assert "never changed" in refuses(lambda: RequestStep.objects.all().delete())


def test_the_start_of_a_visit_stays_and_its_end_may_come(visit, sue):
    assert "keeps its start" in refuses(lambda: Visit.objects.update(who=sue))
    assert "keeps its start" in refuses(lambda: Visit.objects.update(started_server_at=NOON))
    Visit.objects.update(finished_at=NOON, finished_server_at=NOON)
    assert Visit.objects.get().is_finished


def test_what_a_visit_hangs_on_is_protected(visit, ada):
    walking.wrong(visit, ada)
    refuses(lambda: visit.structure.delete(), ProtectedError)
    refuses(lambda: visit.delete(), ProtectedError)
    refuses(lambda: Observation.objects.get().delete(), ProtectedError)


def _observation(visit, ada, **fields):
    wanted = {"visit": visit, "place": FOOT, "state": "well", "who": ada, "server_at": NOON}
    return Observation.objects.create(**{**wanted, **fields})


@pytest.mark.parametrize(
    ("fields", "constraint"),
    [
        ({"state": "fine"}, "observation_state_is_known"),
        ({"state": "fault"}, "observation_class_only_when_wrong"),
        ({"state": "fault", "fault_class": "mend"}, "observation_class_only_when_wrong"),
        ({"fault_class": "mend"}, "observation_class_only_when_wrong"),
        ({"what": "kink"}, "observation_class_only_when_wrong"),
        ({"against": "better"}, "observation_against_is_known"),
        ({"given": "all the rest", "state": "unseen"}, "observation_all_the_rest_looks_as_built"),
        ({"given": "by guess"}, "observation_all_the_rest_looks_as_built"),
        ({"place": ""}, "observation_has_a_place"),
    ],
)
def test_an_observation_that_cannot_be_is_refused_by_name(visit, ada, fields, constraint):
    assert constraint in refuses(lambda: _observation(visit, ada, **fields), IntegrityError)


def test_an_observation_corrects_another_and_not_itself(visit, ada):
    key = uuid4()
    assert "observation_corrects_another" in refuses(lambda: _observation(visit, ada, pk=key, corrects_id=key), IntegrityError)


@pytest.mark.parametrize(
    ("fields", "constraint"),
    [
        ({"kind": "party"}, "visit_kind_is_known"),
        ({"kind": "storm"}, "visit_after_a_storm_names_it"),
        ({"started_server_at": NOON}, "visit_started_by_somebody"),
        ({"finished_server_at": NOON}, "visit_finished_after_it_started"),
    ],
)
def test_a_visit_that_cannot_be_is_refused_by_name(ada, fields, constraint):
    structure = walking.structure(ada)
    wanted = {"structure": structure, "kind": "other", "title": "Walk round"}
    assert constraint in refuses(lambda: Visit.objects.create(**{**wanted, **fields}), IntegrityError)


def test_one_visit_for_a_storm_and_one_for_a_rule_and_day(ada, olive):
    structure, rule = walking.structure(ada), WalkRule.objects.get(code="yearly")
    first = walking.due_visit(structure, olive)
    again = {"structure": structure, "kind": "storm", "storm": first.storm, "title": "x"}
    refuses(lambda: Visit.objects.create(**again), IntegrityError)
    planned = {"structure": structure, "kind": "annual", "rule": rule, "due_on": NOON.date(), "title": "x"}
    Visit.objects.create(**planned)
    refuses(lambda: Visit.objects.create(**planned), IntegrityError)
    without_day = {**planned, "due_on": None}
    assert "visit_by_rule_has_a_day" in refuses(lambda: Visit.objects.create(**without_day), IntegrityError)


@pytest.mark.parametrize(
    ("fields", "constraint"),
    [
        ({"kind": "frogs"}, "storm_kind_is_known"), ({"source": ""}, "storm_has_a_source"),
        ({"gust_mph": 251}, "storm_gust_is_a_gust"), ({"snow_in": 0}, "storm_snow_over_nothing"),
        ({"hail_in": 0}, "storm_hail_over_nothing"),
    ],
)
def test_a_storm_that_cannot_be_is_refused_by_name(olive, fields, constraint):
    assert constraint in refuses(lambda: walking.storm(olive, **fields), IntegrityError)
    assert not Storm.objects.exists()


@pytest.mark.parametrize("where", [{}, {"place": FOOT, "corner": "tag left"}, {"corner": "north"}])
def test_a_photo_is_of_a_place_or_of_a_corner(visit, ada, where):
    row = {"visit": visit, "sha256": "0" * 64, "name": "p", "width_px": 1, "height_px": 1, "who": ada, "server_at": NOON}
    assert "photo_of_a_place_or_a_corner" in refuses(lambda: Photo.objects.create(**row, **where), IntegrityError)


def test_two_who_take_the_next_step_at_once_take_one(visit, ada):
    walking.wrong(visit, ada)
    row = {"request": FaultRequest.objects.get(), "number": 2, "step": "sent", "who": ada, "server_at": NOON}
    RequestStep.objects.create(**row)
    refuses(lambda: RequestStep.objects.create(**row), IntegrityError)
