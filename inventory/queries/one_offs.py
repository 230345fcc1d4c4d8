"""What an order's structure would be with one more change of the maker's."""

from __future__ import annotations

from dataclasses import dataclass, replace

from inventory.models import OrderLine
from structures.frame.choose import read_configuration
from structures.frame.document import Brace, Document, Tie
from structures.frame.family import OneOff
from structures.making import difference
from structures.queries.designs import document_for


@dataclass(frozen=True, slots=True)
class Effect:
    """The frame with the change, and what it does to the kit: each part with its name and how many more, or fewer below 0."""

    document: Document
    parts: tuple[tuple[str, str, int], ...]
    new: Brace | Tie | None


def effect_of(line: OrderLine, before: Document, change: OneOff) -> Effect:
    """What a change does to a line's frame. Raises `Refused` when the frame can't be with it."""
    was = read_configuration(line.configuration)
    after = document_for(line.family_revision, replace(was, one_offs=(*was.one_offs, change)))
    changed = difference(before, after)
    names = {one.part: one.name for document in (before, after) for one in document.lines}
    new = next((piece for piece in (*after.braces, *after.ties) if piece.id in changed.ids), None)
    return Effect(after, tuple((part, names[part], count) for part, count in changed.parts.items()), new)
