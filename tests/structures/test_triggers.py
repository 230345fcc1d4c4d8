"""What must not change can't be changed, whichever way it is tried."""

from datetime import date

import pytest
from django.core.management import call_command
from django.db import IntegrityError, connection, transaction

from structures import triggers
from structures.models import Design, Event, FamilyRevision, Structure

pytestmark = pytest.mark.django_db


def family(**fields) -> FamilyRevision:
    wanted = {"code": "Z9", "revision": "A", "title": "Z9", "text": "code = 'Z9'", "sha256": "0" * 64,
              "effective": date(2020, 1, 1)}
    return FamilyRevision.objects.create(**{**wanted, **fields})


def design(of: FamilyRevision) -> Design:
    return Design.objects.create(
        input_hash="1" * 64, family=of, configuration={}, document="{}", schema=1, engine="1.0.0",
        family_sha256=of.sha256, family_text=of.text,
    )


def refused(act) -> str:
    with pytest.raises(IntegrityError) as caught, transaction.atomic():
        act()
    return str(caught.value)


def test_an_event_is_neither_changed_nor_deleted():
    event = Event.objects.create(verb="made", about="a test")
    assert "An event is never changed or deleted." in refused(lambda: Event.objects.update(verb="other"))
    assert "An event is never changed or deleted." in refused(event.delete)
    assert Event.objects.get().verb == "made"


def test_a_design_is_neither_changed_nor_deleted():
    made = design(family())
    assert "A frozen design is never changed" in refused(lambda: Design.objects.update(engine="2"))
    assert "A frozen design is never changed" in refused(made.delete)


def test_a_family_revision_may_change_until_a_design_was_made_from_it():
    unused = family(revision="A")
    FamilyRevision.objects.filter(pk=unused.pk).update(title="other words")
    used = family(revision="B")
    design(used)
    assert "load a new revision" in refused(lambda: FamilyRevision.objects.filter(pk=used.pk).update(title="no"))
    unused.refresh_from_db()
    assert unused.title == "other words"
    unused.delete()


def test_the_check_says_which_trigger_is_missing(capsys):
    call_command("check", databases=["default"], fail_level="WARNING")
    triggers.lift_rules()
    try:
        missing = [rule.name for rule in triggers.missing_rules()]
        assert "structures_event_no_update" in missing
        call_command("check", databases=["default"])
        assert "The trigger structures_event_no_update is missing" in capsys.readouterr().err
    finally:
        triggers.install_rules()
    assert triggers.missing_rules() == []


def test_columns_narrow_a_rule_and_a_quote_in_its_words_does_no_harm():
    rule = triggers.Rule("structures_structure", "update", "The tag isn't changed.", columns=("tag",))
    with connection.cursor() as cursor:
        for statement in triggers._create(rule, connection.vendor):
            cursor.execute(statement)
    Structure.objects.create(tag="T-1")
    with connection.cursor() as cursor:
        cursor.execute("UPDATE structures_structure SET name = 'Long field'")
        assert "The tag isn't changed." in refused(lambda: cursor.execute("UPDATE structures_structure SET tag = 'T-2'"))
        for statement in triggers._drop(rule, connection.vendor):
            cursor.execute(statement)
