"""Recording what was seen: one place, all the rest of a stretch, a correction, a photo."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import datetime
from uuid import UUID, uuid4

from django.core.files.base import ContentFile
from django.db import transaction
from django.utils import timezone

from inspections.actions.requests import after_observation
from inspections.checklist import finding_of
from inspections.models import Observation, Photo, Visit
from inspections.models.visits import ALL_THE_REST
from inspections.places import CORNERS, Place, Stretch, place_index
from inspections.queries.visits import sheet_of, walk_at
from inspections.states import AGAINST, WELL, WRONG
from structures.events import record
from structures.models import User
from structures.photos import Photo as Taken
from structures.photos import take_in
from structures.refusals import Conflict, Refuse


@dataclass(frozen=True, slots=True)
class Seen:
    """What somebody saw at one place. `fault_class` and `what` are given when the state is "fault" and only then."""

    place: str
    state: str
    fault_class: str = ""
    what: str = ""
    note: str = ""
    against: str = ""


@transaction.atomic
def observe(
    visit: Visit, seen: Seen, *, by: User, device_at: datetime | None, observation_id: UUID | None = None
) -> Observation:
    """Append one observation to a visit under way. The same id with the same words again is the same observation.

    Something wrong becomes a request. Raises `Refuse` for a visit not begun or finished, for a place that is none and
    for a fault without its words, and `Conflict` for an id that was used for something else.
    """
    if there := _sent_before(visit, seen, observation_id, by):
        return there
    visit = _under_way(visit)
    place = _place(visit, seen.place)
    made = _append(visit, _checked(place, seen), by=by, device_at=device_at, key=observation_id)
    after_observation(made, by=by)
    return made


@transaction.atomic
def all_the_rest(visit: Visit, stretch_key: str, *, by: User, device_at: datetime | None) -> list[Observation]:
    """Record "looks as built" for each place of one stretch that has no answer, each marked as given by that button.

    Places with something wrong from before that is not settled are left: they are asked for one by one.
    Raises `Refuse` when the stretch is none of this structure's or nothing is left to say.
    """
    visit = _under_way(visit)
    sheet = sheet_of(visit)
    leg = sheet.leg(stretch_key)
    if leg is None:
        raise Refuse(f"{stretch_key} is no bay's side or end wall of {visit.structure.tag}: choose one from the walk.")
    rest = sheet.rest_of(leg.stretch)
    if not rest:
        raise Refuse(_nothing_left(leg.stretch, sheet.asked_apart - sheet.now.keys()))
    now = timezone.now()
    made = Observation.objects.bulk_create(
        Observation(
            visit=visit, place=place.id, state=WELL, given=ALL_THE_REST, who=by, device_at=device_at, server_at=now
        )
        for place in rest
    )
    record("all the rest", f"visit {visit.pk}", who=by, after={"stretch": stretch_key, "places": [place.id for place in rest]})
    return made


def _nothing_left(stretch: Stretch, apart: set[str] | frozenset[str]) -> str:
    left = sorted(place.code for place in stretch.places if place.id in apart)
    if left:
        return f"What is left in {stretch.words} was wrong before, so it is asked for by itself: {', '.join(left)}."
    return f"Every place in {stretch.words} has its answer already, so nothing was added."


@transaction.atomic
def correct(
    observation: Observation, seen: Seen, *, by: User, device_at: datetime | None, observation_id: UUID | None = None
) -> Observation:
    """Append an observation that takes the place of another one; both stay. Possible after the visit is finished.

    Raises `Refuse` when the older one was corrected already, when it says the same, or for a fault without its words.
    """
    if there := _sent_before(observation.visit, seen, observation_id, by):
        return there
    visit = Visit.objects.select_for_update(of=("self",)).select_related("structure__design").get(pk=observation.visit_id)
    if observation.corrected_by.exists():
        raise Refuse(f"This answer for {observation.code} was corrected already: correct the newer one.")
    if seen.place != observation.place:
        raise Refuse(f"A correction stays at its place: {observation.code} was given, {seen.place} is another.")
    place = place_index(walk_at(visit.structure)).get(seen.place)
    checked = _checked(place, seen)
    if (checked.state, checked.fault_class, checked.what, checked.note) == (
        observation.state, observation.fault_class, observation.what, observation.note
    ):
        raise Refuse(f"The answer for {observation.code} says this already, so nothing was added.")
    made = _append(visit, checked, by=by, device_at=device_at, key=observation_id, corrects=observation)
    after_observation(made, by=by)
    return made


@transaction.atomic
def add_photo(
    visit: Visit, data: bytes, name: str, *, by: User, device_at: datetime | None, place: str = "", corner: str = "",
    photo_id: UUID | None = None, stand_in: bool = False,
) -> Photo:
    """Keep a photo of a place or of a corner: the bytes as they came, and two upright copies without metadata.

    The same id again is the same photo. Raises `Refuse` for a visit not begun, for neither or both of place and corner,
    and for whatever is no photo.
    """
    taken = take_in(data, name)
    key = photo_id or uuid4()
    if there := Photo.objects.filter(pk=key).first():
        if (there.visit_id, there.sha256, there.place, there.corner) == (visit.pk, taken.sha256, place, corner):
            return there
        raise Conflict("This photo's number was used for another photo: take it again.", field="photo")
    if not visit.is_started:
        raise Refuse(f"“{visit.title}” of {visit.structure.tag} was not begun: start the walk first.", field="photo")
    if bool(place) == bool(corner) or (corner and corner not in CORNERS):
        raise Refuse(f"A photo is of one place or of one corner ({', '.join(CORNERS)}): say which.", field="photo")
    if place:
        _place(visit, place)
    photo = keep_photo(
        visit, taken, who=by, device_at=device_at, server_at=timezone.now(), place=place, corner=corner, key=key, stand_in=stand_in
    )
    record("photo", f"visit {visit.pk}", who=by, after={"of": photo.code, "sha256": photo.sha256})
    return photo


def keep_photo(
    visit: Visit, taken: Taken, *, who: User, device_at: datetime | None, server_at: datetime, place: str = "", corner: str = "",
    key: UUID | None = None, stand_in: bool = False,
) -> Photo:
    """Write the three files of a photo that was taken in, and its row. No check is made here."""
    photo = Photo(
        pk=key or uuid4(), visit=visit, place=place, corner=corner, sha256=taken.sha256, name=taken.name, width_px=taken.width_px,
        height_px=taken.height_px, who=who, device_at=device_at, server_at=server_at, stand_in=stand_in,
    )
    photo.original.save("", ContentFile(taken.original), save=False)
    photo.shown.save("", ContentFile(taken.shown), save=False)
    photo.small.save("", ContentFile(taken.small), save=False)
    photo.save(force_insert=True)
    return photo


def _under_way(visit: Visit) -> Visit:
    """The visit, read again under a lock, so that nothing is added after its end."""
    visit = Visit.objects.select_for_update(of=("self",)).select_related("structure__design").get(pk=visit.pk)
    if not visit.is_started:
        raise Refuse(f"“{visit.title}” of {visit.structure.tag} was not begun: start the walk first.")
    if visit.is_finished:
        raise Refuse(f"“{visit.title}” of {visit.structure.tag} is finished: correct an answer, or begin another look.")
    return visit


def _place(visit: Visit, place_id: str) -> Place:
    found = place_index(walk_at(visit.structure)).get(place_id)
    if found is None:
        raise Refuse(f"{place_id or 'Nothing'} is no place of {visit.structure.tag}: choose one from the list.", field="place")
    return found


def _checked(place: Place | None, seen: Seen) -> Seen:
    """The same with what belongs to a fault kept only for a fault. Raises `Refuse`."""
    code = seen.place.split(":", 1)[0]
    if seen.against not in ("", *AGAINST):
        raise Refuse(f"“{seen.against}” is no comparison: same, worse or fixed would do.", field="against")
    if seen.state != WRONG:
        return Seen(seen.place, seen.state, note=seen.note, against=seen.against)
    if not seen.fault_class:
        raise Refuse(f"How urgent {code} is was not said: stop and ask, mend this week, or look again.", field="fault_class")
    if place is not None and finding_of(place.item, seen.what) is None:
        raise Refuse(f"What is wrong at {code} was not said: choose it from the list.", field="what")
    if seen.what == "other" and not seen.note:
        raise Refuse(f"“Something else” at {code} needs a note: say in a few words what it is.", field="note")
    return seen


def _append(
    visit: Visit, seen: Seen, *, by: User, device_at: datetime | None, key: UUID | None, corrects: Observation | None = None
) -> Observation:
    made = Observation.objects.create(
        pk=key or uuid4(), visit=visit, place=seen.place, state=seen.state, fault_class=seen.fault_class, what=seen.what,
        note=seen.note, against=seen.against, who=by, device_at=device_at, server_at=timezone.now(), corrects=corrects,
    )
    before = {"state": corrects.state, "class": corrects.fault_class, "what": corrects.what} if corrects else None
    record("corrected" if corrects else "observed", f"visit {visit.pk}", who=by, before=before, after=asdict(seen))
    return made


def _sent_before(visit: Visit, seen: Seen, key: UUID | None, by: User) -> Observation | None:
    there = Observation.objects.filter(pk=key).first() if key else None
    if there is None:
        return None
    same = (there.visit_id, there.place, there.state, there.fault_class, there.what, there.note, there.who_id) == (
        visit.pk, seen.place, seen.state, seen.fault_class, seen.what, seen.note, by.pk
    )
    if not same:
        raise Conflict(f"This answer's number was used for another answer, at {there.code}: give the answer again.")
    return there
