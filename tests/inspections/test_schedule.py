"""When a walk is due."""

from datetime import date
from itertools import islice

import pytest

from inspections.schedule import DEFAULT_RULES, Rule, RuleError, due, occurrences, read_recurrence

# RFC 5545 (September 2009), section 3.8.5.3: rules and the dates printed there.
PUBLISHED = [
    ("FREQ=DAILY;INTERVAL=10;COUNT=5", "1997-09-02", "1997-09-02 1997-09-12 1997-09-22 1997-10-02 1997-10-12"),
    (
        "FREQ=MONTHLY;BYMONTHDAY=-3", "1997-09-28",
        "1997-09-28 1997-10-29 1997-11-28 1997-12-29 1998-01-29 1998-02-26",
    ),
    (
        "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15", "1997-09-02",
        "1997-09-02 1997-09-15 1997-10-02 1997-10-15 1997-11-02 1997-11-15 1997-12-02 1997-12-15 1998-01-02 1998-01-15",
    ),
    (
        "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1", "1997-09-30",
        "1997-09-30 1997-10-01 1997-10-31 1997-11-01 1997-11-30 1997-12-01 1997-12-31 1998-01-01 1998-01-31 1998-02-01",
    ),
    (
        "FREQ=YEARLY;COUNT=10;BYMONTH=6,7", "1997-06-10",
        "1997-06-10 1997-07-10 1998-06-10 1998-07-10 1999-06-10 1999-07-10 2000-06-10 2000-07-10 2001-06-10 2001-07-10",
    ),
    (
        "FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3", "1997-03-10",
        "1997-03-10 1999-01-10 1999-02-10 1999-03-10 2001-01-10 2001-02-10 2001-03-10 2003-01-10 2003-02-10 2003-03-10",
    ),
    ("FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5", "2007-01-15", "2007-01-15 2007-01-30 2007-02-15 2007-03-15 2007-03-30"),
    ("FREQ=DAILY;BYMONTH=1;UNTIL=19980103", "1998-01-01", "1998-01-01 1998-01-02 1998-01-03"),
]
YEARLY = Rule("yearly", "Yearly walk", "FREQ=YEARLY", "60 minutes", "")
SPRING = Rule("spring", "Spring walk", "FREQ=YEARLY;BYMONTH=4;BYMONTHDAY=4", "30 minutes", "")
FINISHED = date(2024, 5, 2)
KEYS = "write each of FREQ, INTERVAL, COUNT, UNTIL, BYMONTH, BYMONTHDAY once, as KEY=VALUE."


def _said(found):
    return [(one.rule.code, one.on.isoformat(), one.overdue) for one in found]


@pytest.mark.parametrize(("rule", "start", "days"), PUBLISHED)
def test_the_published_examples_fall_on_the_published_days(rule, start, days):
    expected = [date.fromisoformat(day) for day in days.split()]
    assert list(islice(occurrences(read_recurrence(rule), date.fromisoformat(start)), len(expected))) == expected


def test_an_anniversary_of_29_february_is_left_out_where_there_is_none_as_the_standard_has_it():
    days = islice(occurrences(read_recurrence("FREQ=YEARLY"), date(2024, 2, 29)), 2)
    assert list(days) == [date(2024, 2, 29), date(2028, 2, 29)]


def test_a_structure_that_does_not_stand_yet_has_nothing_due():
    assert due(DEFAULT_RULES, None, [], date(2025, 1, 1)) == ()


def test_the_day_it_was_finished_is_not_the_day_of_its_first_walk():
    assert _said(due([YEARLY], FINISHED, [], FINISHED)) == [("yearly", "2025-05-02", False)]


def test_a_day_missed_is_overdue_and_stands_before_what_comes_next():
    assert _said(due([YEARLY], FINISHED, [], date(2025, 5, 3))) == [("yearly", "2025-05-02", True), ("yearly", "2026-05-02", False)]


def test_on_its_own_day_it_is_due_and_not_yet_answered():
    found = due([YEARLY], FINISHED, [], date(2025, 5, 2))
    assert found[0].on == date(2025, 5, 2)


def test_of_several_years_missed_only_the_newest_is_due():
    assert _said(due([YEARLY], FINISHED, [], date(2027, 6, 1))) == [("yearly", "2027-05-02", True), ("yearly", "2028-05-02", False)]


@pytest.mark.parametrize(
    ("walked", "next_on"),
    [("2025-03-17", "2025-05-02"), ("2025-03-18", "2026-05-02"), ("2025-05-01", "2026-05-02")],
)
def test_a_walk_up_to_45_days_early_counts(walked, next_on):
    found = due([YEARLY], FINISHED, [date.fromisoformat(walked)], date(2025, 5, 1))
    assert _said(found) == [("yearly", next_on, False)]


def test_a_walk_made_late_answers_what_was_missed():
    assert _said(due([YEARLY], FINISHED, [date(2025, 7, 1)], date(2025, 7, 2))) == [("yearly", "2026-05-02", False)]


def test_a_spring_walk_a_month_before_the_yearly_one_counts_for_both():
    assert _said(due([SPRING, YEARLY], FINISHED, [date(2026, 4, 4)], date(2026, 4, 5))) == [
        ("spring", "2027-04-04", False), ("yearly", "2027-05-02", False),
    ]


def test_the_same_question_on_a_later_day_never_lists_an_earlier_next_walk():
    days = [date(2025, 1, 1), date(2025, 8, 1), date(2026, 12, 31)]
    nexts = [min(one.on for one in due(DEFAULT_RULES, FINISHED, [], day) if not one.overdue) for day in days]
    assert nexts == sorted(nexts)
    assert all(after > day for after, day in zip(nexts, days, strict=True))


def test_a_rule_that_has_ended_leaves_only_what_was_missed():
    once = Rule("first", "First month", "FREQ=MONTHLY;COUNT=2", "60 minutes", "")
    assert _said(due([once], FINISHED, [], date(2025, 1, 1))) == [("first", "2024-06-02", True)]


def test_the_default_rules_can_be_read():
    assert [read_recurrence(rule.recurrence).frequency for rule in DEFAULT_RULES] == ["YEARLY"] * 3


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", f"'' is no part of a rule here: {KEYS}"),
        ("FREQ=YEARLY;BYDAY=MO", f"'BYDAY=MO' is no part of a rule here: {KEYS}"),
        ("FREQ=WEEKLY", "FREQ is WEEKLY: write one of YEARLY, MONTHLY, DAILY."),
        ("INTERVAL=2", "FREQ is missing: write one of YEARLY, MONTHLY, DAILY."),
        ("FREQ=YEARLY;BYMONTH=13", "BYMONTH is 13: write whole numbers from 1 to 12, without 0."),
        ("FREQ=YEARLY;BYMONTHDAY=0", "BYMONTHDAY is 0: write whole numbers from -31 to 31, without 0."),
        ("FREQ=YEARLY;INTERVAL=x", "INTERVAL is X: write whole numbers from 1 to 1000, without 0."),
        ("FREQ=YEARLY;UNTIL=soon", "UNTIL is SOON: write a day like 20301231."),
        ("FREQ=YEARLY;COUNT=2;UNTIL=20300101", "COUNT and UNTIL stand together: keep one of them."),
    ],
)
def test_a_rule_that_cannot_be_read_is_refused_in_one_sentence(text, sentence):
    with pytest.raises(RuleError) as refused:
        read_recurrence(text)
    assert str(refused.value) == sentence
