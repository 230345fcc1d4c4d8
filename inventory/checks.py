"""System checks of the inventory app."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.core.checks import CheckMessage, Warning
from django.db import connections

from inventory import triggers


def stock_guards_stand(databases: Sequence[str] | None = None, **kwargs: Any) -> list[CheckMessage]:
    """The guards of the stock ledger stand on every database asked about.

    A warning, since `migrate` runs this check first and is what puts them back.
    """
    return [
        Warning(
            f"The database {alias!r} lacks the stock guard {name}.",
            hint="Run `python3 manage.py migrate`, which puts every guard in place.",
            id="inventory.W001",
        )
        for alias in databases or ()
        for name in triggers.missing(connections[alias])
    ]
