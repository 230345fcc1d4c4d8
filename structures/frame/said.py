"""Words as data: a template and the values that fill it, so that a frozen document can be told in either unit.

Values whose name ends in `_in` are lengths in inches, or several to choose from; they are shown in a person's own units
at the edge.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from structures.frame.lengths import show_length


def fill(template: str, values: Mapping[str, Any], units: str = "us") -> str:
    """The template's words, lengths in these units ("us" or "metric")."""
    return template.format(**{key: _shown(key, value, units) for key, value in values.items()})


@dataclass(frozen=True, slots=True)
class Said:
    """One reason, warning or kind of no. `template` is a str.format text without format specifications."""

    template: str
    values: Mapping[str, Any] = field(default_factory=dict)

    def in_units(self, units: str) -> str:
        """The words with lengths in "us" or "metric" units."""
        return fill(self.template, self.values, units)

    def __str__(self) -> str:
        return fill(self.template, self.values)

    def __bool__(self) -> bool:
        return bool(self.template)


def together(parts: Iterable[Said], joined: str) -> Said:
    """Several sayings as one, each with its own values."""
    templates: list[str] = []
    values: dict[str, Any] = {}
    for number, part in enumerate(parts):
        templates.append(part.template.format(**{key: f"{{n{number}_{key}}}" for key in part.values}))
        values |= {f"n{number}_{key}": value for key, value in part.values.items()}
    return Said(joined.join(templates), values)


def _shown(key: str, value: Any, units: str) -> Any:
    if not key.endswith("_in"):
        return value
    if isinstance(value, list | tuple):
        return " or ".join(show_length(one, units) for one in value)
    return show_length(value, units) if isinstance(value, int | float) else value
