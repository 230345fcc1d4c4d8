"""Entering a storm makes everybody under it look, once."""

from datetime import date

import pytest

from inspections.actions.weather import catch_up_storm, enter_storm, widen_storm
from inspections.models import Storm, Visit
from structures.models import Event
from structures.refusals import Refuse
from tests.inspections import walking

pytestmark = pytest.mark.django_db
GUSTS = {"kind": "wind", "on": date(2026, 3, 9), "gust_mph": 61, "source": "the mast at Alder Ford"}


@pytest.fixture
def three(ada, gil):
    return [
        walking.structure(ada, "T-0412", town="Quillmere"), walking.structure(gil, "T-0431", town="QUILLMERE "),
        walking.structure(gil, "T-0500", town="Dunn"),
    ]


def test_every_structure_in_the_named_towns_gets_a_visit_due_with_why(three, olive):
    entered = enter_storm(GUSTS, ["Quillmere"], by=olive)
    assert {visit.structure.tag for visit in Visit.objects.all()} == {"T-0412", "T-0431"}
    visit = Visit.objects.get(structure=three[0])
    assert (visit.kind, visit.storm, visit.title, visit.due_on) == ("storm", entered.storm, "After the gusts of 9 March", date(2026, 3, 9))
    assert visit.why == "Gusts of 61 mph near Quillmere, says the mast at Alder Ford. A full walk, from outside first."
    assert Event.objects.get(verb="entered storm").after["visits"] == 2


def test_a_town_in_which_nothing_stands_is_told_with_the_nearest_spelling(three, olive):
    entered = enter_storm(GUSTS, ["Quilmere", "Nowhere"], by=olive)
    assert entered.visits == ()
    assert [(town, near.strip().lower()) for town, near in entered.nobody] == [("Quilmere", "quillmere"), ("Nowhere", "")]


def test_the_same_storm_over_the_same_town_is_entered_once(three, olive):
    enter_storm(GUSTS, ["Quillmere"], by=olive)
    with pytest.raises(Refuse) as refused:
        enter_storm(GUSTS, ["quillmere", "Dunn"], by=olive)
    assert refused.value.sentence == (
        "After the gusts of 9 March over quillmere was entered already: leave these towns out, or open that storm to add to it."
    )
    assert (Storm.objects.count(), Visit.objects.count()) == (1, 2)


def test_another_kind_on_that_day_is_another_storm(three, olive):
    enter_storm(GUSTS, ["Quillmere"], by=olive)
    enter_storm({**GUSTS, "kind": "hail", "hail_in": 1}, ["Quillmere"], by=olive)
    assert Visit.objects.count() == 4


def test_adding_a_town_makes_only_its_structures_look(three, olive):
    storm = enter_storm(GUSTS, ["Quillmere"], by=olive).storm
    widened = widen_storm(storm, ["Quillmere", "Dunn"], by=olive)
    assert [visit.structure.tag for visit in widened.visits] == ["T-0500"]
    assert Storm.objects.get().towns == ["Quillmere", "Dunn"]
    assert Visit.objects.count() == 3


def test_adding_no_new_town_is_refused(three, olive):
    storm = enter_storm(GUSTS, ["Quillmere"], by=olive).storm
    with pytest.raises(Refuse, match=r"Every town named here belongs to this storm already: name another one."):
        widen_storm(storm, ["quillmere"], by=olive)


def test_a_storm_needs_a_town(olive):
    with pytest.raises(Refuse, match=r"No town was named: write at least one, like Quillmere."):
        enter_storm(GUSTS, [], by=olive)


PARCELS = "Still in parcels: no day is known on which it was finished."


@pytest.fixture
def in_parcels(three):
    return walking.structure(tag="T-0432", town="Quillmere", finished_on=None, design=three[0].design)


def test_a_structure_still_in_parcels_gets_no_walk_and_is_named_with_why(in_parcels, olive):
    entered = enter_storm(GUSTS, ["Quillmere"], by=olive)
    assert {visit.structure.tag for visit in entered.visits} == {"T-0412", "T-0431"}
    assert [(one.structure.tag, one.why) for one in entered.left_out] == [("T-0432", PARCELS)]
    assert not in_parcels.visits.exists()


def test_one_known_only_from_paper_gets_its_walk_though_nobody_said_when_it_stood(three, olive):
    paper = walking.structure(tag="P-0001", town="Quillmere", finished_on=None, unchecked=True, design=three[0].design)
    enter_storm(GUSTS, ["Quillmere"], by=olive)
    assert paper.visits.count() == 1


def test_adding_a_town_leaves_out_what_lies_there_in_parcels(in_parcels, olive):
    storm = enter_storm(GUSTS, ["Dunn"], by=olive).storm
    widened = widen_storm(storm, ["Quillmere"], by=olive)
    assert [one.structure.tag for one in widened.left_out] == ["T-0432"]
    assert not in_parcels.visits.exists()


def test_a_finishing_day_told_late_is_caught_up_with_once(in_parcels, olive):
    storm = enter_storm(GUSTS, ["Quillmere"], by=olive).storm
    with pytest.raises(Refuse, match=r"Every structure that stood under this storm has its walk already"):
        catch_up_storm(storm, by=olive)
    in_parcels.finished_on = date(2026, 3, 9)
    in_parcels.save()
    assert [visit.structure for visit in catch_up_storm(storm, by=olive)] == [in_parcels]
    assert Event.objects.get(verb="caught up storm").after == {"visits": 1}
    with pytest.raises(Refuse, match="nothing was added to After the gusts of 9 March"):
        catch_up_storm(storm, by=olive)
    assert Visit.objects.filter(storm=storm).count() == 3
