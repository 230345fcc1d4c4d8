"""What was sold stays what was sold, whatever happens to its family, the engine or the drawing of new ones."""

import re

import pytest
from django.db import DatabaseError, transaction
from django.urls import reverse

from inspections.places import walk_of
from structures import queries
from structures.actions.families import load_family
from structures.frame.drawing import render
from structures.models import Design, FamilyRevision
from tests.inventory.selling import FAMILIES, a_confirmed, a_structure

pytestmark = pytest.mark.django_db


def told(design: Design) -> dict:
    """Everything that is ever said of a design: kit, marks, every view, the walk."""
    document = design.read()
    return {
        "kit": document.lines, "marks": document.marks, "braces": document.braces,
        "drawings": [render(document, view, "wide") for view in ("frame", "side-left", "side-right", "section")],
        "walk": walk_of(document),
    }


def answer_text(client, order) -> str:
    html = client.get(reverse("inventory:order-answer", args=[order.label])).content.decode()
    return re.sub(r'name="(?:request_key|csrfmiddlewaretoken)" value="[^"]*"', "", html)


def moved_text() -> str:
    """Revision E: the side braces end 2 in. lower on hoop 1, and another piece is made for it."""
    text = (FAMILIES / "g26-d.toml").read_text(encoding="utf-8")
    for old, new in (('revision = "D"', 'revision = "E"'), ('brace-hip = "hip - 3in"', 'brace-hip = "hip - 5in"'),
                     ("SB26", "SB26E"), ('length = "4-1 3/8"', 'length = "4-0 15/16"'), ('cut = "4-3 3/8"', 'cut = "4-2 15/16"'),
                     ("2021-03-01", "2026-01-01")):
        assert old in text
        text = text.replace(old, new)
    return text


def test_a_later_revision_moves_nothing_of_an_order_that_stands(client_for, sue, olive):
    order = a_confirmed(by=olive)
    design = Design.objects.get()
    client = client_for(sue)
    before, page = told(design), answer_text(client, order)
    load_family(moved_text(), source="g26-e.toml", by=olive)
    newer = a_confirmed_e(olive)
    assert {b.part for b in newer.read().braces if b.role == "side-brace"} == {"SB26E"}
    assert told(Design.objects.get(pk=design.pk)) == before
    assert answer_text(client, order) == page
    assert "4-1 3/8" in page


def a_confirmed_e(olive) -> Design:
    order = a_confirmed(a_structure(FamilyRevision.objects.get(code="G26", revision="E")), by=olive)
    return order.version.lines.get().design


def test_a_family_file_that_was_sold_refuses_every_change_in_the_database_itself(olive):
    a_confirmed(by=olive)
    with pytest.raises(DatabaseError, match="never"), transaction.atomic():
        FamilyRevision.objects.filter(code="G26").update(text="code = 'nothing'")
    with pytest.raises(DatabaseError, match="never"), transaction.atomic():
        Design.objects.update(document="{}")


def test_an_engine_that_builds_otherwise_moves_nothing_of_it(client_for, sue, olive, monkeypatch):
    """Every reader of a sold order reads its document: with the builder gone, all of it is still told."""
    order = a_confirmed(by=olive)
    design = Design.objects.get()
    client = client_for(sue)
    before, page = told(design), answer_text(client, order)

    def gone(*args, **kwargs):
        raise AssertionError("a sold order was built again")

    monkeypatch.setattr("structures.frame.compute.build_frame", gone)
    monkeypatch.setattr("structures.frame.compute.compute", gone)
    monkeypatch.setattr(queries.designs, "compute", gone)
    assert told(Design.objects.get(pk=design.pk)) == before
    assert answer_text(client, order) == page
