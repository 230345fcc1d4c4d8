"""Planning, starting and finishing a walk."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime
from uuid import UUID, uuid4

from django.db import transaction
from django.utils import timezone

from inspections.models import Visit
from inspections.queries.visits import due_of, rules_in_force, walked_days
from inspections.states import ANNUAL, OTHER
from structures.events import record
from structures.models import Structure, User
from structures.refusals import Refuse


@transaction.atomic
def plan_annual(structure: Structure, *, today: date, by: User | None) -> list[Visit]:
    """Put down what the rules ask of this structure: the walk that is overdue, and the next one of each rule.

    What is planned already stays as it is; a planned walk that was missed and for which a newer one is due stands no
    longer in the list, since it was never started. Returns the visits that are new.
    """
    rules = {rule.code: rule for rule in rules_in_force()}
    made = []
    for one in due_of(structure, rules.values(), walked_days(structure), today):
        rule = rules[one.rule.code]
        visit, new = Visit.objects.get_or_create(
            structure=structure, rule=rule, due_on=one.on,
            defaults={"kind": ANNUAL, "title": rule.name, "why": f"{rule.minutes}. {rule.about}".strip()},
        )
        made += [visit] if new else []
    dropped = _drop_missed(structure, today)
    if made or dropped:
        planned = [f"{visit.title}, {visit.due_on}" for visit in made]
        record("planned walks", f"structure {structure.tag}", who=by, before={"dropped": dropped}, after={"planned": planned})
    return made


def _drop_missed(structure: Structure, today: date) -> list[str]:
    """Take away walks never started that a newer day of the same rule, or a walk made since, stands for."""
    wanted = {
        (one.rule.code, one.on) for one in due_of(structure, rules_in_force(), walked_days(structure), today)
    }
    not_begun = Visit.objects.filter(structure=structure, kind=ANNUAL, started_server_at__isnull=True)
    waiting = not_begun.select_related("rule").order_by("due_on")
    missed = [visit for visit in waiting if visit.rule and (visit.rule.code, visit.due_on) not in wanted]
    for visit in missed:
        visit.delete()
    return [f"{visit.title}, {visit.due_on}" for visit in missed]


def plan_walks(structures: Iterable[Structure], *, today: date, by: User | None) -> int:
    """Plan each structure in a transaction of its own. Returns how many visits are new."""
    return sum(len(plan_annual(structure, today=today, by=by)) for structure in structures)


@transaction.atomic
def start_visit(visit: Visit, *, by: User, device_at: datetime | None) -> Visit:
    """Begin a visit that is due, or join the one that somebody else began. Raises `Refuse` when it is finished."""
    visit = Visit.objects.select_for_update().select_related("structure").get(pk=visit.pk)
    if visit.is_finished:
        raise Refuse(f"“{visit.title}” of {visit.structure.tag} is finished already: begin another look at it instead.")
    if not visit.is_started:
        visit.started_at, visit.started_server_at, visit.who = device_at, timezone.now(), by
        visit.save(update_fields=["started_at", "started_server_at", "who"])
        record("started", f"visit {visit.pk}", who=by, after={"structure": visit.structure.tag, "title": visit.title})
    return visit


@transaction.atomic
def begin_look(structure: Structure, *, by: User, device_at: datetime | None, visit_id: UUID | None = None) -> Visit:
    """Begin a look that nothing asked for. The id may come from the device; the same id again is the same visit."""
    key = visit_id or uuid4()
    there = Visit.objects.filter(pk=key).first()
    if there is None:
        there = Visit.objects.create(pk=key, structure=structure, kind=OTHER, title="Walk round", why="")
    if there.structure_id != structure.pk:
        raise Refuse("This look belongs to another structure: begin a new one.")
    return start_visit(there, by=by, device_at=device_at)


@transaction.atomic
def finish_visit(visit: Visit, *, by: User, device_at: datetime | None) -> Visit:
    """End a visit. What nobody answered stays "not looked at"; nothing is filled in. Plans the walks that follow.

    Raises `Refuse` when it was not begun or is finished already.
    """
    visit = Visit.objects.select_for_update().select_related("structure").get(pk=visit.pk)
    if not visit.is_started:
        raise Refuse(f"“{visit.title}” of {visit.structure.tag} was not begun: start the walk first.")
    if visit.is_finished:
        raise Refuse(f"“{visit.title}” of {visit.structure.tag} is finished already, so nothing was changed.")
    visit.finished_at, visit.finished_server_at = device_at, timezone.now()
    visit.save(update_fields=["finished_at", "finished_server_at"])
    record(
        "finished", f"visit {visit.pk}", who=by,
        after={"structure": visit.structure.tag, "observations": visit.observations.count(), "photos": visit.photos.count()},
    )
    plan_annual(visit.structure, today=timezone.localdate(), by=by)
    return visit
