"""The database's own guards of the stock ledger: raw SQL can't make it lie."""

from uuid import uuid4

import pytest
from django.core.checks import run_checks
from django.core.management import call_command
from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from inventory import ledger, triggers
from inventory.ledger import Entry
from inventory.models import Holding, Movement
from tests.inventory.stock import make_bin, stocked

pytestmark = pytest.mark.django_db


def run(sql, *values):
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(sql, values)


@pytest.fixture
def shelf(wes):
    return stocked(wes, "SB26", "C-14", 44)


def raw_movement(who, part, bin, quantity, **fields):
    values = {"kind": "received", "who": who, "at": timezone.now(), "posting": "raw", "key": str(uuid4()), **fields}
    with transaction.atomic():
        return Movement.objects.create(part=part, bin=bin, quantity=quantity, **values)


@pytest.mark.parametrize(
    ("sql", "message"),
    [
        ("UPDATE inventory_movement SET quantity = 45", "A stock movement is never changed or deleted."),
        ("UPDATE inventory_movement SET cause = 'other'", "A stock movement is never changed or deleted."),
        ("DELETE FROM inventory_movement", "A stock movement is never changed or deleted."),
        ("UPDATE inventory_holding SET quantity = 45", "A holding is the sum of its movements."),
        ("UPDATE inventory_holding SET lot = 'P-304'", "A holding"),
        ("DELETE FROM inventory_holding", "A holding is never deleted."),
    ],
)
def test_raw_sql_can_not_change_what_was_stored(shelf, sql, message):
    with pytest.raises(IntegrityError, match=message):
        run(sql)
    assert Holding.objects.get().quantity == 44


def test_a_holding_can_not_be_made_up(shelf):
    part, _ = shelf
    with pytest.raises(IntegrityError, match="A holding is the sum of its movements"):
        run(
            "INSERT INTO inventory_holding (part_id, bin_id, lot, quantity) VALUES (%s, %s, 'unknown', 7)",
            part.pk, make_bin("C-30").pk,
        )


def test_a_movement_stored_past_the_ledger_still_moves_its_holding(wes, shelf):
    raw_movement(wes, *shelf, -4, kind="picked")
    assert Holding.objects.get().quantity == 40


def test_a_movement_below_zero_is_refused_by_the_database(wes, shelf):
    with pytest.raises(IntegrityError):
        raw_movement(wes, *shelf, -45, kind="picked")
    assert (Holding.objects.get().quantity, Movement.objects.count()) == (44, 1)


@pytest.mark.parametrize(
    "wrong", [{"quantity": -43}, {"lot": "P-304", "quantity": 44}, {"other_bin": True}, {"other_part": True}]
)
def test_a_reversal_mirrors_its_entry(wes, shelf, wrong):
    part, bin = shelf
    entry = Movement.objects.get()
    fields = {"kind": "reversed", "reverses": entry, "lot": wrong.get("lot", "unknown")}
    if "other_bin" in wrong:
        bin = stocked(wes, "SB26", "C-30", 44)[1]
    if "other_part" in wrong:
        part = stocked(wes, "SB20", "C-14", 44)[0]
    with pytest.raises(IntegrityError, match="A reversal has the part, bin and lot of its entry"):
        raw_movement(wes, part, bin, wrong.get("quantity", -44), **fields)


def test_an_entry_can_not_be_reversed_twice_even_past_the_ledger(wes, shelf):
    part, bin = shelf
    ledger.post([Entry(part, bin, 100)], key=uuid4(), by=wes, kind="received")
    entry = Movement.objects.order_by("pk")[0]
    raw_movement(wes, part, bin, -44, kind="reversed", reverses=entry)
    with pytest.raises(IntegrityError):
        raw_movement(wes, part, bin, -44, kind="reversed", reverses=entry)


@pytest.mark.parametrize(
    "fields",
    [
        {"lot": ""},
        {"key": ""},
        {"kind": "lost"},
        {"quantity": 0},
        {"kind": "reversed"},
        {"kind": "counted"},
        {"kind": "counted", "counted": 40, "book": 44, "quantity": -3, "cause": "torn bag"},
        {"kind": "counted", "counted": 40, "book": 44, "quantity": -4, "cause": ""},
    ],
)
def test_a_movement_that_says_nothing_true_is_refused(wes, shelf, fields):
    part, bin = shelf
    quantity = fields.pop("quantity", 1)
    with pytest.raises(IntegrityError):
        raw_movement(wes, part, bin, quantity, **fields)


def warnings_of(database):
    return [found for found in run_checks(databases=[database]) if found.id == "inventory.W001"]


def test_the_check_names_a_guard_that_is_gone_and_migrate_puts_it_back(db):
    assert warnings_of("default") == []
    triggers.remove()
    missing = warnings_of("default")
    assert [found.msg for found in missing] == [
        f"The database 'default' lacks the stock guard {name}." for name in triggers.NAMES
    ]
    assert missing[0].hint == "Run `python3 manage.py migrate`, which puts every guard in place."
    call_command("migrate", verbosity=0)
    assert warnings_of("default") == []
