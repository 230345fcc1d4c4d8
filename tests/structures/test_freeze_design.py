"""Freezing a design: equal inputs share a row, and what was frozen reads back as it was computed."""

import pytest

from structures.actions.designs import freeze_design
from structures.frame.choose import choose, read_configuration
from structures.frame.document import ENGINE, SCHEMA, write_document
from structures.frame.refusal import Refused
from structures.models import Design, Event
from structures.queries.designs import document_for, input_hash
from structures.queries.families import family_of
from tests.factories import design, family_revision

pytestmark = pytest.mark.django_db


def test_it_keeps_the_family_the_choices_and_the_result(olive):
    revision = family_revision("G26", "D")
    configuration = choose(family_of(revision), length_in=576)
    frozen = freeze_design(revision, configuration, by=olive)
    frozen = Design.objects.get(pk=frozen.pk)
    assert (frozen.schema, frozen.engine) == (SCHEMA, ENGINE)
    assert (frozen.family_sha256, frozen.family_text) == (revision.sha256, revision.text)
    assert read_configuration(frozen.configuration) == configuration
    assert write_document(frozen.read()) == write_document(document_for(revision, configuration))
    event = Event.objects.get(verb="froze")
    assert (event.about, event.who) == (f"design {frozen.pk}", olive)


def test_equal_inputs_share_a_row_and_others_do_not():
    first, again, other = design(), design(), design(length_in=624.0)
    assert first == again
    assert other != first
    assert Design.objects.count() == 2
    assert Event.objects.filter(verb="froze").count() == 2


def test_the_hash_covers_every_input():
    d, a = family_revision("G26", "D"), family_revision("G26", "A")
    plain = {"length_in": 576.0}
    hashes = {
        input_hash(d, plain), input_hash(a, plain), input_hash(d, {"length_in": 600.0}), input_hash(d, plain),
    }
    assert len(hashes) == 3


def test_what_cannot_stand_is_not_frozen():
    revision = family_revision("G26", "D")
    with pytest.raises(Refused, match="is no whole number of 4-0 bays"):
        freeze_design(revision, choose(family_of(revision), length_in=600.5), by=None)
    assert not Design.objects.exists()


def test_reading_twice_reads_once():
    frozen = design()
    assert frozen.read() is Design.objects.get(pk=frozen.pk).read()
