"""Planning, beginning and ending a walk."""

from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.utils import timezone

from inspections.actions.visits import begin_look, finish_visit, plan_annual, plan_walks, start_visit
from inspections.models import Visit, WalkRule
from structures.models import Event
from structures.refusals import Refuse
from tests.inspections import walking

pytestmark = pytest.mark.django_db
TODAY = date(2026, 6, 1)


@pytest.fixture
def long_field(ada):
    return walking.structure(ada)


def _planned(structure):
    return [(visit.rule.code, visit.due_on.isoformat()) for visit in structure.visits.order_by("due_on")]


def test_every_installation_starts_with_three_rules():
    assert list(WalkRule.objects.values_list("code", flat=True)) == ["spring", "yearly", "autumn"]


def test_planning_puts_down_what_is_overdue_and_the_next_walk_of_each_rule(long_field, olive):
    made = plan_annual(long_field, today=TODAY, by=olive)
    assert len(made) == 6
    assert _planned(long_field) == [
        ("autumn", "2025-10-15"), ("spring", "2026-04-04"), ("yearly", "2026-05-02"), ("autumn", "2026-10-15"),
        ("spring", "2027-04-04"), ("yearly", "2027-05-02"),
    ]


def test_a_planned_walk_says_why(long_field, olive):
    plan_annual(long_field, today=TODAY, by=olive)
    visit = long_field.visits.get(due_on=date(2026, 4, 4))
    assert (visit.kind, visit.title) == ("annual", "Spring walk")
    assert visit.why == "30 minutes. Before the sides open: posts after the frost, base boards, channel."


def test_planning_again_adds_nothing_and_writes_no_event(long_field, olive):
    plan_annual(long_field, today=TODAY, by=olive)
    before = Event.objects.count()
    assert plan_annual(long_field, today=TODAY, by=olive) == []
    assert Event.objects.count() == before


def test_a_year_later_the_walks_nobody_made_give_way_to_the_newer_ones(long_field, olive):
    plan_annual(long_field, today=TODAY, by=olive)
    plan_annual(long_field, today=TODAY + timedelta(days=365), by=olive)
    assert _planned(long_field) == [
        ("autumn", "2026-10-15"), ("spring", "2027-04-04"), ("yearly", "2027-05-02"), ("autumn", "2027-10-15"),
        ("spring", "2028-04-04"), ("yearly", "2028-05-02"),
    ]
    event = Event.objects.filter(verb="planned walks").first()
    assert event.before["dropped"] == ["Autumn walk, 2025-10-15", "Spring walk, 2026-04-04", "Yearly walk, 2026-05-02"]


def test_a_walk_that_was_begun_is_never_taken_away(long_field, olive, ada):
    plan_annual(long_field, today=TODAY, by=olive)
    begun = walking.started(long_field.visits.order_by("due_on").first(), ada)
    plan_annual(long_field, today=TODAY + timedelta(days=400), by=olive)
    assert Visit.objects.filter(pk=begun.pk).exists()


def test_a_rule_switched_off_plans_nothing(long_field, olive):
    WalkRule.objects.exclude(code="yearly").update(active=False)
    plan_annual(long_field, today=TODAY, by=olive)
    assert _planned(long_field) == [("yearly", "2026-05-02"), ("yearly", "2027-05-02")]


def test_what_is_still_in_parcels_has_no_walk_due(ada, olive):
    parcels = walking.structure(ada, finished_on=None)
    assert plan_annual(parcels, today=TODAY, by=olive) == []


def test_planning_all_counts_the_new_ones(long_field, olive):
    assert plan_walks([long_field], today=TODAY, by=olive) == 6
    assert plan_walks([long_field], today=TODAY, by=olive) == 0


def test_beginning_keeps_both_clocks_and_who(long_field, ada, olive):
    visit = start_visit(walking.due_visit(long_field, olive), by=ada, device_at=walking.NOON)
    assert (visit.who, visit.started_at) == (ada, walking.NOON)
    assert abs(visit.started_server_at - timezone.now()) < timedelta(minutes=1)
    assert Event.objects.filter(verb="started", about=f"visit {visit.pk}", who=ada).count() == 1


def test_a_device_that_does_not_tell_its_time_leaves_it_unknown(long_field, ada, olive):
    assert start_visit(walking.due_visit(long_field, olive), by=ada, device_at=None).started_at is None


def test_a_second_person_joins_and_changes_nothing(long_field, ada, sue, olive):
    visit = start_visit(walking.due_visit(long_field, olive), by=ada, device_at=walking.NOON)
    joined = start_visit(visit, by=sue, device_at=None)
    assert (joined.who, joined.started_at) == (ada, walking.NOON)
    assert Event.objects.filter(verb="started").count() == 1


def test_a_look_that_nothing_asked_for_takes_its_id_from_the_device_once(long_field, ada):
    key = uuid4()
    first = begin_look(long_field, by=ada, device_at=None, visit_id=key)
    again = begin_look(long_field, by=ada, device_at=None, visit_id=key)
    assert first.pk == again.pk == key
    assert long_field.visits.count() == 1


def test_an_id_of_another_structures_look_is_refused(long_field, ada):
    other = begin_look(walking.structure(ada, tag="T-0413"), by=ada, device_at=None)
    with pytest.raises(Refuse, match=r"This look belongs to another structure: begin a new one."):
        begin_look(long_field, by=ada, device_at=None, visit_id=other.pk)


def test_ending_a_walk_fills_nothing_in(long_field, ada):
    visit = walking.under_way(long_field, ada)
    walking.well(visit, ada)
    ended = finish_visit(visit, by=ada, device_at=walking.NOON)
    assert (ended.is_finished, ended.finished_at, ended.observations.count()) == (True, walking.NOON, 1)


def test_ending_a_yearly_walk_plans_the_one_after_it(long_field, ada, olive):
    plan_annual(long_field, today=timezone.localdate(), by=olive)
    overdue = long_field.visits.order_by("due_on").first()
    finish_visit(walking.started(overdue, ada), by=ada, device_at=None)
    waiting = long_field.visits.waiting()
    assert waiting.filter(due_on__lt=timezone.localdate()).count() == 0
    assert waiting.exists()


def test_what_was_not_begun_cannot_end(long_field, olive):
    visit = walking.due_visit(long_field, olive)
    with pytest.raises(Refuse) as refused:
        finish_visit(visit, by=olive, device_at=None)
    assert refused.value.sentence == "“After the gusts of 9 March” of T-0412 was not begun: start the walk first."


def test_what_has_ended_neither_ends_nor_begins_again(long_field, ada, olive):
    visit = finish_visit(walking.started(walking.due_visit(long_field, olive), ada), by=ada, device_at=None)
    with pytest.raises(Refuse, match="is finished already, so nothing was changed"):
        finish_visit(visit, by=ada, device_at=None)
    with pytest.raises(Refuse, match="is finished already: begin another look at it instead"):
        start_visit(visit, by=ada, device_at=None)
