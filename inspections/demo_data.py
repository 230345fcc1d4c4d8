"""What stands in the demo: structures with their growers, a year of storms, walks with their photos, things wrong.

Everything is invented. The photos are drawn and say so. What is past is dated in the past, which no page can do.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from django.db import transaction
from django.utils import timezone

from inspections.actions.observations import keep_photo
from inspections.actions.requests import after_observation
from inspections.actions.visits import plan_annual
from inspections.actions.weather import enter_storm
from inspections.models import Observation, Storm, Visit, WalkRule
from inspections.models.visits import ALL_THE_REST
from inspections.places import CORNERS, place_index
from inspections.queries.visits import walk_at, zone_of
from inspections.schedule import DEFAULT_RULES
from inspections.stand_ins import stand_in
from inspections.states import ANNUAL, NOT_LOOKED, UNSEEN, WELL, WRONG
from structures.actions.designs import freeze_design
from structures.actions.people import let_belong
from structures.actions.structures import append_change
from structures.frame.choose import choose
from structures.models import Event, FamilyRevision, Structure, User
from structures.photos import take_in
from structures.queries.families import family_of


@dataclass(frozen=True, slots=True)
class Standing:
    """A structure of the demo and whose it is. One that its order brought already only gets what is missing."""

    tag: str
    name: str
    grower: str
    town: str
    place: str
    order: str
    family: str
    revision: str
    length_ft: int
    finished_on: date


STANDING = (
    Standing("T-0412", "Long field", "grower", "Quillmere", "Quillmere Croft", "1207", "G26", "D", 48, date(2024, 5, 2)),
    Standing("T-0388", "Orchard end", "grower", "Alder Ford", "Quillmere Croft", "877", "G20", "A", 48, date(2017, 6, 9)),
    Standing("T-0431", "Seedling house", "grower2", "Alder Ford", "Sallow Bank", "1180", "R14", "A", 40, date(2023, 9, 18)),
)

# Others that their orders brought: the day on which each was finished. Nobody of the demo's people belongs to them.
FINISHED = {
    "T-0231": date(2017, 5, 27), "T-0305": date(2020, 5, 8), "T-0340": date(2021, 4, 2), "T-0405": date(2024, 3, 30),
    "T-0415": date(2024, 5, 11), "T-0417": date(2024, 5, 25),
}

# The climate year: month, day, kind, gust, snow, hail, towns, source, note.
STORMS: tuple[tuple[int, int, str, int | None, float | None, float | None, str, str], ...] = (
    (11, 14, "wet snow", None, 9, None, "a snow stake at Quillmere Croft", "Wet, 4 in. to one of water."),
    (1, 22, "snow", None, 14, None, "a snow stake at Quillmere Croft", "0.8 in. of rain fell on it."),
    (3, 9, "wind", 61, None, None, "the mast at Alder Ford", ""),
    (4, 3, "thaw", None, None, None, "Ada Quill", "Posts were up 3/8 to 1 1/4 in. at several farms."),
    (7, 11, "hail", 52, None, 1, "the mast at Alder Ford", ""),
    (9, 30, "wind", 44, None, None, "the mast at Alder Ford", "70 mph had been forecast."),
)
TOWNS = ("Quillmere", "Alder Ford")


def load(say: Callable[[str], None]) -> None:
    """Add what is missing. A structure that has visits, and a list of storms that has any, stay as they are."""
    today = timezone.localdate()
    _rules()
    standing = [_standing(one) for one in STANDING]
    say(f"structures: {len(standing)} standing")
    _finish_the_others(today)
    owner = User.objects.get(username="owner")
    if not Storm.objects.exists():
        _storms(today, owner)
        say(f"storms: {Storm.objects.count()}")
    for structure, one in zip(standing, STANDING, strict=True):
        if not Observation.objects.filter(visit__structure=structure).exists():
            say(f"walks of {structure.tag}")
            _walks(structure, User.objects.get(username=one.grower), today)
        plan_annual(structure, today=today, by=None)


def _finish_the_others(today: date) -> None:
    """Before the storms come, which pass over what is still in parcels."""
    for other in Structure.objects.filter(tag__in=FINISHED, finished_on__isnull=True):
        if _changed_by_a_person(other):
            continue
        other.finished_on = FINISHED[other.tag]
        other.save(update_fields=["finished_on"])
        plan_annual(other, today=today, by=None)


def _rules() -> None:
    """The rules that every installation starts with, where none are left."""
    if not WalkRule.objects.exists():
        for rule in DEFAULT_RULES:
            WalkRule.objects.create(
                code=rule.code, name=rule.name, recurrence=rule.recurrence, minutes=rule.minutes, about=rule.about
            )


@transaction.atomic
def _standing(one: Standing) -> Structure:
    """The structure as its order left it, or made here when no order brought it, with its grower."""
    structure = Structure.objects.filter(tag=one.tag).first()
    if structure is None:
        revision = FamilyRevision.objects.get(code=one.family, revision=one.revision)
        design = freeze_design(revision, choose(family_of(revision), length_in=12.0 * one.length_ft), by=None)
        structure = Structure.objects.create(
            tag=one.tag, name=one.name, town=one.town, place=one.place, order_number=one.order, design=design,
            finished_on=one.finished_on,
        )
    elif structure.finished_on is None and not _changed_by_a_person(structure):
        structure.name, structure.finished_on, structure.town = one.name, one.finished_on, structure.town or one.town
        structure.save(update_fields=["name", "finished_on", "town"])
    if not structure.belongings.exists():
        grower = User.objects.get(username=one.grower)
        let_belong(grower, structure, since=one.finished_on, by=None)
    return structure


def _changed_by_a_person(structure: Structure) -> bool:
    return Event.objects.filter(about=f"structure {structure.tag}", verb="changed").exists()


def _storms(today: date, owner: User) -> None:
    """The six storms of the year that ended today."""
    for month, day, kind, gust, snow, hail, source, note in STORMS:
        on = date(today.year, month, day)
        on = on if on <= today else on.replace(year=today.year - 1)
        values = {"kind": kind, "on": on, "gust_mph": gust, "snow_in": snow, "hail_in": hail, "source": source, "note": note}
        enter_storm(values, TOWNS, by=owner)


def _walks(structure: Structure, grower: User, today: date) -> None:
    """Walks made in the past year: every storm but the newest, and the spring walk before them."""
    due = list(structure.visits.filter(storm__isnull=False).order_by("due_on"))
    spring = WalkRule.objects.filter(code="spring").first()
    last_spring = date(today.year if today >= date(today.year, 4, 10) else today.year - 1, 4, 4)
    if spring and structure.finished_on and structure.finished_on < last_spring:
        visit = Visit.objects.create(
            structure=structure, kind=ANNUAL, rule=spring, due_on=last_spring, title=spring.name,
            why=f"{spring.minutes}. {spring.about}",
        )
        _walk(visit, grower, last_spring, {})
    for visit in due[:-1]:
        when = visit.due_on + timedelta(days=1)
        _walk(visit, grower, when, _found(structure, visit, last=visit == due[-2]))
    if structure.tag == "T-0412":
        _as_built(structure, grower)


def _found(structure: Structure, visit: Visit, *, last: bool) -> dict[str, tuple[str, str, str, str]]:
    """What was found on this walk beside "looks as built": place to state, class, what and note."""
    if structure.tag == "T-0388":
        thaw = visit.storm.kind == "thaw"
        left = [place.id for place in place_index(walk_at(structure)).values() if place.stretch.endswith("-L")][:22]
        return {place: (NOT_LOOKED, "", "", "") for place in left} if thaw else {}
    if structure.tag != "T-0412" or not last:
        return {}
    return {
        "H3-R-foot:band:1": (WRONG, "mend", "lifted-end", "Lifted off the clamp, the bolt is still there."),
        "H7-ridge:hoop:1": (UNSEEN, "", "", "Fogged film."),
        "H12-L-foot:post:1": (NOT_LOOKED, "", "", ""), "H12-L-foot:bolt:1": (NOT_LOOKED, "", "", ""),
        "B12-L-hip:channel:1": (NOT_LOOKED, "", "", ""),
    }


@transaction.atomic
def _walk(visit: Visit, who: User, day: date, found: dict[str, tuple[str, str, str, str]]) -> None:
    """One walk made on a past day: every place answered, four corner photos, a photo of what is wrong."""
    at = datetime.combine(day, time(9, 40), tzinfo=zone_of(visit.structure)).astimezone(UTC)
    said = f"{day.day} {day:%b %Y}"
    visit.who, visit.started_at, visit.started_server_at = who, at, at + timedelta(seconds=4)
    visit.finished_at, visit.finished_server_at = at + timedelta(minutes=31), at + timedelta(minutes=31, seconds=5)
    visit.save()
    places = [place.id for stretch in walk_at(visit.structure) for place in stretch.places]
    rest = [place for place in places if place not in found]
    _record(visit, who, ((place, WELL, "", "", "") for place in rest), at + timedelta(minutes=20), given=ALL_THE_REST)
    known = [(place, *values) for place, values in found.items() if place in places]
    for one in _record(visit, who, known, at + timedelta(minutes=12)):
        after_observation(one, by=who)
    for corner in CORNERS:
        _photo(visit, who, at + timedelta(minutes=25), f"{corner} corner", said, corner=corner)
    watched = "H3-R-foot:band:1" if "H3-R-foot:band:1" in places else places[0]
    _photo(visit, who, at + timedelta(minutes=12), watched.split(":")[0], said, place=watched, wrong=watched in found)


def _record(
    visit: Visit, who: User, rows: Iterable[tuple[str, str, str, str, str]], at: datetime, **more: Any
) -> list[Observation]:
    return Observation.objects.bulk_create(
        Observation(
            visit=visit, place=place, state=state, fault_class=fault_class, what=what, note=note, who=who, device_at=at,
            server_at=at + timedelta(seconds=6), **more,
        )
        for place, state, fault_class, what, note in rows
    )


def _photo(visit: Visit, who: User, at: datetime, of: str, said: str, *, wrong: bool = False, **where: str) -> None:
    taken = take_in(stand_in(of, said, wrong=wrong), f"stand-in {of}.jpg")
    keep_photo(visit, taken, who=who, device_at=at, server_at=at + timedelta(seconds=9), stand_in=True, **where)


def _as_built(structure: Structure, grower: User) -> None:
    """The grower moved a tie to clear a sprayer: the next walk asks about it where it is now."""
    ties = structure.design.read().ties if structure.design else ()
    if ties and not structure.changes.exists():
        code = ties[1].id.split(":")[0]
        append_change(
            structure, act="moved", place=code, words="8 in. down both legs, to clear the sprayer",
            seen_on=timezone.localdate() - timedelta(days=40), by=grower,
        )
