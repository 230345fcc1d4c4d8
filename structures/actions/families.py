"""Loading a family file."""

from __future__ import annotations

import hashlib
from functools import lru_cache

from django.db import transaction

from structures.events import record
from structures.frame.family import Family
from structures.frame.reader import read_families, read_family
from structures.frame.trial import try_out
from structures.models import FamilyRevision, User
from structures.queries.families import read_once, source_of
from structures.refusals import Refuse


@transaction.atomic
def load_family(text: str, *, source: str, by: User | None) -> FamilyRevision:
    """Keep a family file as a revision.

    The same text again changes nothing. Another text for a revision that nothing was made from takes its place.
    Raises `Refused` with everything wrong in the file, with the parts that it and a loaded file define differently,
    or with what no size could be built with, and `Refuse` when a design was already made from another text of this revision.
    """
    family = _read_beside_the_rest(text, source)
    sha256 = hashlib.sha256(text.encode()).hexdigest()
    there = FamilyRevision.objects.select_for_update().filter(code=family.code, revision=family.revision).first()
    if there and there.sha256 == sha256:
        return there
    _try_once(text, source)
    if there and there.designs.exists():
        raise Refuse(
            f"{family.code} revision {family.revision} was sold already, so its file can't change: "
            "give this file the next revision and its own effective date.",
            field="text",
        )
    kept = there or FamilyRevision(code=family.code, revision=family.revision)
    before = {"sha256": there.sha256} if there else None
    kept.title, kept.text, kept.sha256 = family.title, text, sha256
    kept.effective, kept.source, kept.loaded_by = family.effective, source[:120], by
    kept.save()
    record("loaded", f"family {family.code}-{family.revision}", who=by, before=before, after={"sha256": sha256})
    return kept


@lru_cache(maxsize=64)
def _try_once(text: str, source: str) -> None:
    """Build the family in all its ways, once for each process and text that can be built."""
    try_out(read_family(text, source=source))


def _read_beside_the_rest(text: str, source: str) -> Family:
    """Read the text together with every other loaded file, which finds part numbers defined in two ways."""
    alone = read_once(hashlib.sha256(text.encode()).hexdigest(), text, source)
    others = {
        source_of(revision): revision.text
        for revision in FamilyRevision.objects.exclude(code=alone.code, revision=alone.revision)
    }
    others.pop(source, None)
    return read_families({**others, source: text})[source] if others else alone
