"""Who belongs to what."""

from __future__ import annotations

from django.db.models import QuerySet

from structures.models import Belonging, Structure, User


def belongings_of(person: User) -> QuerySet[Belonging]:
    """What this person belongs to or belonged to, running ones first."""
    return Belonging.objects.filter(user=person).select_related("structure").order_by("until", "structure__tag")


def people_at(structure: Structure) -> QuerySet[Belonging]:
    """Who belongs to this structure or belonged to it, oldest first."""
    return Belonging.objects.filter(structure=structure).select_related("user").order_by("since", "id")
