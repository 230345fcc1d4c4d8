"""The one door to a visit, a photo, an observation and a request: whoever may see the structure may see them."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.http import Http404

from inspections.models import FaultRequest, Observation, Photo, Visit
from structures.access import structures_of
from structures.models import User


def visit_for(user: User, pk: UUID) -> Visit:
    """The visit with this id. Raises `Http404` when there is none or its structure is not theirs to see."""
    return _found(
        Visit.objects.filter(pk=pk, structure__in=structures_of(user))
        .select_related("structure__design__family", "storm", "rule", "who").first()
    )


def photo_for(user: User, pk: UUID) -> Photo:
    """The photo with this id. Raises `Http404`."""
    return _found(Photo.objects.filter(pk=pk, visit__structure__in=structures_of(user)).select_related("visit__structure").first())


def observation_for(user: User, pk: UUID) -> Observation:
    """The observation with this id. Raises `Http404`."""
    return _found(
        Observation.objects.filter(pk=pk, visit__structure__in=structures_of(user))
        .select_related("visit__structure__design", "who").first()
    )


def request_for(user: User, pk: UUID) -> FaultRequest:
    """The thing wrong with this id. Raises `Http404`."""
    return _found(
        FaultRequest.objects.filter(pk=pk, structure__in=structures_of(user)).with_last_step()
        .select_related("structure__design", "observation__visit", "observation__who").first()
    )


def _found(row: Any) -> Any:
    if row is None:
        raise Http404
    return row
