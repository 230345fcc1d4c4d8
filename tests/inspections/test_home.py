"""A grower's first page, the signs to leave, and the walks of one structure."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from inspections.actions.observations import all_the_rest
from inspections.actions.visits import finish_visit, plan_annual
from inspections.queries.visits import sheet_of
from structures.models import Belonging
from tests.inspections import walking
from tests.pages import keyed, queries, words

pytestmark = pytest.mark.django_db
HOME, LEAVE = reverse("inspections:home"), reverse("inspections:leave-now")


@pytest.fixture
def long_field(ada):
    return walking.structure(ada)


def test_each_structure_stands_with_what_it_is(long_field, ada, client_for):
    page = words(client_for(ada).get(HOME))
    assert "Long field T-0412" in page
    assert "G26 × 24 ft, revision D finished 2 May 2024" in page


def test_what_is_due_now_comes_with_why_before_what_is_next(long_field, ada, olive, client_for):
    walking.due_visit(long_field, olive)
    page = words(client_for(ada).get(HOME))
    assert "Due now After the gusts of 9 March Gusts of 61 mph near Quillmere." in page
    assert page.index("Due now") < page.index("Last visit none yet")
    assert "Walk round after the gusts of 9 March" in page


def test_a_yearly_walk_that_was_missed_is_overdue_even_if_nobody_put_it_down(long_field, ada, client_for):
    assert "Overdue" in words(client_for(ada).get(HOME))


def test_a_walk_put_down_is_not_said_twice(long_field, ada, olive, client_for):
    before = words(client_for(ada).get(HOME)).count("Overdue")
    plan_annual(long_field, today=timezone.localdate(), by=olive)
    assert words(client_for(ada).get(HOME)).count("Overdue") == before


def test_the_last_visit_is_shown_with_all_its_states(long_field, ada, client_for):
    visit = walking.under_way(long_field, ada)
    walking.wrong(visit, ada)
    all_the_rest(visit, "B1-R", by=ada, device_at=None)
    finish_visit(visit, by=ada, device_at=None)
    page = words(client_for(ada).get(HOME))
    assert "walk round 1 wrong" in page
    assert "22 look as built" in page
    assert f"{sheet_of(visit).whole.not_looked} not looked at" in page
    assert "H3-R-foot asked, nothing sent yet" in page


def test_a_grower_without_a_structure_is_told_what_to_do(gil, client_for):
    assert "No structure is yours to see yet: ask the people you bought it from" in words(client_for(gil).get(HOME))


def test_somebody_who_left_sees_it_no_more(long_field, ada, client_for):
    Belonging.objects.update(until=timezone.localdate())
    assert "Long field" not in words(client_for(ada).get(HOME))


def test_the_first_page_takes_as_many_queries_for_three_structures_as_for_one(long_field, ada, olive, client_for):
    client = client_for(ada)
    _walked(long_field, ada, olive)
    one = queries(client, HOME)
    for number in (1, 2):
        _walked(walking.structure(ada, f"T-050{number}", design=long_field.design), ada, olive)
    assert queries(client, HOME) == one


def _walked(structure, ada, olive):
    visit = walking.under_way(structure, ada)
    walking.wrong(visit, ada)
    finish_visit(visit, by=ada, device_at=None)


def test_the_signs_to_leave_are_there_for_everybody_and_say_leave_first(client_for, ada):
    for client in (client_for(None), client_for(ada)):
        page = words(client.get(LEAVE))
        assert "Leave first, report second" in page
        for sign in ("kink", "creaks or pops", "leaning", "lifted", "touching a wire", "smell of gas", "water near power"):
            assert sign in page
        assert "911" in page


def test_the_signs_are_one_tap_away_on_every_page_of_a_walk(long_field, ada, client_for):
    visit = walking.under_way(long_field, ada)
    client = client_for(ada)
    names = ("visit-walk", "visit-corners", "visit-end", "visit-detail")
    pages = [reverse(f"inspections:{name}", kwargs={"pk": visit.pk}) for name in names]
    pages += [HOME, reverse("inspections:walk-stretch", kwargs={"pk": visit.pk, "stretch": "B1-R"})]
    for url in pages:
        assert f'href="{LEAVE}"' in client.get(url).content.decode()


def test_beginning_a_walk_shows_the_signs_before_the_first_question(long_field, ada, olive, client_for):
    visit = walking.due_visit(long_field, olive)
    client = client_for(ada)
    moment = "2026-03-10T08:15:30.000Z"
    response = client.post(reverse("inspections:visit-start", kwargs={"pk": visit.pk}), keyed(device_at=moment))
    assert response.headers["Location"] == reverse("inspections:visit-before", kwargs={"pk": visit.pk})
    page = client.get(response.headers["Location"])
    assert "I see none of these: begin" in words(page)
    visit.refresh_from_db()
    assert visit.started_at.isoformat() == "2026-03-10T08:15:30+00:00"


@pytest.mark.parametrize("moment", ["", "yesterday", "2026-03-10T08:15:30", "9999-99-99"])
def test_a_device_clock_that_cannot_be_read_is_unknown_and_stops_nobody(long_field, ada, client_for, moment):
    url = reverse("inspections:look-begin", kwargs={"tag": "T-0412"})
    assert client_for(ada).post(url, keyed(device_at=moment)).status_code == 302
    visit = long_field.visits.get()
    assert (visit.kind, visit.started_at, visit.who) == ("other", None, ada)


def test_a_double_tap_begins_one_look(long_field, ada, client_for):
    url, body, client = reverse("inspections:look-begin", kwargs={"tag": "T-0412"}), keyed(), client_for(ada)
    first, second = client.post(url, body), client.post(url, body)
    assert first.headers["Location"] == second.headers["Location"]
    assert long_field.visits.count() == 1


def test_the_walks_of_a_structure_show_what_is_due_and_what_was_made(long_field, ada, sue, olive, client_for):
    walking.due_visit(long_field, olive)
    finish_visit(walking.under_way(long_field, ada), by=ada, device_at=None)
    url = reverse("inspections:structure-visits", kwargs={"tag": "T-0412"})
    for person in (ada, sue):
        page = words(client_for(person).get(url))
        assert "Due now After the gusts of 9 March" in page
        assert ", walk round ada, 0 photos" in page


def test_a_structure_whose_finishing_day_is_unknown_says_so(ada, client_for):
    walking.structure(ada, finished_on=None)
    page = words(client_for(ada).get(reverse("inspections:structure-visits", kwargs={"tag": "T-0412"})))
    assert "Unknown: the day on which it was finished is not told yet" in page


def test_a_walk_long_ago_does_not_hide_a_newer_due_day(long_field, ada, client_for):
    visit = finish_visit(walking.under_way(long_field, ada), by=ada, device_at=None)
    assert visit.finished_server_at > timezone.now() - timedelta(minutes=1)
    assert "Overdue" in words(client_for(ada).get(HOME))


def test_a_structure_known_only_from_its_tag_can_be_looked_at_too(ada, client_for):
    bare = walking.structure(ada, design=None)
    visit = walking.under_way(bare, ada)
    client = client_for(ada)
    assert "made of: unknown" in words(client.get(HOME))
    page = words(client.get(reverse("inspections:visit-walk", kwargs={"pk": visit.pk})))
    assert "What T-0412 is made of is unknown, so no place can be named" in page


@pytest.mark.parametrize("name", ["visit-start", "visit-finish"])
def test_what_changes_something_takes_a_post_only(long_field, ada, olive, client_for, name):
    visit = walking.due_visit(long_field, olive)
    assert client_for(ada).get(reverse(f"inspections:{name}", kwargs={"pk": visit.pk})).status_code == 405
