"""Questions about things wrong and what was done about them."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import F, QuerySet

from inspections.models import FaultRequest
from structures.frame.document import Document, Line


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
        .annotate(town=F("structure__town"))
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
