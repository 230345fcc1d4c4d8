"""Documents: of a configuration that somebody is looking at, and of a frozen design."""

from __future__ import annotations

import hashlib
import json
from functools import lru_cache
from typing import Any

from structures.frame.choose import configuration_json, read_configuration
from structures.frame.compute import compute
from structures.frame.document import ENGINE, SCHEMA, Document
from structures.frame.family import Configuration
from structures.models import FamilyRevision
from structures.queries.families import read_once, source_of


def document_for(revision: FamilyRevision, configuration: Configuration) -> Document:
    """The computed document of a configuration that is not frozen. Raises `Refused`.

    Kept for the process, since a page asks again for what stood a moment ago.
    """
    return _document(
        revision.sha256, json.dumps(configuration_json(configuration), sort_keys=True), revision.text, source_of(revision)
    )


def input_hash(revision: FamilyRevision, configuration: dict[str, Any]) -> str:
    """What makes two designs equal: the family's text, the configuration, schema and engine."""
    inputs = {
        "family": revision.sha256, "code": revision.code, "revision": revision.revision,
        "configuration": configuration, "schema": SCHEMA, "engine": ENGINE,
    }
    return hashlib.sha256(json.dumps(inputs, sort_keys=True).encode()).hexdigest()


@lru_cache(maxsize=48)
def _document(sha256: str, configuration: str, text: str, source: str) -> Document:
    return compute(read_once(sha256, text, source), read_configuration(json.loads(configuration)), sha256=sha256)
