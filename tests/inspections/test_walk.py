"""Counts, differences and "all the rest"."""

from datetime import UTC, datetime, timedelta

from inspections.places import place_index, walk_of
from inspections.states import NOT_LOOKED, UNSEEN, WELL, WRONG
from inspections.walk import (
    Answer,
    Tally,
    corners_without_photo,
    count_words,
    current,
    differences,
    on_the_rail,
    standing,
    tally,
    the_rest,
    urgent_together,
)
from tests.inspections.small_frame import joint, small_document

NOON = datetime(2025, 3, 10, 12, tzinfo=UTC)
WALK = walk_of(small_document())
FIRST = WALK[0]


def answer(place, state, who="ada", minute=0, fault_class="", corrects="", key=None):
    at = NOON + timedelta(minutes=minute)
    return Answer(key or f"{place}/{who}/{minute}", place, state, fault_class, who, at, corrects)


def test_a_walk_nobody_started_has_looked_at_nothing():
    whole = tally(place_index(WALK).values(), {})
    assert whole == Tally(not_looked=len(place_index(WALK)))
    assert whole.looked_at == 0


def test_the_four_states_are_counted_apart():
    ids = [place.id for place in FIRST.places]
    now = current([answer(ids[0], WELL), answer(ids[1], WRONG, fault_class="mend"), answer(ids[2], UNSEEN), answer(ids[3], NOT_LOOKED)])
    count = tally(FIRST.places, now)
    assert count == Tally(well=1, wrong=1, not_looked=len(ids) - 3, unseen=1)
    assert count.looked_at == 2


def test_the_counts_of_the_stretches_add_up_to_the_walk():
    now = current([answer(place.id, WELL) for place in FIRST.places])
    parts = sum((tally(stretch.places, now) for stretch in WALK), Tally())
    assert parts == tally(place_index(WALK).values(), now)


def test_all_the_rest_stands_only_for_places_of_this_stretch_without_an_answer():
    ids = [place.id for place in FIRST.places]
    rest = the_rest(FIRST, answered=[ids[0], ids[4], "H3-L-foot:post:1"])
    assert [place.id for place in rest] == [*ids[1:4], *ids[5:]]


def test_one_who_said_not_looked_at_is_not_overruled_by_all_the_rest():
    now = current([answer(FIRST.places[0].id, NOT_LOOKED)])
    assert FIRST.places[0] not in the_rest(FIRST, now)


def test_the_rail_shows_what_is_wrong_before_what_was_not_looked_at():
    ids = [place.id for place in FIRST.places]
    wrong = {ids[0]: answer(ids[0], WRONG, fault_class="again"), ids[1]: answer(ids[1], WRONG, fault_class="stop")}
    shown = on_the_rail(FIRST, wrong)
    assert (shown.words, shown.glyph) == ("Something wrong, stop and ask", "stop")


def test_a_stretch_looks_as_built_only_when_every_place_of_it_does():
    now = {place.id: answer(place.id, WELL) for place in FIRST.places}
    assert on_the_rail(FIRST, now).words == "Looks as built"
    last = FIRST.places[-1].id
    assert on_the_rail(FIRST, {**now, last: answer(last, UNSEEN)}).words == "Could not see"
    del now[last]
    assert on_the_rail(FIRST, now).words == "Not looked at"


def test_a_correction_takes_the_place_of_the_answer_it_names():
    first = answer("x", WRONG, fault_class="mend", key="1")
    assert current([first, answer("x", WELL, minute=5, corrects="1")])["x"].state == WELL


def test_two_people_who_differ_are_both_kept_and_the_more_urgent_is_shown():
    ada, gil = answer("x", WELL, minute=9), answer("x", WRONG, who="gil", fault_class="mend")
    assert standing([ada, gil])["x"] == (gil, ada)
    assert current([ada, gil])["x"] == gil
    assert [found.place for found in differences([ada, gil])] == ["x"]


def test_two_people_who_agree_do_not_differ():
    assert differences([answer("x", WELL), answer("x", WELL, who="gil")]) == ()


def test_a_difference_ends_when_one_corrects_the_other():
    ada, gil = answer("x", WELL, minute=9, key="1"), answer("x", WRONG, who="gil", fault_class="mend", key="2")
    settled = [ada, gil, answer("x", WELL, minute=20, corrects="2")]
    assert differences(settled) == ()
    assert current(settled)["x"].state == WELL


def test_one_person_who_answers_twice_leaves_the_newer_answer():
    assert current([answer("x", WELL), answer("x", UNSEEN, minute=1)])["x"].state == UNSEEN


def test_corners_without_a_photo_are_named_in_walking_order():
    assert corners_without_photo([]) == ("tag right", "far right", "far left", "tag left")
    assert corners_without_photo(["far right", "tag left"]) == ("tag right", "far left")


def test_counts_are_said_in_words():
    assert count_words(Tally(1, 1, 9, 1)) == "1 looks as built, 1 wrong, 1 could not see, 9 not looked at"
    assert count_words(Tally(12)) == "12 look as built"
    assert count_words(Tally()) == "nothing to look at"


def test_two_brace_ends_wrong_in_one_corner_are_said_to_be_more_than_each_alone():
    places = place_index(WALK)
    wrong = [answer(place, WRONG, fault_class="mend") for place in ("H2-R-foot:band:1", "H1-R-hip:band:1")]
    assert urgent_together(places, current(wrong[:1])) == ()
    assert urgent_together(places, current(wrong)) == (
        "2 places on braces in one corner (tag right) are wrong, H1-R-hip, H2-R-foot: stop and ask is usual.",
    )


def test_nothing_is_added_where_stop_and_ask_was_chosen_already():
    places = place_index(WALK)
    wrong = [answer(place, WRONG, fault_class="stop") for place in ("H2-R-foot:band:1", "H1-R-hip:band:1")]
    assert urgent_together(places, current(wrong)) == ()


def test_three_clamps_in_a_row_on_one_run_are_said_together():
    row = tuple(joint(f"H{n}-R-purlin:connector:1", n, "right", 90) for n in (1, 2, 3))
    places = place_index(walk_of(small_document(joints=row)))
    wrong = [answer(one.id, WRONG, fault_class="mend") for one in row]
    assert urgent_together(places, current(wrong[:2])) == ()
    assert urgent_together(places, current(wrong)) == (
        "3 clamps in a row are wrong, H1-R-purlin, H2-R-purlin, H3-R-purlin: stop and ask is usual.",
    )
