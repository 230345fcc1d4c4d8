"""The staff's lists: visits due, storms, things wrong."""

import pytest
from django.urls import reverse

from inspections.actions.requests import take_step
from inspections.actions.visits import finish_visit
from inspections.models import FaultRequest, Storm, Visit
from tests.inspections import walking
from tests.pages import keyed, queries, words

pytestmark = pytest.mark.django_db
VISITS, STORMS, WRONG = (reverse(f"inspections:{name}-list") for name in ("visit", "storm", "wrong"))


@pytest.fixture
def long_field(ada):
    return walking.structure(ada)


def _csv(client, url):
    return client.get(f"{url}{'&' if '?' in url else '?'}export=csv").content.decode().splitlines()


def test_visits_due_stand_overdue_first(long_field, olive, sue, client_for):
    client = client_for(sue)
    client_for(olive).post(reverse("inspections:visits-plan"), keyed())
    states = [line.split(",")[4] for line in _csv(client, VISITS)[1:]]
    assert set(states) == {"overdue", "due"}
    assert states == sorted(states, reverse=True)
    assert "Overdue first." in words(client.get(VISITS))


def test_finished_visits_are_left_out_unless_asked_for(long_field, ada, sue, client_for):
    finish_visit(walking.under_way(long_field, ada), by=ada, device_at=None)
    client = client_for(sue)
    Visit.objects.waiting().delete()
    assert len(_csv(client, VISITS)) == 1
    assert len(_csv(client, f"{VISITS}?state=done")) == 1 + Visit.objects.finished().count()


@pytest.mark.parametrize(("query", "many"), [("kind=storm", 1), ("kind=other", 0), ("at=quill", 1), ("at=nowhere", 0), ("kind=party", 0)])
def test_the_visits_can_be_narrowed(long_field, olive, client_for, query, many):
    walking.due_visit(long_field, olive)
    response = client_for(olive).get(f"{VISITS}?{query}")
    assert response.status_code == 200
    assert response.content.decode().count("After the gusts of 9 March</td>") == many


@pytest.mark.parametrize("url", [VISITS, STORMS, WRONG])
@pytest.mark.parametrize(
    "query", ["per_page=-5", "per_page=0", "per_page=100000", "per_page=x", "page=0", "page=-1", "page=99", "sort=nonsense"]
)
def test_a_list_stands_whatever_the_address_says(olive, client_for, url, query):
    assert client_for(olive).get(f"{url}?{query}").status_code == 200


def test_planning_puts_the_yearly_walks_down_once(long_field, sue, client_for):
    client = client_for(sue)
    page = client.post(reverse("inspections:visits-plan"), keyed(), follow=True)
    assert f"{long_field.visits.count()} walks put down." in words(page)
    page = client.post(reverse("inspections:visits-plan"), keyed(), follow=True)
    assert "Every walk that the rules ask for stands here already." in words(page)


def test_every_list_takes_as_many_queries_with_three_rows_as_with_one(ada, olive, client_for):
    client, design = client_for(olive), None
    counts = []
    for number in (1, 2, 3):
        structure = walking.structure(ada, f"T-060{number}", **({"design": design} if design else {}))
        design = structure.design
        visit = walking.due_visit(structure, olive, title=f"Storm {number}")
        walking.wrong(walking.started(visit, ada), ada)
        client.get(VISITS)
        counts.append([queries(client, url) for url in (VISITS, STORMS, WRONG)])
    assert counts[0] == counts[2]


STORM = {"on": "2026-03-09", "kind": "wind", "towns": "Quillmere, Nowhere", "gust_mph": "61", "source": "the mast at Alder Ford"}


def test_the_owner_enters_a_storm_and_sees_who_must_look(long_field, olive, client_for):
    page = client_for(olive).post(reverse("inspections:storm-enter"), keyed(**STORM), follow=True)
    said = words(page)
    assert "1 structure has a walk due after it." in said
    assert "Nothing of ours stands in Nowhere." in said
    assert "T-0412 Quillmere not looked yet" in said
    assert "National Weather Service criteria" in said
    assert long_field.visits.filter(storm=Storm.objects.get()).count() == 1


def test_a_double_tap_enters_one_storm(long_field, olive, client_for):
    client, body = client_for(olive), keyed(**STORM)
    for _ in range(2):
        assert client.post(reverse("inspections:storm-enter"), body).status_code == 302
    assert Storm.objects.count() == 1


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"towns": " , "}, "No town was named: write at least one, like Quillmere."),
        ({"towns": ""}, "No town was named: write at least one, like Quillmere."),
        ({"source": ""}, "Who measured it was not said: name the station, the service or the person."),
        ({"gust_mph": "900"}, "A gust of 900 mph was given: 1 to 250 would do, or leave it empty."),
        ({"snow_in": "0"}, "Snow of 0 in. was given: more than 0 would do, or leave it empty."),
        ({"hail_in": "-1"}, "Hail of -1"),
        ({"on": "2999-01-01"}, "2999-01-01 has not come yet: enter a storm when it is over."),
    ],
)
def test_a_storm_that_cannot_be_is_said_at_its_field_and_keeps_what_was_typed(long_field, olive, client_for, said, sentence):
    page = client_for(olive).post(reverse("inspections:storm-enter"), keyed(**{**STORM, "note": "kept", **said}))
    assert page.status_code == 422
    assert sentence in words(page)
    assert 'value="kept"' in page.content.decode()
    assert not Storm.objects.exists()


