"""One place, all the rest, corrections."""

from uuid import uuid4

import pytest

from inspections.actions.observations import Seen, all_the_rest, correct, observe
from inspections.actions.visits import finish_visit
from inspections.models import FaultRequest, Observation
from inspections.queries.visits import sheet_of
from structures.actions.structures import append_change
from structures.models import Event
from structures.refusals import Conflict, Refuse
from tests.inspections import walking
from tests.inspections.walking import FOOT, HIP, NOON

pytestmark = pytest.mark.django_db


@pytest.fixture
def visit(ada):
    return walking.under_way(walking.structure(ada), ada)


def refused(call) -> str:
    with pytest.raises(Refuse) as caught:
        call()
    return caught.value.sentence


def test_an_observation_keeps_what_was_said_who_and_both_clocks(visit, ada):
    made = walking.wrong(visit, ada, note="the bolt is there", against="worse")
    kept = Observation.objects.get(pk=made.pk)
    assert (kept.state, kept.fault_class, kept.what, kept.note, kept.against) == (
        "fault", "mend", "lifted-end", "the bolt is there", "worse"
    )
    assert (kept.who, kept.device_at, kept.given) == (ada, NOON, "one by one")
    assert kept.server_at is not None
    event = Event.objects.get(verb="observed")
    assert (event.who, event.about, event.after["place"]) == (ada, f"visit {visit.pk}", FOOT)


def test_class_and_what_are_dropped_where_nothing_is_wrong(visit, ada):
    made = observe(visit, Seen(FOOT, "well", fault_class="stop", what="lifted-end"), by=ada, device_at=None)
    assert (made.fault_class, made.what) == ("", "")


@pytest.mark.parametrize(
    ("seen", "sentence"),
    [
        (Seen("H99-R-foot:band:1", "well"), "H99-R-foot:band:1 is no place of T-0412: choose one from the list."),
        (Seen("", "well"), "Nothing is no place of T-0412: choose one from the list."),
        (
            Seen(FOOT, "fault", what="lifted-end"),
            "How urgent H3-R-foot is was not said: stop and ask, mend this week, or look again.",
        ),
        (Seen(FOOT, "fault", fault_class="mend"), "What is wrong at H3-R-foot was not said: choose it from the list."),
        (Seen(FOOT, "fault", fault_class="mend", what="kink"), "What is wrong at H3-R-foot was not said: choose it from the list."),
        (
            Seen(FOOT, "fault", fault_class="mend", what="other"),
            "“Something else” at H3-R-foot needs a note: say in a few words what it is.",
        ),
        (Seen(FOOT, "well", against="better"), "“better” is no comparison: same, worse or fixed would do."),
    ],
)
def test_what_cannot_be_recorded_is_refused_in_one_sentence(visit, ada, seen, sentence):
    assert refused(lambda: observe(visit, seen, by=ada, device_at=None)) == sentence
    assert not Observation.objects.exists()


def test_nothing_is_recorded_before_the_walk_begins_or_after_it_ends(ada, olive):
    visit = walking.due_visit(walking.structure(ada), olive)
    assert refused(lambda: walking.well(visit, ada)) == "“After the gusts of 9 March” of T-0412 was not begun: start the walk first."
    finish_visit(walking.started(visit, ada), by=ada, device_at=None)
    assert refused(lambda: walking.well(visit, ada)).endswith("is finished: correct an answer, or begin another look.")


def test_the_same_id_with_the_same_words_is_one_observation(visit, ada):
    key = uuid4()
    for _ in range(2):
        made = observe(visit, Seen(FOOT, "well"), by=ada, device_at=NOON, observation_id=key)
    assert made.pk == key
    assert Observation.objects.count() == 1


def test_the_same_id_with_other_words_is_a_conflict(visit, ada):
    key = uuid4()
    observe(visit, Seen(FOOT, "well"), by=ada, device_at=NOON, observation_id=key)
    with pytest.raises(Conflict, match=r"This answer's number was used for another answer, at H3-R-foot: give the answer again."):
        observe(visit, Seen(FOOT, "unseen"), by=ada, device_at=NOON, observation_id=key)


def test_a_place_that_differs_from_what_was_shipped_can_be_recorded(visit, ada):
    append_change(visit.structure, act="added", place="B2-L-side", words="a cable", seen_on=NOON.date(), by=ada)
    assert observe(visit, Seen("B2-L-side", "well"), by=ada, device_at=None).place == "B2-L-side"


