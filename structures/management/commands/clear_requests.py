"""Forget the kept answers of old requests."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from structures.actions.requests import LEAST_DAYS, forget_requests
from structures.refusals import Refuse

DAYS = 90


class Command(BaseCommand):
    """Fit to be run every night: what is young enough stays, and a second run finds nothing."""

    help = (
        "Delete the kept answers of requests that were sent more than --older-than days ago. Every form that changes something "
        "is answered once, and its answer is kept so that a double tap or a second sending changes nothing: that is what "
        "goes. What the requests changed stays, and so do all answers that are younger. "
        f"Fewer than {LEAST_DAYS} days are refused, since a phone without signal may send again what it kept so long."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Two options, and neither is needed."""
        parser.add_argument("--older-than", type=int, default=DAYS, metavar="DAYS", help=f"how old an answer must be to go ({DAYS})")
        parser.add_argument("--dry-run", action="store_true", help="say how many would go, and delete nothing")

    def handle(self, *, older_than: int, dry_run: bool, **options: Any) -> None:
        """Say how many went, or would go."""
        try:
            count = forget_requests(older_than_days=older_than, now=timezone.now(), by=None, only_count=dry_run)
        except Refuse as refusal:
            raise CommandError(refusal.sentence, returncode=2) from None
        answers = f"{count:,} answer{'' if count == 1 else 's'} older than {older_than:,} days"
        self.stdout.write(f"{answers} would be deleted." if dry_run else f"{answers} deleted.")
