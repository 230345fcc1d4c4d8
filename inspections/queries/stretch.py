"""What the page of one bay's side or end wall shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from inspections.checklist import ITEMS, Item
from inspections.models import Observation, Photo, Visit
from inspections.places import Place
from inspections.queries.visits import LastTime, Leg, Sheet, last_time, sheet_of
from inspections.states import NOT_LOOKED, Word, shown, state_word


@dataclass(frozen=True, slots=True)
class Row:
    """One place in the list: its state now, whether it is asked for by itself, and whether people differ there."""

    place: Place
    word: Word
    answered: bool
    by_the_rest: bool
    apart: bool
    differs: bool


@dataclass(frozen=True, slots=True)
class Chosen:
    """The place in hand: its line of the checklist, what was recorded today by anybody, last time, and what else sits there."""

    place: Place
    item: Item
    today: tuple[Observation, ...]
    photo: Photo | None
    before: LastTime
    beside: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class StretchPage:
    """Everything on the page of one stretch. `rail` holds the bays of this side in walking order."""

    sheet: Sheet
    leg: Leg
    rail: tuple[Leg, ...]
    back: Leg | None
    on: Leg | None
    rows: tuple[Row, ...]
    rest_count: int
    chosen: Chosen | None


def stretch_page(visit: Visit, key: str, place_id: str = "") -> StretchPage | None:
    """The page of this stretch with that place in hand; None when the structure has no such stretch."""
    sheet = sheet_of(visit)
    leg = sheet.leg(key)
    if leg is None:
        return None
    at = sheet.legs.index(leg)
    side = leg.stretch.side
    return StretchPage(
        sheet=sheet, leg=leg, rail=tuple(other for other in sheet.legs if side and other.stretch.side == side),
        back=sheet.legs[at - 1] if at else None, on=_next(sheet.legs, at), rows=_rows(sheet, leg),
        rest_count=len(sheet.rest_of(leg.stretch)), chosen=_chosen(sheet, leg, place_id),
    )


def _next(legs: Sequence[Leg], at: int) -> Leg | None:
    return legs[at + 1] if at + 1 < len(legs) else None


def _rows(sheet: Sheet, leg: Leg) -> tuple[Row, ...]:
    differ = {one.place for one in sheet.differences}
    given = {str(one.id): one.given for one in sheet.observations}
    rows = []
    for place in leg.stretch.places:
        answer = sheet.now.get(place.id)
        rows.append(
            Row(
                place=place, word=shown(answer.state, answer.fault_class) if answer else state_word(NOT_LOOKED),
                answered=answer is not None, by_the_rest=bool(answer and given[answer.id] == "all the rest"),
                apart=place.id in sheet.asked_apart, differs=place.id in differ,
            )
        )
    return tuple(rows)


def _chosen(sheet: Sheet, leg: Leg, asked: str) -> Chosen | None:
    """The place with this id or, for a location code from the drawing, the first one there without an answer."""
    there = [one for one in leg.stretch.places if asked in (one.id, one.code)]
    if not there:
        return None
    place = next((one for one in there if one.id not in sheet.now), there[0])
    return Chosen(
        place=place, item=ITEMS[place.item], today=tuple(one for one in sheet.observations if one.place == place.id),
        photo=sheet.photo_of(place.id), before=last_time(sheet.visit, place.id),
        beside=tuple(one for one in leg.stretch.places if one.code == place.code and one.id != place.id),
    )
