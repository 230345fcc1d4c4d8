"""What people say about a standing structure."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db import transaction

from structures.events import record
from structures.frame.measured import Measured
from structures.models import AsBuiltChange, MeasuredBack, Structure, User
from structures.refusals import Refuse

FIELDS = ("name", "town", "place", "finished_on", "zone")
END_NAMES = ("tag_end_name", "far_end_name")


@transaction.atomic
def append_change(
    structure: Structure, *, act: str, place: str, words: str, seen_on: date, by: User
) -> AsBuiltChange:
    """Append what differs on the standing structure from what was shipped. A correction is another change."""
    made = AsBuiltChange.objects.create(
        structure=structure, act=act, place=place, words=words, seen_on=seen_on, noted_by=by
    )
    record(
        "noted as built", f"structure {structure.tag}", who=by,
        after={"act": act, "place": place, "words": words, "seen_on": str(seen_on)},
    )
    return made


@transaction.atomic
def keep_measured(structure: Structure, measured: Measured, *, by: User) -> MeasuredBack:
    """Keep a crew's figures with the structure. A correction is another measurement. Raises `Refuse` for none at all."""
    if not measured:
        raise Refuse("Nothing was measured: give a last stick, a bay's gap or a band first.")
    made = MeasuredBack.objects.create(structure=structure, figures=measured.write(), kept_by=by)
    counts = f"{len(measured.last_sticks)} last sticks, {len(measured.gaps)} bays, {len(measured.bands)} bands"
    record("kept what was measured", f"structure {structure.tag}", who=by, after={"measured": counts})
    return made


@transaction.atomic
def change_structure(structure: Structure, values: dict[str, Any], *, by: User) -> Structure:
    """Change the plain facts of a structure: its name, where it stands and the day it was finished.

    Raises `Refuse` for a finishing day before the day on which it left.
    """
    structure = Structure.objects.select_for_update().get(pk=structure.pk)
    if why_not := structure.why_not_finished_on(values["finished_on"]):
        raise Refuse(why_not, field="finished_on")
    before = {name: _plain(getattr(structure, name)) for name in FIELDS}
    for name in FIELDS:
        setattr(structure, name, values[name])
    structure.save(update_fields=list(FIELDS))
    after = {name: _plain(getattr(structure, name)) for name in FIELDS}
    if after != before:
        record("changed", f"structure {structure.tag}", who=by, before=before, after=after)
    return structure


@transaction.atomic
def name_ends(structure: Structure, *, tag_end: str, far_end: str, by: User) -> Structure:
    """Keep what people call the two ends of a structure, "" for none. Its location codes stay as they are."""
    structure = Structure.objects.select_for_update().get(pk=structure.pk)
    before = {name: getattr(structure, name) for name in END_NAMES}
    after = dict(zip(END_NAMES, (tag_end, far_end), strict=True))
    if after != before:
        structure.tag_end_name, structure.far_end_name = tag_end, far_end
        structure.save(update_fields=list(END_NAMES))
        record("named the ends", f"structure {structure.tag}", who=by, before=before, after=after)
    return structure


def _plain(value: Any) -> Any:
    return str(value) if isinstance(value, date) else value
