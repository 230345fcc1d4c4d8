"""When a structure is due to be walked round: rules of recurrence, what is overdue, what comes next.

A rule is written in the words of RFC 5545, section 3.3.10, of which this reads the days of a year or month: FREQ
(YEARLY, MONTHLY, DAILY), INTERVAL, COUNT, UNTIL, BYMONTH and BYMONTHDAY. A rule starts on the day that the structure
was finished, and that day is not an occurrence unless the rule makes it one. The day of asking is an argument:
nothing here reads a clock. Pure: no Django.
"""

from __future__ import annotations

import calendar
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import count, islice, takewhile

_FREQUENCIES = ("YEARLY", "MONTHLY", "DAILY")
_KEYS = ("FREQ", "INTERVAL", "COUNT", "UNTIL", "BYMONTH", "BYMONTHDAY")
_LAST_YEAR = 2200
EARLY = timedelta(days=45)


class RuleError(ValueError):
    """The words are no rule that is read here."""


@dataclass(frozen=True, slots=True)
class Recurrence:
    """A rule read. `months` and `month_days` are empty where the rule takes them from its first day."""

    frequency: str
    interval: int = 1
    count: int | None = None
    until: date | None = None
    months: tuple[int, ...] = ()
    month_days: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Rule:
    """A walk that comes back: what it is called, when, how long it takes and what it is about."""

    code: str
    name: str
    recurrence: str
    minutes: str
    about: str


@dataclass(frozen=True, slots=True)
class Due:
    """One walk that is due on a day. `overdue` is true when that day has passed without a walk."""

    rule: Rule
    on: date
    overdue: bool


DEFAULT_RULES = (
    Rule("spring", "Spring walk", "FREQ=YEARLY;BYMONTH=4;BYMONTHDAY=4", "30 minutes",
         "Before the sides open: posts after the frost, base boards, channel."),
    Rule("yearly", "Yearly walk", "FREQ=YEARLY", "60 minutes", "Every place, both hands on each brace."),
    Rule("autumn", "Autumn walk", "FREQ=YEARLY;BYMONTH=10;BYMONTHDAY=15", "45 to 60 minutes",
         "Before snow and wind: every place."),
)


def read_recurrence(text: str) -> Recurrence:
    """Read "FREQ=YEARLY;BYMONTH=4;BYMONTHDAY=4". Raises `RuleError` with one sentence."""
    parts: dict[str, str] = {}
    for piece in text.strip().upper().split(";"):
        key, equals, value = piece.partition("=")
        if not equals or key not in _KEYS or key in parts:
            raise RuleError(f"{piece!r} is no part of a rule here: write each of {', '.join(_KEYS)} once, as KEY=VALUE.")
        parts[key] = value
    if parts.get("FREQ") not in _FREQUENCIES:
        raise RuleError(f"FREQ is {parts.get('FREQ', 'missing')}: write one of {', '.join(_FREQUENCIES)}.")
    if "COUNT" in parts and "UNTIL" in parts:
        raise RuleError("COUNT and UNTIL stand together: keep one of them.")
    return Recurrence(
        frequency=parts["FREQ"],
        interval=_numbers(parts, "INTERVAL", 1, 1000)[0] if "INTERVAL" in parts else 1,
        count=_numbers(parts, "COUNT", 1, 10000)[0] if "COUNT" in parts else None,
        until=_day(parts["UNTIL"]) if "UNTIL" in parts else None,
        months=tuple(sorted(_numbers(parts, "BYMONTH", 1, 12))),
        month_days=_numbers(parts, "BYMONTHDAY", -31, 31),
    )


def _numbers(parts: dict[str, str], key: str, least: int, most: int) -> tuple[int, ...]:
    if key not in parts:
        return ()
    try:
        found = tuple(int(word) for word in parts[key].split(","))
    except ValueError:
        found = (0,)
    if any(number == 0 or not least <= number <= most for number in found):
        raise RuleError(f"{key} is {parts[key]}: write whole numbers from {least} to {most}, without 0.")
    return found


def _day(text: str) -> date:
    try:
        return date(int(text[:4]), int(text[4:6]), int(text[6:8]))
    except ValueError:
        raise RuleError(f"UNTIL is {text}: write a day like 20301231.") from None


def occurrences(rule: Recurrence, start: date) -> Iterator[date]:
    """The days of a rule from `start` on, in order. A day that a month lacks is left out, as RFC 5545 has it."""
    days = _from(rule, start)
    if rule.until is not None:
        until = rule.until
        days = takewhile(lambda day: day <= until, days)
    return islice(days, rule.count)


def _from(rule: Recurrence, start: date) -> Iterator[date]:
    for period in _periods(rule, start):
        yield from (day for day in period if day >= start)


def _periods(rule: Recurrence, start: date) -> Iterator[Sequence[date]]:
    if rule.frequency == "DAILY":
        last = date(_LAST_YEAR, 1, 1)
        for step in count(0, rule.interval):
            day = start + timedelta(days=step)
            if day > last:
                return
            yield [day] if _fits(rule, day) else []
    elif rule.frequency == "MONTHLY":
        for step in range(start.year * 12 + start.month - 1, _LAST_YEAR * 12, rule.interval):
            year, month = divmod(step, 12)
            fits = not rule.months or month + 1 in rule.months
            yield _month(year, month + 1, rule.month_days or (start.day,)) if fits else []
    else:
        for year in range(start.year, _LAST_YEAR, rule.interval):
            # BYMONTHDAY alone speaks of every month of the year; without either the anniversary is meant.
            months = rule.months or (tuple(range(1, 13)) if rule.month_days else (start.month,))
            yield [day for month in months for day in _month(year, month, rule.month_days or (start.day,))]


def _fits(rule: Recurrence, day: date) -> bool:
    if rule.months and day.month not in rule.months:
        return False
    return not rule.month_days or day in _month(day.year, day.month, rule.month_days)


def _month(year: int, month: int, month_days: Iterable[int]) -> list[date]:
    length = calendar.monthrange(year, month)[1]
    days = {day if day > 0 else length + 1 + day for day in month_days}
    return [date(year, month, day) for day in sorted(days) if 1 <= day <= length]


def due(rules: Iterable[Rule], finished_on: date | None, walked: Iterable[date], today: date) -> tuple[Due, ...]:
    """What is due for one structure, overdue first and then by day; nothing for one that does not stand yet.

    `walked` are the days on which a full walk was finished. One up to 45 days before a due day counts for it.
    Of several days missed only the newest is due: a walk not made in 2024 can't be made good any more.
    """
    if finished_on is None:
        return ()
    done = sorted(walked)
    found = [one for rule in rules for one in _due_of(rule, finished_on, done, today)]
    return tuple(sorted(found, key=lambda one: (not one.overdue, one.on, one.rule.code)))


def _due_of(rule: Rule, finished_on: date, done: Sequence[date], today: date) -> Iterator[Due]:
    missed: date | None = None
    for day in occurrences(read_recurrence(rule.recurrence), finished_on):
        if day == finished_on:
            continue
        answered = any(day - EARLY <= walked for walked in done)
        if day > today and not answered:
            if missed is not None:
                yield Due(rule, missed, overdue=True)
            yield Due(rule, day, overdue=False)
            return
        missed = None if answered else day
    if missed is not None:
        yield Due(rule, missed, overdue=True)
