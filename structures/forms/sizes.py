"""Size and options, read from an address: what was typed, what stands, what was chosen last.

The whole state of the page is its query, so that it works without script and can be sent to somebody:
`family=G26-D&length=48-0&spacing=4-0&base=fixed&tag_end=framed&far_end=framed&chosen=1&option=side-braces`.
`last` and `before` hold, in one string each, the choices that stand and those that stood before them.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace

from django.http import QueryDict
from django.utils.datastructures import MultiValueDict

from structures.frame.choose import choose
from structures.frame.family import Configuration, Family
from structures.frame.lengths import MM_PER_INCH, LengthError, read_length, show_length
from structures.frame.refusal import Refusal, Refused
from structures.models import FamilyRevision
from structures.queries.families import family_of, latest_revisions, revision_by_value, value_of

PLAIN = ("family", "length", "spacing", "base", "tag_end", "far_end")
MOST_TYPED = 40
_LABEL = re.compile(r"[A-Za-z0-9-]{1,12}", re.ASCII)
_LINE = re.compile(r"[1-9][0-9]{0,3}", re.ASCII)


@dataclass(frozen=True)
class Typed:
    """What stands in the fields, as text. `options` is None on a first visit: the standard ones are meant."""

    family: str = ""
    length: str = ""
    spacing: str = ""
    base: str = ""
    tag_end: str = ""
    far_end: str = ""
    options: tuple[str, ...] | None = None

    @classmethod
    def read(cls, query: MultiValueDict[str, str]) -> Typed:
        """The fields of a query; what is longer than any real value is cut, and so is a NUL, which no database looks up."""
        plain = {name: (query.get(name) or "").replace("\0", "")[:MOST_TYPED].strip() for name in PLAIN}
        options = tuple(code[:MOST_TYPED] for code in query.getlist("option")[:MOST_TYPED]) if query.get("chosen") else None
        return cls(**plain, options=options)

    def query(self) -> QueryDict:
        """The same as a query, for an address."""
        query = QueryDict(mutable=True)
        for name in PLAIN:
            if value := getattr(self, name):
                query[name] = value
        if self.options is not None:
            query["chosen"] = "1"
            query.setlist("option", list(self.options))
        return query

    @property
    def text(self) -> str:
        return self.query().urlencode()


@dataclass(frozen=True)
class ForOrder:
    """The order, and which of its lines, that a size is being chosen for: carried in the address and looked up by nobody
    here. `line` is "" for one structure more."""

    order: str
    line: str = ""

    @classmethod
    def read(cls, query: MultiValueDict[str, str]) -> ForOrder | None:
        """The order of a query; None when it names none that could be one."""
        order, line = query.get("order") or "", query.get("line") or ""
        if not _LABEL.fullmatch(order):
            return None
        return cls(order, line if _LINE.fullmatch(line) else "")

    @property
    def text(self) -> str:
        """The same as the end of an address."""
        return f"order={self.order}&line={self.line}" if self.line else f"order={self.order}"


@dataclass(frozen=True)
class Standing:
    """Choices that can be: the revision, the configuration, and how they are written in the fields."""

    revision: FamilyRevision
    family: Family
    configuration: Configuration
    typed: Typed


def stand(typed: Typed, *, units: str = "us") -> Standing:
    """Turn what was typed into choices that can be. Raises `Refused` with a sentence for each field that can't."""
    revision = revision_by_value(typed.family) if typed.family else next(iter(latest_revisions()), None)
    if revision is None:
        known = ", ".join(value_of(one) for one in latest_revisions()) or "none: load a family file first"
        raise Refused([
            Refusal("family-unknown", "Family {family} is not known here: there is {known}.",
                    {"family": typed.family or "none", "known": known}, "family")
        ])
    family = family_of(revision)
    refusals: list[Refusal] = []
    spacing = _length(typed.spacing, "spacing", refusals)
    length = _length(typed.length, "length", refusals)
    if spacing is not None:
        spacing = _snapped(spacing, list(family.spacings_in))
    if length is not None:
        bay = spacing or family.spacings_in[0]
        length = _snapped(length, [round(length / bay) * bay])
    if refusals:
        raise Refused(refusals)
    with_, without = _options(typed, family)
    ends = (typed.tag_end or family.default_ends[0], typed.far_end or family.default_ends[1])
    configuration = choose(
        family, length_in=length, spacing_in=spacing, base=typed.base or None, ends=ends, with_=with_, without=without
    )
    return Standing(revision, family, configuration, written(revision, configuration, units=units))


def written(revision: FamilyRevision, configuration: Configuration, *, units: str = "us") -> Typed:
    """How choices are written in the fields."""
    return Typed(
        family=value_of(revision),
        length=show_length(configuration.length_in, units),
        spacing=show_length(configuration.spacing_in, units),
        base=configuration.base,
        tag_end=configuration.ends[0],
        far_end=configuration.ends[1],
        options=tuple(sorted(configuration.options)),
    )


def moved_to_family(typed: Typed, standing: Standing, units: str = "us") -> Typed:
    """What was typed, carried to another family: what that family does not know falls back to its own standard, and a
    length that it has no bays for to the nearest that it has."""
    revision = revision_by_value(typed.family)
    if revision is None or revision.pk == standing.revision.pk:
        return typed
    family = family_of(revision)
    refusals: list[Refusal] = []
    spacing = _length(typed.spacing, "spacing", refusals)
    fits = spacing is not None and any(abs(spacing - made) < 0.02 for made in family.spacings_in)
    bay = spacing if spacing is not None and fits else family.spacings_in[0]
    return replace(
        typed,
        length=_nearest_length(typed.length, family, bay, units),
        spacing=typed.spacing if fits else "",
        base=typed.base if typed.base in family.bases else "",
        tag_end=typed.tag_end if typed.tag_end in family.end_walls else "",
        far_end=typed.far_end if typed.far_end in family.end_walls else "",
        options=None,
    )


def _nearest_length(text: str, family: Family, bay: float, units: str) -> str:
    """The length as it was typed where the family has it, else the nearest whole number of its bays; what is no length
    stays, to be refused where it stands."""
    length = _length(text, "length", [])
    if length is None:
        return text
    least, most = math.ceil(family.shortest_in / bay - 1e-9), math.floor(family.longest_in / bay + 1e-9)
    near = min(max(round(length / bay), least, 1), most) * bay
    return text if abs(near - length) <= 0.5 / MM_PER_INCH else show_length(near, units)


def _options(typed: Typed, family: Family) -> tuple[set[str], set[str]]:
    if typed.options is None:
        return set(), set()
    chosen = set(typed.options)
    return chosen, {option.code for option in family.options if option.offer == "standard"} - chosen


def _length(text: str, field: str, refusals: list[Refusal]) -> float | None:
    if not text:
        return None
    try:
        return read_length(text)
    except LengthError:
        refusals.append(
            Refusal("no-length", "{given} is no length: write it like 48-0, 48ft or 14630 mm.", {"given": text}, field)
        )
        return None


def _snapped(length_in: float, exact: list[float]) -> float:
    """Whole millimetres can't say 48-0 exactly: within half a millimetre the exact length is meant."""
    near = [one for one in exact if abs(one - length_in) <= 0.5 / MM_PER_INCH + 1e-9]
    return near[0] if near else length_in