def test_all_the_rest_answers_each_open_place_of_one_stretch_and_says_how(visit, ada):
    walking.wrong(visit, ada, HIP)
    before = sheet_of(visit).leg("B1-R")
    made = all_the_rest(visit, "B1-R", by=ada, device_at=NOON)
    assert len(made) == before.count.not_looked
    after = sheet_of(visit)
    assert (after.leg("B1-R").count.not_looked, after.leg("B1-R").count.wrong) == (0, 1)
    assert {one.given for one in Observation.objects.exclude(place=HIP)} == {"all the rest"}
    assert all(leg.count.looked_at == 0 for leg in after.legs if leg.stretch.key != "B1-R")


def test_all_the_rest_leaves_what_was_wrong_before_and_is_not_settled(ada):
    structure = walking.structure(ada)
    first = walking.under_way(structure, ada)
    walking.wrong(first, ada, HIP)
    finish_visit(first, by=ada, device_at=None)
    second = walking.under_way(structure, ada)
    all_the_rest(second, "B1-R", by=ada, device_at=None)
    leg = sheet_of(second).leg("B1-R")
    assert leg.count.not_looked == 1
    assert refused(lambda: all_the_rest(second, "B1-R", by=ada, device_at=None)) == (
        "What is left in Bay 1, right side was wrong before, so it is asked for by itself: H1-R-brace-hip."
    )


def test_all_the_rest_of_a_stretch_with_no_open_place_adds_nothing(visit, ada):
    all_the_rest(visit, "E1", by=ada, device_at=None)
    count = Observation.objects.count()
    assert refused(lambda: all_the_rest(visit, "E1", by=ada, device_at=None)) == (
        "Every place in Tag end wall has its answer already, so nothing was added."
    )
    assert Observation.objects.count() == count


def test_all_the_rest_of_what_is_no_stretch_is_refused(visit, ada):
    assert refused(lambda: all_the_rest(visit, "B99-R", by=ada, device_at=None)) == (
        "B99-R is no bay's side or end wall of T-0412: choose one from the walk."
    )


def test_a_correction_stands_beside_the_older_answer(visit, ada, sue):
    older = walking.wrong(visit, ada)
    newer = correct(older, Seen(FOOT, "well"), by=sue, device_at=NOON)
    assert newer.corrects == older
    assert Observation.objects.count() == 2
    assert sheet_of(visit).now[FOOT].state == "well"
    event = Event.objects.get(verb="corrected")
    assert (event.before["state"], event.after["state"]) == ("fault", "well")


def test_a_correction_may_come_after_the_end(visit, ada):
    older = walking.well(visit, ada)
    finish_visit(visit, by=ada, device_at=None)
    assert correct(older, Seen(FOOT, "unseen"), by=ada, device_at=None).state == "unseen"


def test_an_answer_is_corrected_once_and_then_its_correction_is(visit, ada):
    older = walking.wrong(visit, ada)
    correct(older, Seen(FOOT, "well"), by=ada, device_at=None)
    assert refused(lambda: correct(older, Seen(FOOT, "unseen"), by=ada, device_at=None)) == (
        "This answer for H3-R-foot was corrected already: correct the newer one."
    )


def test_a_correction_that_says_the_same_or_moves_to_another_place_is_refused(visit, ada):
    older = walking.well(visit, ada)
    assert refused(lambda: correct(older, Seen(FOOT, "well"), by=ada, device_at=None)) == (
        "The answer for H3-R-foot says this already, so nothing was added."
    )
    assert refused(lambda: correct(older, Seen(HIP, "well"), by=ada, device_at=None)).startswith("A correction stays at its place")


def test_two_people_who_differ_both_stand_until_one_is_corrected(visit, ada, sue):
    walking.well(visit, ada)
    other = walking.wrong(visit, sue)
    sheet = sheet_of(visit)
    assert [one.place for one in sheet.differences] == [FOOT]
    assert sheet.now[FOOT].state == "fault"
    correct(other, Seen(FOOT, "well"), by=ada, device_at=None)
    assert sheet_of(visit).differences == ()


def test_something_wrong_is_asked_for_once_however_often_it_is_said(visit, ada, sue):
    walking.wrong(visit, ada)
    walking.wrong(visit, sue)
    asked = FaultRequest.objects.get()
    assert [step.step for step in asked.steps.all()] == ["asked"]
