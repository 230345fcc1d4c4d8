"""Refusals: what is wrong, as data.

Pure code raises `Refused` with one or more `Refusal`s. A refusal carries a code, a template and the values that
fill it; `structures.sentences` turns it into words at the edge, so that language and units may change without
touching the computation. `str(refusal)` gives the English sentence with US lengths, which the command prints.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from structures.frame.said import fill


@dataclass(frozen=True, slots=True)
class Refusal:
    """One thing that can't be, and what would do.

    `code` names the rule (`length-off-spacing`), `template` is a str.format text whose fields are in `values`.
    Values whose name ends in `_in` are lengths in inches. `field` is the form or file key that it stands at.
    """

    code: str
    template: str
    values: Mapping[str, Any] = field(default_factory=dict)
    field: str = ""

    def __str__(self) -> str:
        return fill(self.template, self.values)


class Refused(ValueError):
    """Raised with every refusal that was found, in the order in which they were met."""

    def __init__(self, refusals: Iterable[Refusal]):
        self.refusals = tuple(refusals)
        super().__init__("\n".join(str(refusal) for refusal in self.refusals))
