"""Two structures laid side by side, read from an address: each side is a frozen design or choices as on the size page.

The fields of the first begin with `a-`, those of the second with `b-`: `a-design=12&b-family=G26-D&b-length=72-0`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.http import QueryDict

from structures.forms.sizes import Standing, Typed, moved_to_family, written
from structures.forms.sizing import Sizing, look
from structures.frame.choose import read_configuration
from structures.frame.document import Document
from structures.models import Design, FamilyRevision
from structures.queries.families import family_of, value_of

SIDES = ("a", "b")
MOST_DIGITS = 9


@dataclass(frozen=True)
class Side:
    """One of the two. Either `design` is there, or `sizing` with what was typed and what stands."""

    key: str
    document: Document
    design: Design | None = None
    sizing: Sizing | None = None

    @property
    def name(self) -> str:
        """ "First" or "Second", as the page calls them."""
        return "First" if self.key == "a" else "Second"

    @property
    def refused(self) -> bool:
        """Whether something typed for this side can't be, so that the last that stands is shown."""
        return bool(self.sizing and self.sizing.refusals)

    @property
    def sentences(self) -> list[str]:
        """What was refused, in sentences."""
        return [sentence for said in self.sizing.refusals.values() for sentence in said] if self.sizing else []


def read_sides(query: QueryDict, *, units: str) -> tuple[Side, Side] | None:
    """Both sides of an address; a second that is not named is as the first. None while no family is loaded."""
    first = _side("a", _own(query, "a"), units)
    if first is None:
        return None
    second = _side("b", _own(query, "b") or _as_typed(first, units).query(), units)
    return (first, second) if second else None


def _as_typed(side: Side, units: str) -> Typed:
    """What one would type for a side."""
    if side.design:
        return written(side.design.family, read_configuration(side.design.configuration), units=units)
    return side.sizing.standing.typed if side.sizing else Typed()


def _own(query: QueryDict, key: str) -> QueryDict:
    """The fields of one side without their prefix."""
    own = QueryDict(mutable=True)
    for name in query:
        if name.startswith(f"{key}-"):
            own.setlist(name[2:], query.getlist(name))
    return own


def _side(key: str, own: QueryDict, units: str) -> Side | None:
    number = own.get("design", "")
    if number.isascii() and number.isdigit() and len(number) <= MOST_DIGITS:
        design = Design.objects.select_related("family").filter(pk=int(number)).first()
        if design:
            return Side(key, design.read(), design=design)
    sizing = look(own, units=units)
    return Side(key, sizing.document, sizing=sizing) if sizing else None


def address_of(design: Design, other: FamilyRevision) -> str:
    """The address that lays a frozen design beside the same size of another revision, as near as that one is made."""
    configuration = read_configuration(design.configuration)
    own = written(design.family, configuration)
    standing = Standing(design.family, family_of(design.family), configuration, own)
    query = QueryDict(mutable=True)
    query["a-design"] = str(design.pk)
    typed = moved_to_family(replace(own, family=value_of(other)), standing)
    for name, value in typed.query().items():
        query[f"b-{name}"] = value
    return query.urlencode()


def prefixed(typed: Typed, key: str) -> str:
    """Choices as the fields of one side."""
    query = QueryDict(mutable=True)
    for name, values in typed.query().lists():
        query.setlist(f"{key}-{name}", values)
    return query.urlencode()
