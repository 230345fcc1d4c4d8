"""Questions about storms."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Count, Q, QuerySet

from inspections.models import Storm, Visit
from inspections.storms import not_there, town_key
from structures.models import Structure


@dataclass(frozen=True, slots=True)
class WithoutWalk:
    """A structure in a storm's towns that has no walk after it. `why` is "" for one that stood when the storm came."""

    structure: Structure
    why: str


def storms() -> QuerySet[Storm]:
    """Every storm with how many structures had to be looked at, and how many were."""
    return Storm.objects.annotate(
        visits_due=Count("visits"), visits_made=Count("visits", filter=Q(visits__finished_server_at__isnull=False))
    )


def known_towns() -> list[str]:
    """The towns in which something of ours stands or lies, each spelling of them."""
    return list(Structure.objects.exclude(town="").values_list("town", flat=True).distinct().order_by("town"))


def without_walk(storm: Storm, towns: Sequence[str] | None = None) -> list[WithoutWalk]:
    """The structures in these of a storm's towns, all of them unless said, that have no walk after it, by tag."""
    named = {town_key(town) for town in (storm.towns if towns is None else towns)}
    spelt = [town for town in known_towns() if town_key(town) in named]
    have = Visit.objects.filter(storm=storm).values("structure_id")
    return [
        WithoutWalk(one, not_there(storm.weather, finished_on=one.finished_on, from_paper=one.unchecked))
        for one in Structure.objects.filter(town__in=spelt).exclude(pk__in=have)
    ]
