"""Taking up parts from families, and changing what is ours to change about them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from inventory.models import Part, PartUse
from structures.events import record
from structures.frame import family as frame
from structures.frame.choose import choose
from structures.frame.lengths import feet_inches
from structures.frame.refusal import Refused
from structures.frame.weights import piece_weight
from structures.models import FamilyRevision, User
from structures.queries.designs import document_for
from structures.queries.families import family_of, value_of
from structures.refusals import Refuse

# What a family says about a part. A part number means one thing, so these never differ between two families.
DEFINED = {
    "name": "name", "role": "role", "kind": "kind", "tube": "tube", "coating": "coating", "length_in": "length",
    "cut_in": "cut length", "ends": "ends", "hand": "hand", "spacing_in": "spacing", "unit": "unit", "spares": "spares",
    "pack": "pack", "weight_lb": "weight",
}
KEPT = ("reorder_point", "lead_weeks", "lead_weeks_spring", "note")
_CLOSE = 1e-6


@transaction.atomic
def sync_parts(revision: FamilyRevision, *, by: User | None) -> list[Part]:
    """Take up every part that this family revision uses; returns those that are new. A second time changes nothing.

    Raises `Refuse` when a number is already defined differently and something refers to it, naming number, what was
    and what is.
    """
    revision = FamilyRevision.objects.select_for_update().get(pk=revision.pk)
    family = family_of(revision)
    there = {part.number: part for part in Part.objects.select_for_update().filter(number__in=family.parts).order_by("number")}
    defined = _definitions(revision, family, there)
    made = [Part(number=number, **defined[number]) for number in sorted(defined) if number not in there]
    if made:
        # Another family with the same new part may be taken up at this moment: then its row stands, and is looked at below.
        Part.objects.bulk_create(made, ignore_conflicts=True)
        there.update({part.number: part for part in Part.objects.filter(number__in=[part.number for part in made])})
    changed = [there[number] for number in sorted(there) if _settle(there[number], defined[number], revision)]
    if changed:
        Part.objects.bulk_update(changed, [*DEFINED, "diameter_in", "wall_in", "twist_deg"])
    used = _note_uses(revision, family)
    if made or changed or used:
        record(
            "took up parts", f"family {value_of(revision)}", who=by,
            after={"new": [part.number for part in made], "changed": [part.number for part in changed]},
        )
    return made


def tube_words(tube: frame.Tube | None) -> str:
    """Diameter and wall as one text, "1.90 x .083"; "" for what is no tube."""
    if tube is None:
        return ""
    diameter, wall = f"{tube.diameter_in:.3f}".rstrip("0"), f"{tube.wall_in:.3f}".lstrip("0")
    whole, _, part = diameter.partition(".")
    return f"{whole}.{part.ljust(2, '0')} x {wall}"


@transaction.atomic
def keep_part(part: Part, values: dict[str, Any], *, by: User) -> Part:
    """Keep reorder point, weeks to wait and note, all of `KEPT`."""
    part = Part.objects.select_for_update().get(pk=part.pk)
    before = {name: getattr(part, name) for name in KEPT}
    after = {name: values[name] for name in KEPT}
    if before == after:
        return part
    for name, value in after.items():
        setattr(part, name, value)
    part.save(update_fields=KEPT)
    record("changed", f"part {part.number}", who=by, before=before, after=after)
    return part


def _definitions(revision: FamilyRevision, family: frame.Family, there: Mapping[str, Part]) -> dict[str, dict[str, Any]]:
    """All that the family says of each part, by number. The frame is built only where a twist is not known yet."""
    known = all(number in there and (not part.hand or there[number].twist_deg is not None) for number, part in family.parts.items())
    twists = {} if known else _twists(revision, family)
    return {
        number: {**_definition(family, part), "twist_deg": twists.get(number)} for number, part in family.parts.items()
    }


def _definition(family: frame.Family, part: frame.Part) -> dict[str, Any]:
    tube = family.tubes.get(part.tube)
    weight = piece_weight(family, part)
    return {
        "name": part.name, "role": part.role, "kind": part.kind, "tube": tube_words(tube),
        "diameter_in": tube.diameter_in if tube else None, "wall_in": tube.wall_in if tube else None,
        "coating": tube.coating if tube else "", "length_in": part.length_in, "cut_in": part.cut_in, "ends": part.ends,
        "hand": part.hand, "spacing_in": part.spacing_in, "unit": part.unit, "spares": part.spares, "pack": part.pack,
        "weight_lb": weight,
    }


def _twists(revision: FamilyRevision, family: frame.Family) -> dict[str, float]:
    """Degrees of twist that the press makes, by part number, as the frame of each spacing has them."""
    found: dict[str, float] = {}
    for spacing_in in family.spacings_in:
        try:
            document = document_for(revision, choose(family, spacing_in=spacing_in))
        except Refused:
            continue  # a family may refuse its own shortest length; its twist is then not known before the first order
        for brace in document.braces:
            if brace.twist_made:
                found.setdefault(brace.part, round(abs(brace.twist_deg), 1))
    return found


def _settle(part: Part, defined: dict[str, Any], revision: FamilyRevision) -> bool:
    """Bring a part that is there in line with its family; True if it changed. Raises `Refuse`."""
    differing = [name for name in DEFINED if not _equal(getattr(part, name), defined[name])]
    if differing and _is_referred_to(part, revision):
        name = differing[0]
        raise Refuse(
            f"Part {part.number} has {DEFINED[name]} {_said(name, getattr(part, name))} here, and {value_of(revision)} says "
            f"{_said(name, defined[name])}: give the other piece a number of its own."
        )
    twist = defined["twist_deg"] if part.twist_deg is None else part.twist_deg
    if not differing and part.twist_deg == twist:
        return False
    for name, value in {**defined, "twist_deg": twist}.items():
        setattr(part, name, value)
    return True


def _equal(one: Any, other: Any) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= _CLOSE
    return one == other


def _is_referred_to(part: Part, revision: FamilyRevision) -> bool:
    """Whether anything but this revision of this family points at the part."""
    for relation in part._meta.get_fields(include_hidden=True):
        if not (relation.auto_created and relation.one_to_many):
            continue
        rows = relation.related_model._default_manager.filter(**{relation.field.name: part})
        if relation.related_model is PartUse:
            rows = rows.exclude(family=revision)
        if rows.exists():
            return True
    return False


def _said(name: str, value: Any) -> str:
    if value is None or value == "":
        return "not given"
    if name.endswith("_in"):
        return feet_inches(value)
    return f"{value:g}" if isinstance(value, float) else str(value)


def _note_uses(revision: FamilyRevision, family: frame.Family) -> bool:
    """Note which parts this revision uses, as its file now stands; True if that changed."""
    wanted = set(Part.objects.filter(number__in=family.parts).values_list("pk", flat=True))
    there = set(PartUse.objects.filter(family=revision).values_list("part_id", flat=True))
    PartUse.objects.filter(family=revision, part_id__in=there - wanted).delete()
    PartUse.objects.bulk_create(PartUse(part_id=pk, family=revision) for pk in sorted(wanted - there))
    return wanted != there
