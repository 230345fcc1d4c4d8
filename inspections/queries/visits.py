"""Questions about walks: what is looked at, what was answered, what is due."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from zoneinfo import ZoneInfo, available_timezones

from django.db.models import Count, Prefetch, Q, QuerySet

from inspections.mending import OPEN
from inspections.models import FaultRequest, Observation, Photo, Visit, WalkRule
from inspections.places import Change, Place, Stretch, place_index, walk_of
from inspections.schedule import Due, due
from inspections.states import ANNUAL, STORM, WRONG, Word
from inspections.walk import (
    Answer,
    Difference,
    Tally,
    corners_without_photo,
    current,
    differences,
    on_the_rail,
    tally,
    the_rest,
    urgent_together,
)
from structures.access import structures_of
from structures.models import Structure, User


def walk_at(structure: Structure) -> tuple[Stretch, ...]:
    """Everything that is looked at on this structure; nothing when it is known only from its tag. One query."""
    if structure.design is None:
        return ()
    changes = [Change(change.act, change.place, change.words, change.seen_on) for change in structure.changes.all()]
    return walk_of(structure.design.read(), changes, structure.end_names)


def zone_of(structure: Structure) -> ZoneInfo:
    """The structure's own time zone, by which its times are shown; UTC for a name that is none."""
    return ZoneInfo(structure.zone if structure.zone in available_timezones() else "UTC")


@dataclass(frozen=True, slots=True)
class Leg:
    """One stretch of a walk with what was answered there."""

    stretch: Stretch
    count: Tally
    word: Word


@dataclass(frozen=True)
class Sheet:
    """A visit as it stands: its stretches, the answers that count, the differences, the photos."""

    visit: Visit
    legs: tuple[Leg, ...]
    places: dict[str, Place]
    now: dict[str, Answer]
    observations: tuple[Observation, ...]
    differences: tuple[Difference, ...]
    photos: tuple[Photo, ...]
    asked_apart: frozenset[str]
    whole: Tally = field(default_factory=Tally)

    def leg(self, key: str) -> Leg | None:
        """The leg of that stretch; None when this structure has no such stretch."""
        return next((leg for leg in self.legs if leg.stretch.key == key), None)

    def observation(self, answer: Answer) -> Observation:
        """The row behind an answer."""
        return next(one for one in self.observations if str(one.id) == answer.id)

    def rest_of(self, stretch: Stretch) -> tuple[Place, ...]:
        """What "all the rest looks as built" stands for here."""
        return the_rest(stretch, self.now.keys() | self.asked_apart)

    def photo_of(self, place: str) -> Photo | None:
        """Today's newest photo of a place."""
        return next((photo for photo in reversed(self.photos) if photo.place == place), None)

    def corner_photo(self, corner: str) -> Photo | None:
        """Today's newest photo of a corner."""
        return next((photo for photo in reversed(self.photos) if photo.corner == corner), None)

    @property
    def corners_missing(self) -> tuple[str, ...]:
        """The corners without a photo."""
        return corners_without_photo(photo.corner for photo in self.photos if photo.corner)

    @property
    def together(self) -> tuple[str, ...]:
        """Findings that are taken more seriously together."""
        return urgent_together(self.places, self.now)

    @property
    def unknown_places(self) -> tuple[Observation, ...]:
        """Observations at places that the walk no longer has, after an as-built change: kept and shown apart."""
        return tuple(one for one in self.observations if one.place not in self.places)


def sheet_of(visit: Visit) -> Sheet:
    """The visit with everything recorded on it. Five queries, however much that is."""
    stretches = walk_at(visit.structure)
    observations = tuple(visit.observations.select_related("who"))
    answers = [one.answer for one in observations]
    now, places = current(answers), place_index(stretches)
    legs = tuple(Leg(stretch, tally(stretch.places, now), on_the_rail(stretch, now)) for stretch in stretches)
    return Sheet(
        visit=visit, legs=legs, places=places, now=now, observations=observations, differences=differences(answers),
        photos=tuple(visit.photos.select_related("who")), asked_apart=asked_apart(visit.structure),
        whole=sum((leg.count for leg in legs), Tally()),
    )


def asked_apart(structure: Structure) -> frozenset[str]:
    """Places with something wrong that is not settled: never answered by "all the rest". One query."""
    return frozenset(FaultRequest.objects.filter(structure=structure).open().values_list("place", flat=True))


@dataclass(frozen=True, slots=True)
class LastTime:
    """What was recorded and photographed at a place, or a corner, on the newest visit before this one."""

    observation: Observation | None
    photo: Photo | None


def last_time(visit: Visit, place: str) -> LastTime:
    """The newest observation and the newest photo of this place from other visits to the structure. Two queries."""
    earlier = Q(visit__structure=visit.structure) & ~Q(visit=visit) & Q(place=place)
    return LastTime(
        Observation.objects.filter(earlier).select_related("visit", "who").order_by("-server_at").first(),
        Photo.objects.filter(earlier).select_related("visit").order_by("-server_at").first(),
    )


def last_corner_photos(visit: Visit) -> dict[str, Photo]:
    """For each corner the newest photo from other visits to the structure. One query."""
    found = Photo.objects.filter(visit__structure=visit.structure).exclude(visit=visit).exclude(corner="").order_by("server_at")
    return {photo.corner: photo for photo in found.select_related("visit")}


