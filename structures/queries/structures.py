"""Questions about structures."""

from __future__ import annotations

from django.db.models import QuerySet

from structures.models import AsBuiltChange, Event, Structure


def changes_of(structure: Structure) -> QuerySet[AsBuiltChange]:
    """What differs from what was shipped, oldest first."""
    return AsBuiltChange.objects.filter(structure=structure).select_related("noted_by")


def events_about(about: str, most: int = 20) -> QuerySet[Event]:
    """What was done to one thing, newest first."""
    return Event.objects.filter(about=about).select_related("who")[:most]