def test_the_same_storm_twice_is_refused_at_the_towns(long_field, olive, client_for):
    client = client_for(olive)
    client.post(reverse("inspections:storm-enter"), keyed(**STORM))
    page = client.post(reverse("inspections:storm-enter"), keyed(**STORM))
    assert page.status_code == 422
    assert "After the gusts of 9 March over Quillmere, Nowhere was entered already" in words(page)


def test_more_towns_are_added_to_a_storm(long_field, ada, olive, client_for):
    storm = walking.storm(olive, towns=["Dunn"])
    url = reverse("inspections:storm-widen", kwargs={"pk": storm.pk})
    page = client_for(olive).post(url, keyed(towns="Quillmere"), follow=True)
    assert "1 structure has a walk due after it." in words(page)
    page = client_for(olive).post(url, keyed(towns="quillmere"))
    assert (page.status_code, "belongs to this storm already" in words(page)) == (422, True)


def test_a_storm_names_who_was_left_out_and_why(long_field, olive, client_for):
    walking.structure(tag="T-0432", finished_on=None, design=long_field.design)
    said = words(client_for(olive).post(reverse("inspections:storm-enter"), keyed(**STORM), follow=True))
    assert "1 structure has a walk due after it." in said
    assert "1 structure got none; who and why is below." in said
    assert "left out Structure Town Why it has no walk T-0432 Quillmere Still in parcels" in said


def test_the_owner_makes_the_walk_due_of_one_whose_finishing_day_came_late(long_field, sue, olive, client_for):
    storm = walking.storm(olive)
    page = reverse("inspections:storm-detail", kwargs={"pk": storm.pk})
    url = reverse("inspections:storm-catch-up", kwargs={"pk": storm.pk})
    assert "Stood under it, and have no walk" in words(client_for(sue).get(page))
    assert "Make their walks due" not in words(client_for(sue).get(page))
    assert client_for(sue).post(url, keyed()).status_code == 403
    said = words(client_for(olive).post(url, keyed(), follow=True))
    assert "1 structure has a walk due after it." in said
    assert "Stood under it" not in said
    assert client_for(olive).post(url, keyed()).status_code == 422


def test_a_storm_takes_as_many_queries_with_three_left_out_as_with_one(long_field, olive, client_for):
    storm = walking.storm(olive)
    client, url, counts = client_for(olive), reverse("inspections:storm-detail", kwargs={"pk": storm.pk}), []
    for number in (1, 2, 3):
        walking.structure(tag=f"T-060{number}", finished_on=None, design=long_field.design)
        counts.append(queries(client, url))
    assert counts[0] == counts[2]


def test_support_looks_at_storms_and_does_not_enter_them(sue, olive, client_for):
    storm = walking.storm(olive)
    client = client_for(sue)
    page = words(client.get(reverse("inspections:storm-detail", kwargs={"pk": storm.pk})))
    assert "More towns" not in page
    assert client.post(reverse("inspections:storm-enter"), keyed(**STORM)).status_code == 403
    assert client.post(reverse("inspections:storm-widen", kwargs={"pk": storm.pk}), keyed(towns="Dunn")).status_code == 403
    assert client.get(reverse("inspections:storm-detail", kwargs={"pk": 999})).status_code == 404


@pytest.fixture
def asked(long_field, ada):
    walking.wrong(walking.under_way(long_field, ada), ada, note="by hand")
    return FaultRequest.objects.get()


def test_things_wrong_are_listed_with_class_and_where_they_stand(asked, sue, client_for):
    page = words(client_for(sue).get(WRONG))
    assert "H3-R-foot T-0412 Mend this week brace end lifted off its clamp Quillmere" in page
    assert "asked, nothing sent yet" in page


def test_what_is_settled_leaves_the_list_unless_asked_for(asked, sue, client_for):
    client = client_for(sue)
    client.post(reverse("inspections:wrong-step", kwargs={"pk": asked.pk}), keyed(step="taken back", note="a shadow"))
    assert len(_csv(client, WRONG)) == 1
    assert len(_csv(client, f"{WRONG}?stands=all")) == 2
    assert len(_csv(client, f"{WRONG}?stands=taken+back")) == 2


def test_the_most_urgent_stands_first(asked, ada, sue, client_for):
    walking.wrong(Visit.objects.get(), ada, "H2-R-mid:band:2", fault_class="stop")
    codes = [line.split(",")[0] for line in _csv(client_for(sue), WRONG)[1:]]
    assert codes == ["H2-R-mid", "H3-R-foot"]


