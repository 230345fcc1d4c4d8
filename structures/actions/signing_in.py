"""Counting the tries to sign in that failed."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import QuerySet

from structures.models import SignInTry
from structures.refusals import Refuse

MOST_TRIES = 5
WAIT = timedelta(minutes=15)


def refuse_too_many(name: str, address: str, *, now: datetime) -> None:
    """Raise `Refuse` when this name was tried too often from this address; asked before the password is looked at."""
    since = list(_counting(name, address, now).order_by("at").values_list("at", flat=True))
    if len(since) >= MOST_TRIES:
        minutes = max(1, -(-(since[-MOST_TRIES] + WAIT - now).seconds // 60))
        raise Refuse(
            f"{MOST_TRIES} tries with this name have failed, so the next one is looked at in {minutes} "
            f"minute{'' if minutes == 1 else 's'}: nothing else was changed."
        )


@transaction.atomic
def count_failure(name: str, address: str, *, now: datetime) -> int:
    """Count one more and forget those that no longer count. Returns how many tries are left."""
    SignInTry.objects.filter(at__lt=now - WAIT).delete()
    SignInTry.objects.create(name=_same(name), address=address)
    return max(MOST_TRIES - _counting(name, address, now).count(), 0)


def forget_failures(name: str, address: str) -> None:
    """Whoever signed in starts afresh."""
    SignInTry.objects.filter(name=_same(name), address=address).delete()


def _counting(name: str, address: str, now: datetime) -> QuerySet[SignInTry]:
    return SignInTry.objects.filter(name=_same(name), address=address, at__gt=now - WAIT)


def _same(name: str) -> str:
    return name.strip().lower()[:150]
