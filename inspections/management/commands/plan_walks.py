"""Put down the walks that the rules ask for."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from inspections.actions.visits import plan_walks
from structures.models import Structure


class Command(BaseCommand):
    """Plan each standing structure in a transaction of its own; fit to be run every night."""

    help = (
        "Put down the walks that the rules ask for, for every structure with a finishing day: the one that is overdue and the "
        "next of each rule. Running it again adds nothing; a walk never begun that a newer day stands for is taken away."
    )

    def handle(self, **options: Any) -> None:
        """Say how many are new."""
        made = plan_walks(Structure.objects.filter(finished_on__isnull=False), today=timezone.localdate(), by=None)
        self.stdout.write(f"{made} new")
