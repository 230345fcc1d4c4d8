"""Forgetting the answers that nobody will ask for again."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import transaction

from structures.events import record
from structures.models import KeyedRequest, User
from structures.refusals import Refuse

# A phone that lay in a pocket through a week without signal may still send what it kept.
LEAST_DAYS = 14


@transaction.atomic
def forget_requests(*, older_than_days: int, now: datetime, by: User | None, only_count: bool = False) -> int:
    """Delete the kept answers of requests older than so many days. Returns how many there were.

    What the requests changed stays, of course; only a repetition would no longer be known as one. With `only_count`
    nothing is deleted. Raises `Refuse` for fewer days than a phone may be without signal.
    """
    if older_than_days < LEAST_DAYS:
        raise Refuse(
            f"{older_than_days} days were given: {LEAST_DAYS} or more would do, since a phone may send again what it kept so long."
        )
    # Further back than the calendar goes there is nothing either.
    days = min(older_than_days, (now - datetime.min.replace(tzinfo=now.tzinfo)).days)
    old = KeyedRequest.objects.filter(at__lt=now - timedelta(days=days))
    if only_count:
        return old.count()
    gone, _ = old.delete()
    if gone:
        record("forgot", "answered requests", who=by, after={"count": gone, "older than days": older_than_days})
    return gone
