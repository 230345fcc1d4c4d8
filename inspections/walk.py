"""What a walk has answered and what it has not: counts, the current answer of each place, and where two people differ.

Nothing counts as looked at that was not: a place without an answer is "not looked at", whatever stands around it.
Pure: no Django.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from inspections.places import CORNERS, Place, Stretch
from inspections.states import NOT_LOOKED, STOP, UNSEEN, WELL, WRONG, Word, shown, state_word, urgency


@dataclass(frozen=True, slots=True)
class Answer:
    """One recorded observation. `corrects` is the id of the one that it takes the place of, "" when it is the first."""

    id: str
    place: str
    state: str
    fault_class: str
    who: str
    at: datetime
    corrects: str = ""


@dataclass(frozen=True, slots=True)
class Difference:
    """Two or more people left different answers at one place; both stay until one of them corrects theirs."""

    place: str
    answers: tuple[Answer, ...]


@dataclass(frozen=True, slots=True)
class Tally:
    """How many places of a stretch, or of a whole walk, are in each of the four states."""

    well: int = 0
    wrong: int = 0
    not_looked: int = 0
    unseen: int = 0

    @property
    def total(self) -> int:
        return self.well + self.wrong + self.not_looked + self.unseen

    @property
    def looked_at(self) -> int:
        """Places that a person looked at and saw."""
        return self.well + self.wrong

    def __add__(self, other: Tally) -> Tally:
        return Tally(
            self.well + other.well, self.wrong + other.wrong,
            self.not_looked + other.not_looked, self.unseen + other.unseen,
        )


def standing(answers: Iterable[Answer]) -> dict[str, tuple[Answer, ...]]:
    """For each place the answers that stand: each person's newest that nobody has corrected, oldest first."""
    known = list(answers)
    taken_back = {answer.corrects for answer in known if answer.corrects}
    newest: dict[tuple[str, str], Answer] = {}
    for answer in sorted(known, key=lambda one: (one.at, one.id)):
        if answer.id not in taken_back:
            newest[(answer.place, answer.who)] = answer
    found: dict[str, tuple[Answer, ...]] = {}
    for answer in sorted(newest.values(), key=lambda one: (one.at, one.id)):
        found[answer.place] = (*found.get(answer.place, ()), answer)
    return found


def current(answers: Iterable[Answer]) -> dict[str, Answer]:
    """The answer shown for each place: where people differ, the one that asks for most until they have settled it."""
    return {
        place: max(stand, key=lambda one: (urgency(one.state, one.fault_class), one.at))
        for place, stand in standing(answers).items()
    }


def differences(answers: Iterable[Answer]) -> tuple[Difference, ...]:
    """The places at which answers of different people stand that do not say the same, in order of place id."""
    return tuple(
        Difference(place, stand)
        for place, stand in sorted(standing(answers).items())
        if len({(one.state, one.fault_class) for one in stand}) > 1
    )


def tally(places: Iterable[Place], now: Mapping[str, Answer]) -> Tally:
    """Count the states of these places; one without an answer is not looked at."""
    count = dict.fromkeys((WELL, WRONG, NOT_LOOKED, UNSEEN), 0)
    for place in places:
        count[now[place.id].state if place.id in now else NOT_LOOKED] += 1
    return Tally(count[WELL], count[WRONG], count[NOT_LOOKED], count[UNSEEN])


def on_the_rail(stretch: Stretch, now: Mapping[str, Answer]) -> Word:
    """What stands for a whole stretch: what is wrong first, then what was not looked at, then what could not be seen."""
    wrong = [now[place.id] for place in stretch.places if place.id in now and now[place.id].state == WRONG]
    if wrong:
        worst = max(wrong, key=lambda one: urgency(one.state, one.fault_class))
        return shown(worst.state, worst.fault_class)
    count = tally(stretch.places, now)
    if count.not_looked:
        return state_word(NOT_LOOKED)
    return state_word(UNSEEN if count.unseen else WELL)


def the_rest(stretch: Stretch, answered: Iterable[str]) -> tuple[Place, ...]:
    """What "all the rest looks as built" stands for here: the places of this stretch that have no answer yet.

    A place that somebody said was not looked at, or could not be seen, has an answer and is left as it is.
    """
    done = set(answered)
    return tuple(place for place in stretch.places if place.id not in done)


def corners_without_photo(taken: Iterable[str]) -> tuple[str, ...]:
    """The corners that have no photo in this visit, in walking order."""
    have = set(taken)
    return tuple(corner for corner in CORNERS if corner not in have)


def count_words(count: Tally) -> str:
    """The counts in one line: "1 looks as built, 1 wrong, 1 could not see, 9 not looked at"; a zero is left out."""
    words = (
        (count.well, "looks as built" if count.well == 1 else "look as built"), (count.wrong, "wrong"),
        (count.unseen, "could not see"), (count.not_looked, "not looked at"),
    )
    return ", ".join(f"{number} {word}" for number, word in words if number) or "nothing to look at"


def urgent_together(places: Mapping[str, Place], now: Mapping[str, Answer]) -> tuple[str, ...]:
    """Findings that the trade takes more seriously together than apart, as sentences; empty when there are none.

    Common practice: two brace ends in one corner, or three clamps in a row on one run, mean stop and ask.
    """
    wrong = [places[one.place] for one in now.values() if one.state == WRONG and one.place in places]
    stop = {one.place for one in now.values() if one.state == WRONG and one.fault_class == STOP}
    said = []
    braces = sorted((place for place in wrong if place.corner and place.item in ("brace", "brace-end")), key=lambda p: p.corner)
    for corner, group in groupby(braces, key=lambda place: place.corner):
        found = list(group)
        if len(found) > 1 and not all(place.id in stop for place in found):
            codes = ", ".join(sorted({place.code for place in found}))
            said.append(f"{len(found)} places on braces in one corner ({corner}) are wrong, {codes}: stop and ask is usual.")
    said.extend(_in_a_row(wrong))
    return tuple(said)


def _in_a_row(wrong: Iterable[Place]) -> Iterable[str]:
    lines: dict[str, list[Place]] = {}
    for place in wrong:
        if place.item == "clamp" and place.code.startswith("H"):
            lines.setdefault(place.code.split("-", 1)[1], []).append(place)
    for run, found in sorted(lines.items()):
        hoops = sorted({int(place.code[1:].split("-", 1)[0]) for place in found})
        if any(hoops[i + 2] - hoops[i] == 2 for i in range(len(hoops) - 2)):
            listed = ", ".join(f"H{hoop}-{run}" for hoop in hoops)
            yield f"{len(hoops)} clamps in a row are wrong, {listed}: stop and ask is usual."
