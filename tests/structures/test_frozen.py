"""What is sold is frozen: build output, documents of earlier schemas, and orders whose family changed afterwards."""

import json
from pathlib import Path

import pytest

from inspections.places import walk_of
from structures.frame.document import ENGINE, SCHEMA, read_document, write_document
from structures.frame.drawing import render
from structures.frame.tell import kit_table
from tests.structures.frozen import CASES, HERE, build, digest

DOCUMENTS = sorted((Path(__file__).parent / "documents").glob("*.json"))


@pytest.mark.parametrize("case", CASES)
def test_build_output_changes_only_with_a_new_engine_version(case):
    """Confirmed orders hold documents of this engine: give ENGINE a new version, then run tests.structures.frozen."""
    kept = json.loads((HERE / f"{ENGINE}.json").read_text(encoding="utf-8"))
    assert digest(build(case)) == kept[case]


def test_every_schema_so_far_has_a_document_kept():
    schemas = {json.loads(path.read_text(encoding="utf-8"))["schema"] for path in DOCUMENTS}
    assert schemas == set(range(1, SCHEMA + 1))


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda path: path.stem)
@pytest.mark.parametrize("size", ["wide", "desk", "narrow"])
@pytest.mark.parametrize("view", ["side-left", "side-right", "section", "frame"])
def test_a_kept_document_is_drawn_in_every_view(path, view, size):
    svg = render(read_document(path.read_text(encoding="utf-8")), view, size)
    assert svg.startswith("<svg")
    assert svg.rstrip().endswith("</svg>")


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda path: path.stem)
def test_a_kept_document_reads_back_as_itself_and_says_its_kit_and_places(path):
    text = path.read_text(encoding="utf-8")
    document = read_document(text)
    assert _kept(json.loads(text), write_document(document)) == json.loads(text)
    assert "56      56" in kit_table(document)
    assert sum(len(stretch.places) for stretch in walk_of(document)) > 150


def _kept(kept, written):
    """What is written, less the fields that came in with a later schema."""
    if isinstance(kept, dict):
        return {key: _kept(kept[key], written[key]) for key in kept}
    if isinstance(kept, list):
        assert len(kept) == len(written)
        return [_kept(*pair) for pair in zip(kept, written, strict=True)]
    return written


def test_a_document_of_the_future_is_refused_in_a_sentence():
    data = json.loads(DOCUMENTS[0].read_text(encoding="utf-8")) | {"schema": 99}
    with pytest.raises(ValueError, match="Schema 99 is not known here: this program reads"):
        read_document(data)