def others_on(visit: Visit, user: User) -> list[str]:
    """Who else has recorded something on this visit, by name. One query."""
    rows = visit.observations.exclude(who=user).values_list("who__first_name", "who__last_name", "who__username").distinct().order_by()
    return sorted({f"{first} {last}".strip() or username for first, last, username in rows})


def waiting_visits() -> QuerySet[Visit]:
    """Every visit that is due or under way, overdue first."""
    return Visit.objects.waiting().select_related("structure", "storm", "rule", "who").overdue_first()


def visits_of(structure: Structure) -> QuerySet[Visit]:
    """Every visit of a structure, with how much was recorded, newest first."""
    return (
        Visit.objects.filter(structure=structure).select_related("who", "storm", "rule")
        .annotate(photo_count=Count("photos", distinct=True)).order_by("-started_server_at", "due_on")
    )


def rules_in_force() -> list[WalkRule]:
    """The rules that the owner has switched on."""
    return list(WalkRule.objects.filter(active=True))


def due_of(structure: Structure, rules: Iterable[WalkRule], walked: Iterable[date], today: date) -> tuple[Due, ...]:
    """What is due for a structure by these rules."""
    return due([rule.rule for rule in rules], structure.finished_on, walked, today)


def walked_days(structure: Structure) -> list[date]:
    """The days on which a full walk of this structure was finished, in its own time zone. One query."""
    zone = zone_of(structure)
    ends = Visit.objects.filter(structure=structure, kind=ANNUAL).finished().values_list("finished_server_at", flat=True)
    return [end.astimezone(zone).date() for end in ends]


@dataclass(frozen=True, slots=True)
class Mine:
    """One structure on a grower's first page."""

    structure: Structure
    now: tuple[Visit, ...]
    later: tuple[Due, ...]
    last: Visit | None
    last_sheet: Sheet | None
    open_requests: tuple[FaultRequest, ...]


def my_structures(user: User, today: date) -> list[Mine]:
    """Each structure that this person sees with what is due, what comes next and the last visit, in a fixed number of queries."""
    rows = list(
        structures_of(user).select_related("design__family").prefetch_related(
            "changes",
            Prefetch("visits", Visit.objects.waiting().select_related("storm", "rule").overdue_first(), to_attr="waiting"),
            Prefetch(
                "visits", Visit.objects.finished().select_related("storm").order_by("finished_server_at"), to_attr="made"
            ),
            Prefetch("fault_requests", FaultRequest.objects.with_last_step().filter(last_step__in=OPEN), to_attr="open_requests"),
        )
    )
    rules = rules_in_force()
    newest = [row.made[-1].pk for row in rows if row.made]
    seen: dict[object, list[Observation]] = {}
    for one in Observation.objects.filter(visit__in=newest).select_related("who"):
        seen.setdefault(one.visit_id, []).append(one)
    return [_mine(row, rules, seen, today) for row in rows]


def _mine(row: Structure, rules: list[WalkRule], seen: dict[object, list[Observation]], today: date) -> Mine:
    zone = zone_of(row)
    walked = [one.finished_server_at.astimezone(zone).date() for one in row.made if one.kind == ANNUAL]
    now = tuple(sorted((one for one in row.waiting if is_now(one, today)), key=_pressing))
    later = not_planned(due_of(row, rules, walked, today), now)
    last = row.made[-1] if row.made else None
    sheet = _light_sheet(row, last, seen.get(last.pk, [])) if last else None
    return Mine(row, now, later, last, sheet, tuple(row.open_requests))


def is_now(visit: Visit, today: date) -> bool:
    """Whether somebody should be walking: it is under way, has no day, or its day has come."""
    return visit.is_started or visit.due_on is None or visit.due_on <= today


def not_planned(dues: Iterable[Due], planned: Iterable[Visit]) -> tuple[Due, ...]:
    """What the rules ask for beside the visits that are put down already."""
    have = {(visit.rule.code, visit.due_on) for visit in planned if visit.rule}
    return tuple(one for one in dues if (one.rule.code, one.on) not in have)


def _pressing(visit: Visit) -> tuple[bool, bool, date]:
    """Under way first, then what a storm asks for, then by day."""
    return (not visit.is_started, visit.kind != STORM, visit.due_on or date.max)


def _light_sheet(structure: Structure, visit: Visit, observations: list[Observation]) -> Sheet:
    """The counts of a visit from rows already fetched, without its photos."""
    stretches = walk_at(structure)
    now = current(one.answer for one in observations)
    legs = tuple(Leg(stretch, tally(stretch.places, now), on_the_rail(stretch, now)) for stretch in stretches)
    return Sheet(
        visit=visit, legs=legs, places=place_index(stretches), now=now, observations=tuple(observations), differences=(), photos=(),
        asked_apart=frozenset(), whole=sum((leg.count for leg in legs), Tally()),
    )


def wrong_in(sheet: Sheet) -> list[tuple[Place | None, Observation]]:
    """What is wrong on a visit, most urgent first, with its place."""
    found = [sheet.observation(answer) for answer in sheet.now.values() if answer.state == WRONG]
    rank = {"stop": 0, "mend": 1, "again": 2}
    return [(sheet.places.get(one.place), one) for one in sorted(found, key=lambda one: (rank[one.fault_class], one.place))]
