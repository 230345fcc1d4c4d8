"""What `manage.py check` looks at beyond Django's own list."""

from __future__ import annotations

from typing import Any

from django.core.checks import CheckMessage, Tags, Warning, register

from structures import triggers


@register(Tags.database)
def triggers_are_there(*, databases: list[str] | None = None, **options: Any) -> list[CheckMessage]:
    """Every registered trigger stands in every database asked for (`check --database default`).

    A warning and not an error: `migrate` runs this check first and is what puts the triggers back.
    """
    found: list[CheckMessage] = []
    for alias in databases or []:
        for rule in triggers.missing_rules(alias):
            found.append(
                Warning(
                    f"The trigger {rule.name} is missing in the database {alias!r}: rows of {rule.table} "
                    "can be changed that must not change.",
                    hint="Run `python3 manage.py migrate`, which installs it again.",
                    id="structures.W001",
                )
            )
    return found
