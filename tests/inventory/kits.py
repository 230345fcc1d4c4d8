"""Frozen documents of demo families for pure tests: no database."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from inventory.packages import Taken
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import Document, Line
from structures.frame.reader import read_family

FAMILIES = Path(__file__).resolve().parents[2] / "structures" / "families"


@cache
def kit(name: str = "g26-d", feet: float = 48, with_: tuple[str, ...] = (), without: tuple[str, ...] = ()) -> Document:
    """The document of one size of a demo family."""
    text = (FAMILIES / f"{name}.toml").read_text()
    family = read_family(text, source=f"{name}.toml")
    return compute(family, choose(family, length_in=12 * feet, with_=with_, without=without), sha256="0" * 64)


def line_of(document: Document, part: str) -> Line:
    return next(line for line in document.lines if line.part == part)


def taken(document: Document, part: str, count: int | None = None, lot: str = "P-1", sent: int = 0) -> Taken:
    """Pieces of one part as they were picked; all that are wanted unless a count is said."""
    line = line_of(document, part)
    return Taken(
        line=1 + [one.part for one in document.lines].index(part), part=part, name=line.name, role=line.role, kind=line.kind,
        length_in=line.length_in, ends=line.ends, count=line.quantity if count is None else count, lot=lot,
        each_lb=None if line.weight_lb is None else line.weight_lb / line.quantity, sent=sent,
    )


def all_taken(document: Document) -> list[Taken]:
    return [taken(document, line.part) for line in document.lines]
