"""Refusals and reasons are data in the pure code; here they become words, in a person's own units."""

from __future__ import annotations

from structures.frame.refusal import Refusal, Refused
from structures.frame.said import Said, fill
from structures.refusals import Refuse


def say(refusal: Refusal | Refused | Refuse | Said | str, units: str = "us") -> str:
    """One sentence for one refusal; several of a `Refused` are joined by a blank."""
    if isinstance(refusal, Refused):
        return " ".join(say_each(refusal, units))
    if isinstance(refusal, Refuse):
        return refusal.sentence
    if isinstance(refusal, str):
        return refusal
    return fill(refusal.template, refusal.values, units)


def say_each(refused: Refused, units: str = "us") -> list[str]:
    """One sentence for each refusal, in the order in which they were met."""
    return [say(refusal, units) for refusal in refused.refusals]


def say_by_field(refused: Refused, units: str = "us") -> dict[str, list[str]]:
    """The sentences under the form field that each stands at."""
    found: dict[str, list[str]] = {}
    for refusal in refused.refusals:
        found.setdefault(refusal.field, []).append(say(refusal, units))
    return found


def counted(count: int, one: str, many: str = "") -> str:
    """ "1 piece", "8 pieces", "1,238 bands"."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"
