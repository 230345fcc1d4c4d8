"""Entering a storm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import transaction

from inspections.models import Storm, Visit
from inspections.states import STORM
from inspections.storms import nearest_town, same_town, town_key, why
from structures.events import record
from structures.models import Structure, User
from structures.refusals import Refuse


@dataclass(frozen=True, slots=True)
class Entered:
    """A storm as it was entered: the visits that are new, and the towns in which nothing of ours stands.

    Each of `nobody` is the town as named and the known one that is spelt most like it, "" when none is.
    """

    storm: Storm
    visits: tuple[Visit, ...]
    nobody: tuple[tuple[str, str], ...]


@transaction.atomic
def enter_storm(values: dict[str, Any], towns: Sequence[str], *, by: User) -> Entered:
    """Keep a storm and make one visit due for every structure in the named towns, with why.

    `values` are the storm's own fields. Raises `Refuse` without a town, and when the same kind of storm was entered for
    that day over one of these towns already.
    """
    if not towns:
        raise Refuse("No town was named: write at least one, like Quillmere.", field="towns")
    _refuse_twice(values, towns)
    storm = Storm.objects.create(**values, towns=list(towns), entered_by=by)
    made = _make_due(storm, towns)
    record(
        "entered storm", f"storm {storm.pk}", who=by,
        after={"title": storm.title, "towns": list(towns), "visits": len(made)},
    )
    return Entered(storm, tuple(made), _nobody(towns))


@transaction.atomic
def widen_storm(storm: Storm, towns: Sequence[str], *, by: User) -> Entered:
    """Add towns to a storm. Structures there get their visit; those that have one keep it. Raises `Refuse` without new towns."""
    storm = Storm.objects.select_for_update().get(pk=storm.pk)
    new = [town for town in towns if not any(same_town(town, known) for known in storm.towns)]
    if not new:
        raise Refuse("Every town named here belongs to this storm already: name another one.", field="towns")
    before = list(storm.towns)
    storm.towns = [*before, *new]
    storm.save(update_fields=["towns"])
    made = _make_due(storm, new)
    record(
        "widened storm", f"storm {storm.pk}", who=by, before={"towns": before}, after={"towns": storm.towns, "visits": len(made)}
    )
    return Entered(storm, tuple(made), _nobody(new))


def _refuse_twice(values: dict[str, Any], towns: Sequence[str]) -> None:
    for there in Storm.objects.select_for_update().filter(kind=values["kind"], on=values["on"]):
        both = [town for town in towns if any(same_town(town, known) for known in there.towns)]
        if both:
            raise Refuse(
                f"{there.title} over {', '.join(both)} was entered already: leave these towns out, or open that storm to add to it.",
                field="towns",
            )


def _known_towns() -> list[str]:
    return list(Structure.objects.exclude(town="").values_list("town", flat=True).distinct().order_by("town"))


def _make_due(storm: Storm, towns: Sequence[str]) -> list[Visit]:
    named = {town_key(town) for town in towns}
    spelt = [town for town in _known_towns() if town_key(town) in named]
    have = Visit.objects.filter(storm=storm).values("structure_id")
    rows = Structure.objects.filter(town__in=spelt).exclude(pk__in=have)
    return Visit.objects.bulk_create(
        Visit(
            structure=structure, kind=STORM, storm=storm, title=storm.title, due_on=storm.on,
            why=why(storm.weather, structure.town, storm.source),
        )
        for structure in rows
    )


def _nobody(towns: Sequence[str]) -> tuple[tuple[str, str], ...]:
    known = _known_towns()
    alone = [town for town in towns if not any(same_town(town, other) for other in known)]
    return tuple((town, nearest_town(town, known)) for town in alone)
