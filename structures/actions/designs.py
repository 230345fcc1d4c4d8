"""Freezing a design."""

from __future__ import annotations

import json

from django.db import transaction

from structures.events import record
from structures.frame.choose import configuration_json
from structures.frame.document import write_document
from structures.frame.family import Configuration
from structures.models import Design, FamilyRevision, User
from structures.queries.designs import document_for, input_hash


@transaction.atomic
def freeze_design(family_revision: FamilyRevision, configuration: Configuration, *, by: User | None) -> Design:
    """Keep the computed frame of a configuration for ever. Equal inputs share one row. Raises `Refused`."""
    plain = configuration_json(configuration)
    key = input_hash(family_revision, plain)
    if there := Design.objects.filter(input_hash=key).first():
        return there
    document = document_for(family_revision, configuration)
    design, made = Design.objects.get_or_create(
        input_hash=key,
        defaults={
            "family": family_revision,
            "configuration": plain,
            "document": json.dumps(write_document(document), separators=(",", ":"), ensure_ascii=False),
            "schema": document.schema,
            "engine": document.engine,
            "family_sha256": family_revision.sha256,
            "family_text": family_revision.text,
        },
    )
    if made:
        record("froze", f"design {design.pk}", who=by, after={"input_hash": key, "family": str(family_revision)})
    return design
