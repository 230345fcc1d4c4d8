"""What becomes of something wrong."""

import pytest

from inspections.actions.observations import Seen, correct, observe
from inspections.actions.requests import take_step
from inspections.actions.visits import finish_visit
from inspections.models import FaultRequest
from inspections.queries.requests import parts_at
from structures.models import Event
from structures.refusals import Refuse
from tests.inspections import walking
from tests.inspections.walking import FOOT

pytestmark = pytest.mark.django_db


@pytest.fixture
def visit(ada):
    return walking.under_way(walking.structure(ada), ada)


@pytest.fixture
def asked(visit, ada):
    return walking.wrong(visit, ada).requests.get()


def _steps(request):
    return [step.step for step in request.steps.all()]


def test_a_request_goes_from_asked_to_sent_to_fitted_to_looked_at_again(visit, asked, ada, sue):
    take_step(asked, "sent", by=sue, note="by post")
    take_step(asked, "fitted", by=ada)
    finish_visit(visit, by=ada, device_at=None)
    walking.well(walking.under_way(visit.structure, ada), ada)
    assert _steps(asked) == ["asked", "sent", "fitted", "looked at again"]
    assert [event.verb for event in Event.objects.filter(about="request T-0412 H3-R-foot:band:1").order_by("id")] == _steps(asked)


def test_a_step_out_of_order_is_refused_and_leaves_nothing(asked, sue):
    with pytest.raises(Refuse) as refused:
        take_step(asked, "asked", by=sue)
    assert refused.value.sentence == (
        "H3-R-foot of T-0412 is asked, nothing sent yet, so “asked” can't be next: sent or fitted or looked at again or "
        "taken back would do."
    )
    assert _steps(asked) == ["asked"]


def test_not_looked_at_settles_nothing(visit, asked, ada):
    finish_visit(visit, by=ada, device_at=None)
    again = walking.under_way(visit.structure, ada)
    for state in ("not", "unseen"):
        observe(again, Seen(FOOT, state), by=ada, device_at=None)
    assert _steps(asked) == ["asked"]


def test_who_sees_it_as_built_on_the_same_walk_differs_and_settles_nothing(visit, asked, ada, gil):
    walking.well(visit, gil)
    assert _steps(asked) == ["asked"]
    walking.well(visit, ada)    # now nobody says any more that it is wrong
    assert _steps(asked) == ["asked", "looked at again"]


def test_a_correction_that_takes_the_fault_away_takes_the_request_back(asked, ada):
    correct(asked.observation, Seen(FOOT, "well"), by=ada, device_at=None)
    assert _steps(asked) == ["asked", "taken back"]


def test_a_correction_of_the_class_leaves_the_request_asked(asked, ada):
    correct(asked.observation, Seen(FOOT, "fault", fault_class="stop", what="lifted-end"), by=ada, device_at=None)
    assert _steps(asked) == ["asked"]
    assert FaultRequest.objects.count() == 1


def test_what_was_sent_for_nothing_is_taken_back_too_and_what_was_fitted_is_not(asked, ada, sue):
    take_step(asked, "sent", by=sue)
    take_step(asked, "fitted", by=sue)
    correct(asked.observation, Seen(FOOT, "well"), by=ada, device_at=None)
    assert _steps(asked) == ["asked", "sent", "fitted"]


def test_wrong_again_after_it_was_settled_is_a_new_request(visit, asked, ada):
    take_step(asked, "fitted", by=ada)
    take_step(asked, "looked at again", by=ada)
    finish_visit(visit, by=ada, device_at=None)
    walking.wrong(walking.under_way(visit.structure, ada), ada)
    assert FaultRequest.objects.count() == 2


def test_the_parts_at_a_place_come_from_the_frozen_design(visit, asked):
    needed = parts_at(visit.structure.design.read(), FOOT)
    assert {one.line.part: one.count for one in needed} == {"BC190": 1, "BT516-1": 1, "NT516": 1}
    assert parts_at(None, FOOT) == ()
