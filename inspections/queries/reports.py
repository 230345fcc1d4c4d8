"""A visit as it is shown and printed afterwards: what was seen, what was not looked at, what could not be seen."""

from __future__ import annotations

from dataclasses import dataclass
from zoneinfo import ZoneInfo

from inspections.models import FaultRequest, Observation, Photo, Visit
from inspections.models.visits import ALL_THE_REST
from inspections.places import CORNERS, Place
from inspections.queries.visits import Sheet, sheet_of, wrong_in, zone_of
from inspections.states import NOT_LOOKED, UNSEEN, WELL

SENTENCE = "This is what was seen from the ground that day; it says nothing of what the structure will bear."


@dataclass(frozen=True, slots=True)
class Wrong:
    """Something wrong with its place, its photos and where its request stands."""

    observation: Observation
    place: Place | None
    photos: tuple[Photo, ...]
    request: FaultRequest | None


@dataclass(frozen=True, slots=True)
class Group:
    """The places of one stretch that are in one state. `by_the_rest` counts those answered by that button."""

    words: str
    places: tuple[Place, ...]
    by_the_rest: int


@dataclass(frozen=True, slots=True)
class Apart:
    """A place at which people left different answers, each with its row."""

    place: str
    words: str
    observations: tuple[Observation, ...]


@dataclass(frozen=True, slots=True)
class Report:
    """One visit, read once, for the page and for paper."""

    visit: Visit
    sheet: Sheet
    zone: ZoneInfo
    wrong: tuple[Wrong, ...]
    well: tuple[Group, ...]
    not_looked: tuple[Group, ...]
    unseen: tuple[Group, ...]
    apart: tuple[Apart, ...]
    corners: tuple[tuple[str, tuple[Photo, ...]], ...]
    other_photos: tuple[Photo, ...]
    sentence: str = SENTENCE

    @property
    def one_by_one(self) -> tuple[Observation, ...]:
        """Every observation but those by "all the rest", oldest first."""
        return tuple(one for one in self.sheet.observations if one.given != ALL_THE_REST or one.pk in self.taken_back)

    @property
    def by_the_rest_count(self) -> int:
        """How many answers came by "all the rest"."""
        return sum(one.given == ALL_THE_REST for one in self.sheet.observations)

    @property
    def taken_back(self) -> frozenset[object]:
        """The ids of the observations that a newer one corrects."""
        return frozenset(one.corrects_id for one in self.sheet.observations if one.corrects_id)


def report_of(visit: Visit) -> Report:
    """Everything recorded on a visit. A fixed number of queries."""
    sheet = sheet_of(visit)
    requests = {
        one.place: one for one in FaultRequest.objects.filter(structure=visit.structure).with_last_step().order_by("made_at")
    }
    rows = wrong_in(sheet)
    wrong = tuple(
        Wrong(one, place, tuple(photo for photo in sheet.photos if photo.place == one.place), requests.get(one.place))
        for place, one in rows
    )
    shown = {one.observation.place for one in wrong}
    return Report(
        visit=visit, sheet=sheet, zone=zone_of(visit.structure), wrong=wrong, well=_groups(sheet, WELL),
        not_looked=_groups(sheet, NOT_LOOKED), unseen=_groups(sheet, UNSEEN), apart=_apart(sheet),
        corners=tuple((corner, tuple(photo for photo in sheet.photos if photo.corner == corner)) for corner in CORNERS),
        other_photos=tuple(photo for photo in sheet.photos if photo.place and photo.place not in shown),
    )


def _groups(sheet: Sheet, state: str) -> tuple[Group, ...]:
    given = {str(one.id): one.given for one in sheet.observations}
    groups = []
    for leg in sheet.legs:
        now = {place.id: sheet.now.get(place.id) for place in leg.stretch.places}
        places = tuple(place for place in leg.stretch.places if (now[place.id].state if now[place.id] else NOT_LOOKED) == state)
        rest = sum(1 for place in places if now[place.id] and given[now[place.id].id] == ALL_THE_REST)
        if places:
            groups.append(Group(leg.stretch.words, places, rest))
    return tuple(groups)


def _apart(sheet: Sheet) -> tuple[Apart, ...]:
    rows = {str(one.id): one for one in sheet.observations}
    return tuple(
        Apart(one.place, sheet.places[one.place].words if one.place in sheet.places else "", tuple(rows[a.id] for a in one.answers))
        for one in sheet.differences
    )
