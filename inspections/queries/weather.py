"""Questions about storms."""

from __future__ import annotations

from django.db.models import Count, Q, QuerySet

from inspections.models import Storm


def storms() -> QuerySet[Storm]:
    """Every storm with how many structures had to be looked at, and how many were."""
    return Storm.objects.annotate(
        visits_due=Count("visits"), visits_made=Count("visits", filter=Q(visits__finished_server_at__isnull=False))
    )
