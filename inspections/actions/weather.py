"""Entering a storm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import transaction

from inspections.models import Storm, Visit
from inspections.queries.weather import WithoutWalk, known_towns, without_walk
from inspections.states import STORM
from inspections.storms import nearest_town, same_town, why
from structures.events import record
from structures.models import User
from structures.refusals import Refuse


@dataclass(frozen=True, slots=True)
class Entered:
    """A storm as it was entered: the visits that are new, who was left out, and the towns in which nothing of ours stands.

    Each of `nobody` is the town as named and the known one that is spelt most like it, "" when none is.
    """

    storm: Storm
    visits: tuple[Visit, ...]
    left_out: tuple[WithoutWalk, ...]
    nobody: tuple[tuple[str, str], ...]


@transaction.atomic
def enter_storm(values: dict[str, Any], towns: Sequence[str], *, by: User) -> Entered:
    """Keep a storm and make one visit due for every structure that stood in the named towns, with why.

    `values` are the storm's own fields. Raises `Refuse` without a town, and when the same kind of storm was entered for
    that day over one of these towns already.
    """
    if not towns:
        raise Refuse("No town was named: write at least one, like Quillmere.", field="towns")
    _refuse_twice(values, towns)
    storm = Storm.objects.create(**values, towns=list(towns), entered_by=by)
    made, left_out = _make_due(storm, towns)
    record(
        "entered storm", f"storm {storm.pk}", who=by,
        after={"title": storm.title, "towns": list(towns), "visits": len(made)},
    )
    return Entered(storm, made, left_out, _nobody(towns))


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
    made, left_out = _make_due(storm, new)
    record(
        "widened storm", f"storm {storm.pk}", who=by, before={"towns": before}, after={"towns": storm.towns, "visits": len(made)}
    )
    return Entered(storm, made, left_out, _nobody(new))


@transaction.atomic
def catch_up_storm(storm: Storm, *, by: User) -> tuple[Visit, ...]:
    """Make visits due at structures that stood in a storm's towns and were not known to: their day or town was told later.

    Raises `Refuse` when there is none.
    """
    storm = Storm.objects.select_for_update().get(pk=storm.pk)
    made, _ = _make_due(storm, storm.towns)
    if not made:
        raise Refuse(f"Every structure that stood under this storm has its walk already: nothing was added to {storm.title}.")
    record("caught up storm", f"storm {storm.pk}", who=by, after={"visits": len(made)})
    return made


def _refuse_twice(values: dict[str, Any], towns: Sequence[str]) -> None:
    for there in Storm.objects.select_for_update().filter(kind=values["kind"], on=values["on"]):
        both = [town for town in towns if any(same_town(town, known) for known in there.towns)]
        if both:
            raise Refuse(
                f"{there.title} over {', '.join(both)} was entered already: leave these towns out, or open that storm to add to it.",
                field="towns",
            )


def _make_due(storm: Storm, towns: Sequence[str]) -> tuple[tuple[Visit, ...], tuple[WithoutWalk, ...]]:
    found = without_walk(storm, towns)
    made = Visit.objects.bulk_create(
        Visit(
            structure=one.structure, kind=STORM, storm=storm, title=storm.title, due_on=storm.on,
            why=why(storm.weather, one.structure.town, storm.source),
        )
        for one in found
        if not one.why
    )
    return tuple(made), tuple(one for one in found if one.why)


def _nobody(towns: Sequence[str]) -> tuple[tuple[str, str], ...]:
    known = known_towns()
    alone = [town for town in towns if not any(same_town(town, other) for other in known)]
    return tuple((town, nearest_town(town, known)) for town in alone)
