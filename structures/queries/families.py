"""Questions about the families that were loaded."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from django.db.models import Count, OuterRef, QuerySet, Subquery

from structures.frame.family import Family
from structures.frame.reader import read_family
from structures.models import FamilyRevision


def revisions() -> QuerySet[FamilyRevision]:
    """Every revision with `until`, the day on which the next one of its family took over (None for the last)."""
    # A subquery and not a window: a window sees only the rows that a filter leaves.
    later = FamilyRevision.objects.filter(code=OuterRef("code"), effective__gt=OuterRef("effective")).order_by("effective")
    return FamilyRevision.objects.annotate(
        until=Subquery(later.values("effective")[:1]), used=Count("designs")
    ).order_by("code", "effective", "revision")


def latest_revisions() -> list[FamilyRevision]:
    """The revision of each family that took effect last, by code."""
    found = {revision.code: revision for revision in FamilyRevision.objects.order_by("code", "effective", "revision")}
    return list(found.values())


def years_words(effective: date, until: date | None) -> str:
    """ "as made 2019 to 2021", "as made since 2021", "as made in 2019"."""
    if until is None:
        return f"as made since {effective.year}"
    if until.year == effective.year:
        return f"as made in {effective.year}"
    return f"as made {effective.year} to {until.year}"


def family_of(revision: FamilyRevision) -> Family:
    """What the file says, read once for each process and text."""
    return read_once(revision.sha256, revision.text, source_of(revision))


def source_of(revision: FamilyRevision) -> str:
    """What a sentence about this file calls it."""
    return revision.source or f"{revision.code} revision {revision.revision}"


@lru_cache(maxsize=64)
def read_once(sha256: str, text: str, source: str) -> Family:
    """The family in this text, kept for the process; `sha256` is the text's own."""
    return read_family(text, source=source)


@dataclass(frozen=True, slots=True)
class NamedRevision:
    """A revision as a choice: `value` in an address, `words` on a page."""

    value: str
    words: str


def revision_choices() -> list[NamedRevision]:
    """Every revision as a choice, families by code, the latest revision of each first."""
    found = sorted(revisions(), key=lambda revision: (revision.code, -revision.effective.toordinal()))
    return [
        NamedRevision(value_of(revision), f"{revision.title}, {revision.revision}, {years_words(revision.effective, revision.until)}")
        for revision in found
    ]


def value_of(revision: FamilyRevision) -> str:
    """The revision in an address: "G26-D"."""
    return f"{revision.code}-{revision.revision}"


def revision_by_value(value: str) -> FamilyRevision | None:
    """The revision that "G26-D" names; a code alone names the latest one."""
    code, _, letter = value.rpartition("-")
    found = FamilyRevision.objects.filter(code=code, revision=letter).first()
    return found or FamilyRevision.objects.filter(code=value).order_by("-effective", "-revision").first()
