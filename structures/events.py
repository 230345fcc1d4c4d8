"""The one way to write down that something happened."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from structures.models import Event, User


def record(verb: str, about: str, *, who: User | None, before: Any = None, after: Any = None) -> Event:
    """Append an event inside the action's own transaction, so that neither stands without the other.

    `about` is text like "order 1214". Raises `RuntimeError` outside a transaction.
    """
    if not transaction.get_connection().in_atomic_block:
        raise RuntimeError(f"The event {verb!r} was recorded outside a transaction: wrap the action in atomic().")
    return Event.objects.create(verb=verb, about=about, who=who, before=before, after=after)
