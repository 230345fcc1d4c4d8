"""States, classes, the checklist and the life of something wrong."""

import pytest

from inspections.checklist import ITEMS, finding_of, finding_words
from inspections.mending import ASKED, FITTED, LOOKED, SENT, STEPS, TAKEN_BACK, in_order, is_open, next_steps, stand_words
from inspections.places import walk_of
from inspections.states import CLASSES, STATES, shown, urgency
from tests.inspections.small_frame import small_document


def test_every_state_and_class_has_words_and_a_shape_of_its_own():
    assert [word.words for word in STATES] == ["Looks as built", "Something wrong", "Not looked at", "Could not see"]
    assert [word.words for word in CLASSES] == ["Stop and ask", "Mend this week", "Look again"]
    assert len({word.glyph for word in STATES}) == 4
    assert len({word.glyph for word in CLASSES}) == 3


def test_something_wrong_takes_the_shape_of_its_class():
    assert shown("fault", "again").glyph == "again"
    assert shown("fault").glyph == "fault"
    assert shown("well", "").glyph == "well"


def test_what_asks_for_more_ranks_higher():
    ladder = [urgency("fault", one) for one in ("stop", "mend", "again")] + [urgency(one) for one in ("unseen", "not", "well")]
    assert ladder == sorted(ladder, reverse=True)


def test_every_place_of_a_walk_has_its_line_on_the_checklist():
    places = [place for stretch in walk_of(small_document()) for place in stretch.places]
    assert {place.item for place in places} <= set(ITEMS)


@pytest.mark.parametrize(
    ("item", "code"), [("brace-end", "loose-band"), ("brace-end", "lifted-end"), ("film", "dots"), ("clamp", "loose-band")]
)
def test_the_photo_checklist_names_loosened_clamps_lifted_brace_ends_and_film_wear(item, code):
    assert finding_of(item, code) is not None
    assert ITEMS[item].photo


def test_a_finding_suggests_a_class_and_every_line_takes_something_else():
    codes = {word.code for word in CLASSES}
    for item in ITEMS.values():
        assert {finding.suggests for finding in item.findings} <= codes
        assert item.findings[-1].code == "other"


def test_a_finding_is_said_in_words_and_an_old_code_as_itself():
    assert finding_words("lifted-end") == "brace end lifted off its clamp"
    assert finding_words("gone-from-the-list") == "gone-from-the-list"
    assert finding_of("film", "kink") is None


@pytest.mark.parametrize(
    ("steps", "stands"),
    [
        ([ASKED, SENT, FITTED, LOOKED], True), ([ASKED, FITTED, LOOKED], True), ([ASKED, SENT, SENT, FITTED], True),
        ([ASKED, TAKEN_BACK], True), ([ASKED, SENT, FITTED, LOOKED, ASKED], True),
        ([SENT], False), ([ASKED, LOOKED, FITTED], False), ([ASKED, FITTED, TAKEN_BACK], False),
    ],
)
def test_a_request_lives_in_order(steps, stands):
    assert in_order(steps) is stands


def test_every_step_says_where_it_stands_and_whether_it_is_open():
    assert [is_open(step) for step in STEPS] == [True, True, True, False, False]
    assert all(stand_words(step) and next_steps(step) for step in STEPS)
