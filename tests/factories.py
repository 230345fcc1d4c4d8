"""Things that tests need, made by plain functions; and, for every address with something in it, what to put there.

Each app tells what its addresses are about in its own `tests/<app>/addresses.py`, with `address`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

from structures.actions.designs import freeze_design
from structures.actions.families import load_family
from structures.frame.choose import choose
from structures.models import Belonging, Design, FamilyRevision, Structure, User
from structures.queries.families import family_of

FAMILIES = Path(__file__).resolve().parents[1] / "structures" / "families"


def family_text(code: str = "G26", revision: str = "D") -> str:
    """The text of a demo family file."""
    return (FAMILIES / f"{code}-{revision}.toml".lower()).read_text()


def family_revision(code: str = "G26", revision: str = "D") -> FamilyRevision:
    """Load a demo family file; loading it again gives the same row."""
    return load_family(family_text(code, revision), source=f"{code}-{revision}.toml".lower(), by=None)


def design(code: str = "G26", revision: str = "D", *, length_in: float = 576.0, **choices: Any) -> Design:
    """Freeze a design of a demo family; 48 ft long unless said otherwise."""
    loaded = family_revision(code, revision)
    return freeze_design(loaded, choose(family_of(loaded), length_in=length_in, **choices), by=None)


def structure(tag: str = "T-0412", *, belongs_to: User | None = None, **fields: Any) -> Structure:
    """A standing structure, with a design unless `design=None` is said, and somebody who belongs to it."""
    wanted = {"name": "Long field", "town": "Quillmere", "order_number": "1207", "finished_on": date(2024, 5, 2)}
    if "design" not in fields:
        wanted["design"] = design()
    made = Structure.objects.create(tag=tag, **{**wanted, **fields})
    if belongs_to is not None:
        Belonging.objects.create(user=belongs_to, structure=made, since=date(2024, 5, 2))
    return made


@dataclass
class World:
    """The cast and what is theirs. Everything here belongs to Ada; Gil is the grower to whom none of it belongs."""

    wes: User
    sue: User
    ada: User
    gil: User
    olive: User
    made: dict[str, Any] = field(default_factory=dict)

    @cached_property
    def structure(self) -> Structure:
        """A structure that Ada belongs to."""
        return structure(belongs_to=self.ada)

    def once(self, name: str, make: Callable[[], Any]) -> Any:
        """What was made under this name, made now if it was not."""
        if name not in self.made:
            self.made[name] = make()
        return self.made[name]


Fill = Callable[[World], dict[str, Any]]
ADDRESSES: dict[str, Fill] = {}


def address(*names: str) -> Callable[[Fill], Fill]:
    """Say what belongs into these addresses: the function gives the keyword arguments, of things that are Ada's."""

    def register(fill: Fill) -> Fill:
        for name in names:
            ADDRESSES[name] = fill
        return fill

    return register
