"""One visit as it was recorded: the page, its corrections, its report."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from inspections.actions.observations import Seen, add_photo, all_the_rest, correct, observe
from inspections.actions.visits import finish_visit
from structures.models import Event
from tests.inspections import walking
from tests.inspections.walking import FOOT, HIP, NOON, picture, upload
from tests.pages import keyed, queries, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def visit(ada):
    """One thing wrong with a photo, one that could not be seen, a bay by the button, one corner, then the end."""
    visit = walking.under_way(walking.structure(ada), ada)
    walking.wrong(visit, ada, note="by hand")
    add_photo(visit, picture(), "leg.jpg", by=ada, device_at=NOON, place=FOOT)
    observe(visit, Seen("H2-ridge:hoop:1", "unseen"), by=ada, device_at=NOON)
    all_the_rest(visit, "B1-R", by=ada, device_at=None)
    add_photo(visit, picture("white"), "corner.jpg", by=ada, device_at=None, corner="far left")
    return finish_visit(visit, by=ada, device_at=NOON)


def detail(visit):
    return reverse("inspections:visit-detail", kwargs={"pk": visit.pk})


def test_the_page_keeps_the_four_states_apart(visit, ada, sue, client_for):
    for person in (ada, sue):
        page = words(client_for(person).get(detail(visit)))
        assert "22 look as built, 1 wrong, 1 could not see, " in page
        assert "This is what was seen from the ground that day; it says nothing of what the structure will bear." in page
        assert "H3-R-foot side brace, lower end: brace end lifted off its clamp" in page
        assert "22 of them by “all the rest looks as built”" in page
        assert page.count("no photo was taken") == 3


def test_both_clocks_stand_beside_what_was_said(visit, ada, client_for):
    page = words(client_for(ada).get(detail(visit)))
    assert "device 10 Mar 2026, 08:00" in page  # noon in UTC, shown in the structure's own zone
    assert "device unknown" in page


def test_a_visit_nobody_began_says_so_and_how_to_begin(ada, olive, client_for):
    visit = walking.due_visit(walking.structure(ada), olive)
    page = words(client_for(ada).get(detail(visit)))
    assert "Nobody has begun it, so nothing was looked at." in page
    assert "Walk round after the gusts of 9 March" in page


def test_two_who_differ_stand_side_by_side(ada, sue, client_for):
    visit = walking.under_way(walking.structure(ada), ada)
    walking.well(visit, ada)
    walking.wrong(visit, sue)
    page = words(client_for(ada).get(detail(visit)))
    assert "Where people differ Both answers stay." in page
    assert "H3-R-foot Looks as built ada" in page
    assert "H3-R-foot Something wrong, mend this week sue" in page


def test_a_correction_is_kept_beside_the_older_answer(visit, ada, client_for):
    client = client_for(ada)
    older = visit.observations.get(place=FOOT)
    form = client.get(reverse("inspections:observation-correct", kwargs={"pk": older.pk}))
    assert '<input type="radio" name="state" value="fault" checked>' in form.content.decode()
    response = client.post(reverse("inspections:correction-keep", kwargs={"pk": older.pk}), keyed(state="well", photo=upload()))
    assert response.headers["Location"] == detail(visit)
    page = words(client.get(detail(visit)))
    assert "corrected since" in page
    assert "corrects an older answer" in page
    assert visit.observations.filter(place=FOOT).count() == 2


def test_a_correction_that_cannot_be_is_said_at_the_form(visit, ada, client_for):
    older = visit.observations.get(place=FOOT)
    url = reverse("inspections:correction-keep", kwargs={"pk": older.pk})
    page = client_for(ada).post(url, keyed(state="fault", fault_class="mend", what="lifted-end", note="by hand"))
    assert page.status_code == 422
    assert "The answer for H3-R-foot says this already, so nothing was added." in words(page)
    page = client_for(ada).post(url, keyed(state="fault", note="kept words"))
    assert page.status_code == 422
    assert 'value="kept words"' in page.content.decode()


def test_a_stranger_corrects_nothing(visit, gil, client_for):
    older = visit.observations.get(place=FOOT)
    response = client_for(gil).post(reverse("inspections:correction-keep", kwargs={"pk": older.pk}), keyed(state="well"))
    assert response.status_code == 404
    assert visit.observations.filter(place=FOOT).count() == 1


def test_the_page_takes_as_many_queries_with_one_answer_as_with_many(ada, client_for):
    structure = walking.structure(ada)
    few, many = walking.under_way(structure, ada), walking.under_way(structure, ada)
    walking.wrong(few, ada)
    for place in (FOOT, HIP, "H2-R-mid:band:2"):
        walking.wrong(many, ada, place)
    client = client_for(ada)
    client.get(detail(few))
    assert queries(client, detail(few)) == queries(client, detail(many))


def _report(client, visit) -> tuple[str, list]:
    response = client.get(reverse("inspections:visit-report", kwargs={"pk": visit.pk}))
    assert (response.status_code, response.headers["Content-Type"]) == (200, "application/pdf")
    pages = PdfReader(BytesIO(response.content)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split()), [image for page in pages for image in page.images]


def test_the_report_says_what_was_seen_and_what_was_not(visit, ada, client_for, caplog):
    text, images = _report(client_for(ada), visit)
    assert "it says nothing of what the structure will bear" in text
    for said in ("Something wrong", "Not looked at", "Could not see", "Looks as built"):
        assert said in text
    assert "side brace, lower end: brace end lifted off its clamp" in text
    assert "by hand" in text
    assert "Our clock" in text
    assert "device 10 Mar 2026, 08:00" in text
    assert text.count("no photo was taken") == 3
    assert len({image.data for image in images}) == 2
    assert [record for record in caplog.records if record.name.startswith("weasyprint")] == []


def test_the_report_never_counts_what_was_not_looked_at_as_looked_at(visit, ada, client_for):
    text, _ = _report(client_for(ada), visit)
    before_well = text[text.index("Not looked at"): text.index("Looks as built")]
    assert "H4-R-foot" in before_well
    assert "H4-R-foot" not in text[text.index("Looks as built"):]


def test_the_report_of_two_who_differ_shows_both(ada, sue, client_for):
    visit = walking.under_way(walking.structure(ada), ada)
    walking.well(visit, ada)
    walking.wrong(visit, sue)
    text, _ = _report(client_for(ada), visit)
    assert "Where people differ" in text
    assert "ada: looks as built" in text
    assert "sue: something wrong, mend this week, brace end lifted off its clamp" in text


def test_a_correction_writes_what_stood_before(visit, ada):
    correct(visit.observations.get(place=FOOT), Seen(FOOT, "well"), by=ada, device_at=None)
    assert Event.objects.get(verb="corrected").before == {"state": "fault", "class": "mend", "what": "lifted-end"}
