"""Letting people in, changing what they are, and saying what they belong to."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db import transaction

from structures.events import record
from structures.models import Belonging, Structure, User
from structures.refusals import Refuse

SHOWN = ("username", "first_name", "last_name", "email", "role", "units", "is_active")


@transaction.atomic
def let_in(values: dict[str, Any], *, password: str, by: User | None) -> User:
    """Make an account. `values` are the fields of `SHOWN`; the form has looked at name and password."""
    person = User(**values)
    person.set_password(password)
    person.save()
    record("let in", f"person {person.username}", who=by, after=_shown(person))
    return person


@transaction.atomic
def change_person(person: User, values: dict[str, Any], *, by: User, password: str = "") -> User:
    """Change an account; an empty password leaves the old one. Raises `Refuse` when no owner would be left."""
    person = User.objects.select_for_update().get(pk=person.pk)
    before = _shown(person)
    for name, value in values.items():
        setattr(person, name, value)
    _refuse_without_owner(person)
    if password:
        person.set_password(password)
    person.save()
    record("changed", f"person {person.username}", who=by, before=before, after=_shown(person))
    return person


def _refuse_without_owner(person: User) -> None:
    if person.role == User.Role.OWNER and person.is_active:
        return
    others = User.objects.filter(role=User.Role.OWNER, is_active=True).exclude(pk=person.pk)
    if not others.exists():
        raise Refuse(
            f"{person.called} is the only owner who can sign in: make somebody else an owner first.", field="role"
        )


@transaction.atomic
def let_belong(person: User, structure: Structure, *, since: date, by: User) -> Belonging:
    """From this day the person sees the structure. Belonging already is no error and changes nothing."""
    there = Belonging.objects.filter(user=person, structure=structure, until__isnull=True).first()
    if there:
        return there
    made = Belonging.objects.create(user=person, structure=structure, since=since)
    record("let belong", f"structure {structure.tag}", who=by, after={"person": person.username, "since": str(since)})
    return made


@transaction.atomic
def end_belonging(belonging: Belonging, *, until: date, by: User) -> Belonging:
    """From this day on the person no longer sees the structure. Raises `Refuse` for a day before it began."""
    belonging = Belonging.objects.select_for_update().select_related("user", "structure").get(pk=belonging.pk)
    if belonging.until is not None:
        return belonging
    if until < belonging.since:
        raise Refuse(
            f"{belonging.user.called} belongs to {belonging.structure.tag} since {belonging.since}, and {until} is "
            "before that: give that day or a later one.",
            field="until",
        )
    belonging.until = until
    belonging.save(update_fields=["until"])
    record(
        "ended belonging", f"structure {belonging.structure.tag}", who=by,
        before={"person": belonging.user.username, "since": str(belonging.since)}, after={"until": str(until)},
    )
    return belonging


def _shown(person: User) -> dict[str, Any]:
    return {name: getattr(person, name) for name in SHOWN}


@transaction.atomic
def change_own(person: User, *, units: str, password: str = "") -> User:
    """What everybody may change about themselves; an empty password leaves the old one."""
    person = User.objects.select_for_update().get(pk=person.pk)
    before = person.units
    person.units = units
    if password:
        person.set_password(password)
    person.save(update_fields=["units", "password"])
    record(
        "changed own settings", f"person {person.username}", who=person,
        before={"units": before}, after={"units": units, "password": "changed" if password else "as before"},
    )
    return person