def test_one_thing_wrong_shows_its_parts_and_steps_and_takes_the_next(asked, sue, ada, client_for):
    client, url = client_for(sue), reverse("inspections:wrong-detail", kwargs={"pk": asked.pk})
    page = words(client.get(url))
    for said in ("Brace end lifted off its clamp", "by hand", "BC190 1 Band clamp 1.90", "BT516-1 1", "asked"):
        assert said in page
    step = reverse("inspections:wrong-step", kwargs={"pk": asked.pk})
    assert "Kept: sent." in words(client.post(step, keyed(step="sent", note="by post"), follow=True))
    page = words(client_for(ada).get(url))
    assert "sent, not yet fitted" in page
    assert "by post" in page
    assert client_for(ada).post(step, keyed(step="fitted")).status_code == 302
    assert [one.step for one in asked.steps.all()] == ["asked", "sent", "fitted"]


@pytest.mark.parametrize(
    ("who", "step", "sentence"),
    [
        ("ada", "sent", "“sent” is not yours to say here: fitted is."),
        ("sue", "looked at again", "“looked at again” is not yours to say here: sent or fitted or taken back is."),
        ("sue", "lost", "“lost” is no step: asked, sent, fitted, looked at again, taken back would do."),
    ],
)
def test_a_step_that_is_not_theirs_is_refused_and_leaves_nothing(asked, ada, sue, client_for, who, step, sentence):
    person = {"ada": ada, "sue": sue}[who]
    page = client_for(person).post(reverse("inspections:wrong-step", kwargs={"pk": asked.pk}), keyed(step=step, note="kept"))
    assert page.status_code == 422
    assert sentence in words(page)
    assert asked.steps.count() == 1


def test_a_step_that_somebody_took_meanwhile_is_said_to_be_taken(asked, ada, sue, client_for):
    take_step(asked, "fitted", by=ada)
    page = client_for(sue).post(reverse("inspections:wrong-step", kwargs={"pk": asked.pk}), keyed(step="fitted"))
    assert page.status_code == 422
    assert f"H3-R-foot is fitted already, as {ada.called} said: sent would be next." in words(page)
    assert asked.steps.count() == 2


def test_a_second_look_that_finds_it_worse_raises_its_class_everywhere(asked, ada, sue, client_for):
    visit = asked.observation.visit
    worse = walking.wrong(visit, ada, fault_class="stop", what="bolt-gone")
    client, page = client_for(sue), reverse("inspections:wrong-detail", kwargs={"pk": asked.pk})
    listed = words(client.get(reverse("inspections:wrong-list"), {"fault_class": "stop"}))
    assert "1 thing wrong." in listed
    assert f"Stop and ask {worse.what_words}" in listed
    assert "No things wrong" in words(client.get(reverse("inspections:wrong-list"), {"fault_class": "mend"}))
    assert "Class Stop and ask" in words(client.get(page))
    assert "1 thing wrong of the class “stop and ask”" in words(client.get(reverse("structures:home")))
    assert f"{worse.what_words} Stop and ask" in words(client_for(ada).get(reverse("inspections:my-wrong")))
    walking.well(visit, ada)
    again = walking.wrong(visit, ada, fault_class="again").requests.get()    # another request, which the settled one knows nothing of
    assert "Class Stop and ask" in words(client.get(page))
    assert "Class Look again" in words(client.get(reverse("inspections:wrong-detail", kwargs={"pk": again.pk})))


def test_a_grower_sees_what_was_wrong_at_their_own_only(asked, ada, gil, client_for):
    url = reverse("inspections:my-wrong")
    assert "T-0412 H3-R-foot brace end lifted off its clamp" in words(client_for(ada).get(url))
    assert "Nothing was put down as wrong." in words(client_for(gil).get(url))


def test_the_first_page_of_the_staff_says_what_waits(asked, ada, sue, olive, client_for):
    walking.due_visit(walking.structure(ada, "T-0500"), olive)
    walking.wrong(Visit.objects.get(structure__tag="T-0412"), ada, "H2-R-mid:band:2", fault_class="stop")
    page = words(client_for(sue).get(reverse("structures:home")))
    assert "1 thing wrong of the class “stop and ask”, and nothing sent yet." in page
    assert "1 other thing wrong, and nothing sent yet." in page
    assert "1 structure not looked at since a storm." in page


@pytest.mark.parametrize(
    ("query", "many"), [("town=quill", 1), ("town=QUILLMERE", 1), ("town=nowhere", 0), ("kind=wind", 1), ("kind=hail", 0)]
)
def test_the_storms_can_be_narrowed(olive, client_for, query, many):
    walking.storm(olive, towns=["Alder Ford", "Quillmere"])
    assert len(_csv(client_for(olive), f"{STORMS}?{query}")) == 1 + many
