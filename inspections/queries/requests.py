"""Questions about things wrong and what was done about them."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import Case, QuerySet, Value, When

from inspections.mending import OPEN
from inspections.models import FaultRequest, Photo
from structures.access import structures_of
from structures.frame.document import Document, Line
from structures.models import User


@dataclass(frozen=True, slots=True)
class Needed:
    """A part that stands at a place by the frozen design, and how many of it."""

    line: Line
    count: int


def wrong_list() -> QuerySet[FaultRequest]:
    """Everything that was ever wrong with its last step, fit for a list."""
    return (
        FaultRequest.objects.with_last_step()
        .select_related("structure", "observation__visit", "observation__who")
    )


def parts_at(document: Document | None, place: str) -> tuple[Needed, ...]:
    """What the frozen design has at a place: the parts that a request for it may need, counted by place."""
    if document is None:
        return ()
    return tuple(
        Needed(line, sum(because.per * because.where.count(place) for because in line.because))
        for line in document.lines
        if any(place in because.where for because in line.because)
    )


def my_wrong(user: User) -> QuerySet[FaultRequest]:
    """What was wrong at the structures this person sees, what is open first."""
    return (
        wrong_list().filter(structure__in=structures_of(user))
        .annotate(done=Case(When(last_step__in=OPEN, then=Value(0)), default=Value(1)))
        .order_by("done", "-observation__server_at")
    )


def photos_at(asked: FaultRequest) -> QuerySet[Photo]:
    """Every photo of the place from any visit, oldest first: what it looked like before belongs to what is wrong."""
    return Photo.objects.filter(visit__structure=asked.structure, place=asked.place).select_related("visit", "who").order_by("server_at")
