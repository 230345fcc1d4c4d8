"""The page of one bay's side or end wall, and what is kept from it."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from inspections.actions.visits import finish_visit
from structures.models import Structure
from tests import factories
from tests.inspections import walking
from tests.inspections.walking import FOOT, HIP, upload
from tests.pages import keyed, queries, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def visit(ada):
    return walking.under_way(walking.structure(ada), ada)


def url(visit, stretch="B1-R", act="walk-stretch"):
    return reverse(f"inspections:{act}", kwargs={"pk": visit.pk, "stretch": stretch})


def seen(**said):
    return keyed(**{"place": FOOT, "state": "well", **said})


def test_a_bay_shows_its_rail_drawing_places_and_the_one_button(visit, ada, client_for):
    page = client_for(ada).get(url(visit))
    said = words(page)
    assert "Bay 1, right side" in said
    assert "All the rest looks as built" in said
    assert "H1-R-brace-hip side brace, upper end" in said
    html = page.content.decode()
    assert html.count('aria-current="step"') == 1
    assert "Bay 1, right side, from outside" in html
    assert 'data-place="H1-R-brace-hip"' in html


def test_the_way_goes_on_from_bay_to_bay_and_round_the_end_wall(visit, ada, client_for):
    client = client_for(ada)
    for here, on in (("B1-R", "Bay 2 →"), ("B6-R", "Far end wall →"), ("E2", "Bay 6 →"), ("B1-L", "Tag end wall →"), ("E1", "Corners →")):
        assert on in words(client.get(url(visit, here)))


def test_an_end_wall_is_called_as_people_call_its_end_and_the_way_there_as_ever(visit, ada, client_for):
    Structure.objects.update(tag_end_name="road end", far_end_name="field end")
    client = client_for(ada)
    assert "Far end wall (field end)" in words(client.get(url(visit, "E2")))
    assert "Tag end wall (road end)" in words(client.get(url(visit, "E1")))
    assert "Far end wall →" in words(client.get(url(visit, "B6-R")))
    way = words(client.get(reverse("inspections:visit-walk", kwargs={"pk": visit.pk})))
    assert "Far end wall (field end)" in way
    corners = words(client.get(reverse("inspections:visit-corners", kwargs={"pk": visit.pk})))
    assert [f"{corner} ({name})" in corners for corner, name in (("Tag right", "road end"), ("Far left", "field end"))] == [True, True]
    client.post(reverse("inspections:corner-keep", kwargs={"pk": visit.pk}), keyed(corner="far left", photo=upload()))
    assert visit.photos.get().corner == "far left"


def test_without_end_walls_the_way_turns_to_the_other_side_of_the_last_bay_and_says_so(ada, client_for):
    open_ended = walking.structure(ada, "T-0009", design=factories.design(length_in=288.0, ends=("open", "open"), without=("channel",)))
    visit = walking.under_way(open_ended, ada)
    assert "Bay 6, left →" in words(client_for(ada).get(url(visit, "B6-R")))
    assert "← Bay 6, right" in words(client_for(ada).get(url(visit, "B6-L")))


def test_a_place_is_taken_in_hand_by_its_id_or_by_its_code_from_the_drawing(visit, ada, client_for):
    client = client_for(ada)
    for asked in (FOOT, "H3-R-foot"):
        page = words(client.get(url(visit, "B2-R"), {"place": asked}))
        assert "A lifted brace end, a loosened band clamp, a bolt gone." in page
        for word in ("Looks as built", "Something wrong", "Not looked at", "Could not see", "Stop and ask", "Mend this week", "Look again"):
            assert word in page


def test_a_code_with_several_places_takes_the_first_without_an_answer(visit, ada, client_for):
    walking.well(visit, ada, "H2-R-foot:post:1")
    page = words(client_for(ada).get(url(visit, "B2-R"), {"place": "H2-R-foot"}))
    assert "H2-R-foot foot bolt" in page
    assert "Also here: ground post" in page


def test_an_unknown_place_or_stretch(visit, ada, client_for):
    client = client_for(ada)
    assert client.get(url(visit, "B2-R"), {"place": "nonsense"}).status_code == 200
    assert client.get(url(visit, "B99-R")).status_code == 404


def test_an_answer_is_kept_with_its_photo_and_clock(visit, ada, client_for):
    body = seen(
        state="fault", fault_class="stop", what="lifted-end", note="by hand", photo=upload(), device_at="2026-03-10T08:15:30.000Z"
    )
    response = client_for(ada).post(url(visit, "B2-R", "walk-keep"), body)
    assert response.status_code == 302
    made = visit.observations.get()
    assert (made.place, made.state, made.fault_class, made.what, made.note) == (FOOT, "fault", "stop", "lifted-end", "by hand")
    assert made.device_at.isoformat() == "2026-03-10T08:15:30+00:00"
    assert visit.photos.get().place == FOOT


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"state": ""}, "The state was not chosen: looks as built, something wrong, not looked at, or could not see."),
        ({"state": "fine"}, "“fine” is no state: looks as built, something wrong, not looked at, or could not see would do."),
        ({"state": "fault"}, "How urgent H3-R-foot is was not said: stop and ask, mend this week, or look again."),
        ({"state": "fault", "fault_class": "mend"}, "What is wrong at H3-R-foot was not said: choose it from the list."),
        ({"state": "fault", "fault_class": "soon"}, "“soon” is no class: stop and ask, mend this week, or look again would do."),
        (
            {"state": "fault", "fault_class": "mend", "what": "kink"},
            "“kink” is not on this place's list: choose what is wrong from it.",
        ),
        (
            {"state": "fault", "fault_class": "mend", "what": "other", "note": " "},
            "“Something else” at H3-R-foot needs a note: say in a few words what it is.",
        ),
        ({"against": "better"}, "“better” is no comparison: same, worse or fixed would do."),
    ],
)
def test_what_cannot_be_kept_is_said_in_a_sentence_and_changes_nothing(visit, ada, client_for, said, sentence):
    page = client_for(ada).post(url(visit, "B2-R", "walk-keep"), seen(**{"note": "rust", **said}))
    assert page.status_code == 422
    assert sentence in words(page)
    assert visit.observations.count() == 0


def test_what_was_chosen_stays_chosen_beside_a_refusal(visit, ada, client_for):
    page = client_for(ada).post(url(visit, "B2-R", "walk-keep"), seen(state="fault", what="loose-band")).content.decode()
    assert '<input type="radio" name="state" value="fault" checked>' in page
    assert 'value="loose-band" data-suggests="mend" checked>' in page


def test_the_places_beside_a_refusal_still_lead_to_their_own_page(visit, ada, client_for):
    page = client_for(ada).post(url(visit, "B2-R", "walk-keep"), seen(state="fault")).content.decode()
    assert 'href="?place=' not in page
    assert f'href="{url(visit, "B2-R")}?place=H2-R-mid%3Aband%3A1#in-hand"' in page
    assert f'href="{url(visit, "B2-R")}?place=H2-R-mid#in-hand"' in page


def test_a_place_of_another_structure_is_refused_without_a_crash(visit, ada, client_for):
    page = client_for(ada).post(url(visit, "B2-R", "walk-keep"), seen(place="H99-R-foot:band:1"))
    assert page.status_code == 422
    assert visit.observations.count() == 0


def test_a_double_tap_keeps_one_answer_and_other_words_under_its_key_are_a_conflict(visit, ada, client_for):
    client, body = client_for(ada), seen()
    for _ in range(2):
        assert client.post(url(visit, "B2-R", "walk-keep"), body).status_code == 302
    assert visit.observations.count() == 1
    assert client.post(url(visit, "B2-R", "walk-keep"), {**body, "state": "unseen"}).status_code == 409
    assert visit.observations.count() == 1


def test_all_the_rest_answers_the_stretch_and_goes_on(visit, ada, client_for):
    client = client_for(ada)
    response = client.post(url(visit, "B1-R", "walk-rest"), keyed())
    assert response.headers["Location"] == url(visit, "B2-R")
    page = words(client.get(url(visit)))
    assert "by “all the rest looks as built”" in page
    assert "look as built" in page
    assert "All the rest looks as built H" not in page
    assert '<form method="post" action="' + url(visit, "B1-R", "walk-rest") not in client.get(url(visit)).content.decode()


def test_all_the_rest_stops_at_what_was_wrong_before(ada, client_for):
    structure = walking.structure(ada)
    first = walking.under_way(structure, ada)
    walking.wrong(first, ada, HIP)
    finish_visit(first, by=ada, device_at=None)
    second = walking.under_way(structure, ada)
    client = client_for(ada)
    response = client.post(url(second, "B1-R", "walk-rest"), keyed())
    assert response.headers["Location"].startswith(f"{url(second)}?place=H1-R-brace-hip")
    page = words(client.get(response.headers["Location"].split("#")[0]))
    assert "wrong before, so it is asked for by itself" in page
    assert "Against last time" in page
    assert "Same Worse Fixed" in page


def test_a_refused_photo_takes_the_answer_with_it_and_its_page_shows_neither(visit, ada, client_for):
    half = SimpleUploadedFile("half.jpg", upload().read()[:200], content_type="image/jpeg")
    page = client_for(ada).post(
        url(visit, "B2-R", "walk-keep"), seen(state="fault", fault_class="stop", what="lifted-end", photo=half)
    )
    assert page.status_code == 422
    said = words(page)
    assert "half.jpg" in said
    assert "1 wrong" not in said
    assert "said by" not in said
    assert not visit.observations.exists()


def test_last_times_photo_stands_beside_todays(ada, client_for):
    structure = walking.structure(ada)
    first = walking.under_way(structure, ada)
    client = client_for(ada)
    client.post(url(first, "B2-R", "walk-keep"), seen(photo=upload()))
    finish_visit(first, by=ada, device_at=None)
    second = walking.under_way(structure, ada)
    page = client.get(url(second, "B2-R"), {"place": FOOT})
    assert reverse("inspections:photo-small", kwargs={"pk": first.photos.get().pk}) in page.content.decode()
    assert "Take today’s, same place" in words(page)


def test_two_people_on_one_walk_see_each_other_and_where_they_differ(visit, ada, sue, client_for):
    walking.well(visit, ada)
    walking.wrong(visit, sue)
    client = client_for(ada)
    assert "sue is recording on this walk too" in words(client.get(reverse("inspections:visit-walk", kwargs={"pk": visit.pk})))
    page = words(client.get(url(visit, "B2-R"), {"place": FOOT}))
    assert "two people differ here" in page
    assert "said by ada" in page
    assert "said by sue" in page


def test_two_brace_ends_in_one_corner_are_said_aloud(visit, ada, client_for):
    walking.wrong(visit, ada, "H2-R-mid:band:2")
    walking.wrong(visit, ada, HIP)
    assert "2 places on braces in one corner (tag right) are wrong" in words(client_for(ada).get(url(visit)))


def test_a_walk_not_begun_or_ended_shows_its_record_instead(ada, olive, client_for):
    visit = walking.due_visit(walking.structure(ada), olive)
    detail = reverse("inspections:visit-detail", kwargs={"pk": visit.pk})
    client = client_for(ada)
    for name in ("visit-walk", "visit-end"):
        assert client.get(reverse(f"inspections:{name}", kwargs={"pk": visit.pk})).headers["Location"] == detail
    assert client.get(url(visit)).headers["Location"] == detail


def test_a_stranger_gets_nothing(visit, gil, client_for):
    client = client_for(gil)
    assert client.get(url(visit)).status_code == 404
    assert client.post(url(visit, "B2-R", "walk-keep"), seen()).status_code == 404
    assert client.post(url(visit, "B1-R", "walk-rest"), keyed()).status_code == 404
    assert visit.observations.count() == 0


def test_a_bay_takes_as_many_queries_with_every_answer_as_with_none(visit, ada, client_for):
    client = client_for(ada)
    client.get(url(visit))
    none = queries(client, url(visit))
    client.post(url(visit, "B1-R", "walk-rest"), keyed())
    client.get(url(visit))
    assert queries(client, url(visit)) == none


def test_the_end_says_what_is_missing_and_ending_fills_nothing_in(visit, ada, client_for):
    walking.wrong(visit, ada)
    client = client_for(ada)
    page = words(client.get(reverse("inspections:visit-end", kwargs={"pk": visit.pk})))
    assert "1 wrong" in page
    assert "Of 4 corners: tag right, far right, far left, tag left. The report says so." in page
    assert "They stay “not looked at” on every page and on paper" in page
    response = client.post(reverse("inspections:visit-finish", kwargs={"pk": visit.pk}), keyed())
    assert response.headers["Location"] == reverse("inspections:visit-detail", kwargs={"pk": visit.pk})
    visit.refresh_from_db()
    assert (visit.is_finished, visit.observations.count()) == (True, 1)
