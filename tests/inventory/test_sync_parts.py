"""Taking up parts from families: every number once, meaning one thing."""

import pytest
from django.db import transaction

from inventory.actions.parts import sync_parts, tube_words
from inventory.models import Part, PartUse
from inventory.queries.parts import not_taken_up
from structures.actions.families import load_family
from structures.frame.family import Tube
from structures.models import Event
from structures.refusals import Refuse
from tests.factories import family_revision, family_text
from tests.inventory.stock import said, send, stocked

pytestmark = pytest.mark.django_db


def test_every_part_of_the_family_is_taken_up_with_all_that_it_says(olive):
    made = sync_parts(family_revision("G26", "D"), by=olive)
    assert {part.number for part in made} == set(Part.objects.values_list("number", flat=True))
    part = Part.objects.get(number="RL26-R")
    assert (part.name, part.role, part.kind, part.hand) == ("Roof brace, lower, right twist, 26 ft", "roof-lower", "tube", "right")
    assert (part.tube, part.diameter_in, part.wall_in, part.coating) == ("1.315 x .058", 1.315, 0.058, "galvanised")
    assert (part.length_in, part.cut_in, part.spacing_in) == (79.1875, 81.1875, 48.0)
    assert part.ends == "flattened and drilled both ends"


def test_the_twist_is_the_frames_own():
    """5.5 degrees for the lower roof piece of the 26 ft family; the figures are the invented maker's own."""
    sync_parts(family_revision("G26", "D"), by=None)
    assert {part.number: part.twist_deg for part in Part.objects.filter(number__startswith="RL26")} == {"RL26-L": 5.5, "RL26-R": 5.5}
    assert Part.objects.get(number="SB26").twist_deg is None


def test_a_piece_of_tube_weighs_what_its_cut_length_weighs():
    """10.69 (D - t) t lb/ft of 4-3 3/8 of 1.315 x .058 tube: ASME B36.10M's formula, 3.34 lb."""
    sync_parts(family_revision("G26", "D"), by=None)
    assert Part.objects.get(number="SB26").weight_lb == pytest.approx(10.69 * (1.315 - 0.058) * 0.058 * 51.375 / 12)
    assert Part.objects.get(number="NT516").weight_lb == 0.011


def test_a_second_time_changes_nothing():
    revision = family_revision("G26", "D")
    sync_parts(revision, by=None)
    before = list(Part.objects.values())
    assert sync_parts(revision, by=None) == []
    assert list(Part.objects.values()) == before
    assert Event.objects.filter(verb="took up parts").count() == 1


def test_parts_that_families_share_are_one_part_used_by_both():
    sync_parts(family_revision("G26", "C"), by=None)
    made = sync_parts(family_revision("G26", "D"), by=None)
    roof_braces = {"RL26-L", "RL26-R", "RU26"}
    of_runners = {"RN237-21", "RX237", "BT38-4", "WH237-190"}
    gear = {"BS12", "RP131-10", "RS131", "RC131", "RK131", "RR14", "EY14", "GA30", "BL60", "DD94-84"}
    assert {part.number for part in made} == roof_braces | of_runners | gear
    uses = PartUse.objects.filter(part__number="SB26").values_list("family__revision", flat=True)
    assert sorted(uses) == ["C", "D"]


def loaded(was, now):
    """Load the file of the 26 ft family, revision D, again with one line of it changed."""
    text = family_text()
    assert text.count(was) == 1
    return load_family(text.replace(was, now), source="g26-d.toml", by=None)


def test_a_definition_may_be_mended_while_nothing_refers_to_it():
    revision = family_revision("G26", "D")
    sync_parts(revision, by=None)
    mended = loaded('name = "Side brace, 26 ft"', 'name = "Side brace of the 26 ft"')
    sync_parts(mended, by=None)
    assert Part.objects.get(number="SB26").name == "Side brace of the 26 ft"
    assert Event.objects.filter(verb="took up parts").first().after["changed"] == ["SB26"]


def test_another_definition_of_a_part_in_stock_is_refused_and_changes_nothing(wes):
    sync_parts(family_revision("G26", "D"), by=None)
    stocked(wes, "SB26", "C-14", 44)
    mended = loaded('name = "Side brace, 26 ft"', 'name = "Side brace of the 26 ft"')
    with pytest.raises(Refuse) as refused, transaction.atomic():
        sync_parts(mended, by=None)
    assert refused.value.sentence == (
        "Part SB26 has name Side brace, 26 ft here, and G26-D says Side brace of the 26 ft: give the other piece a number of its own."
    )
    assert Part.objects.get(number="SB26").name == "Side brace, 26 ft"


def test_another_length_is_refused_in_feet_and_inches(wes):
    sync_parts(family_revision("G26", "D"), by=None)
    stocked(wes, "GP166-30", "B-02", 44)
    mended = loaded('length = "3-0"', 'length = "3-2"')
    with pytest.raises(Refuse, match=r"^Part GP166-30 has length 3-0 here, and G26-D says 3-2: give"), transaction.atomic():
        sync_parts(mended, by=None)


@pytest.mark.parametrize(
    ("diameter", "wall", "words"),
    [
        (1.315, 0.058, "1.315 x .058"),
        (1.9, 0.083, "1.90 x .083"),
        (1.66, 0.083, "1.66 x .083"),
        (2.375, 0.095, "2.375 x .095"),
        (2, 0.1, "2.00 x .100"),
    ],
)
def test_a_tube_in_words(diameter, wall, words):
    assert tube_words(Tube("any", diameter, wall)) == words


def test_what_is_no_tube_has_no_tube_words():
    assert tube_words(None) == ""


def test_the_page_takes_up_what_is_not_there_yet(wes, client_for):
    family_revision("G26", "C")
    family_revision("G26", "D")
    assert len(not_taken_up()) == 2
    done = send(client_for(wes), "inventory:part-take-up")
    assert done.status_code == 302
    assert said(done) == [f"Taken up from G26-C, G26-D: {Part.objects.count()} new part numbers."]
    assert not_taken_up() == []
    again = send(client_for(wes), "inventory:part-take-up")
    assert said(again) == ["Every family’s parts are here already."]


def test_support_may_not_take_up_parts(sue, client_for):
    assert send(client_for(sue), "inventory:part-take-up").status_code == 403
