"""The database's own guard of the stock ledger, on SQLite and PostgreSQL.

A reversal mirrors the entry that it reverses, and a holding is written when its movement is stored and can never say
anything but the sum of its movements. (That a movement is never changed or deleted is a rule of `structures.triggers`,
registered in the app's `ready`.) `install` puts the guards in place; it runs after every migrate, since rebuilding a
table drops its triggers silently on SQLite. `remove` runs before every migrate: while a table is being rebuilt SQLite
refuses a trigger of another table that names it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.backends.base.base import BaseDatabaseWrapper

_SUM = (
    "COALESCE((SELECT SUM(m.quantity) FROM inventory_movement m"
    " WHERE m.part_id = NEW.part_id AND m.bin_id = NEW.bin_id AND m.lot = NEW.lot), 0)"
)
_MIRROR = (
    "EXISTS (SELECT 1 FROM inventory_movement m WHERE m.id = NEW.reverses_id AND m.part_id = NEW.part_id"
    " AND m.bin_id = NEW.bin_id AND m.lot = NEW.lot AND m.quantity = -NEW.quantity)"
)
# The sum is taken anew and not added to: PostgreSQL runs this after all rows of a statement are in, SQLite after each.
_ADD = (
    f"UPDATE inventory_holding SET quantity = {_SUM}"
    " WHERE part_id = NEW.part_id AND bin_id = NEW.bin_id AND lot = NEW.lot;"
)
_BEGIN = (
    "INSERT INTO inventory_holding (part_id, bin_id, lot, quantity)"
    f" SELECT NEW.part_id, NEW.bin_id, NEW.lot, {_SUM} WHERE NOT EXISTS"
    " (SELECT 1 FROM inventory_holding h"
    " WHERE h.part_id = NEW.part_id AND h.bin_id = NEW.bin_id AND h.lot = NEW.lot);"
)

# name: (when, table, condition under which it refuses, the sentence)
_REFUSING = {
    "inventory_movement_mirror": (
        "BEFORE INSERT",
        "inventory_movement",
        f"NEW.reverses_id IS NOT NULL AND NOT {_MIRROR}",
        "A reversal has the part, bin and lot of its entry and the opposite quantity.",
    ),
    # After, so that it does not judge a row that ON CONFLICT DO NOTHING throws away because somebody else made it first.
    "inventory_holding_begins_as_sum": (
        "AFTER INSERT",
        "inventory_holding",
        f"NEW.quantity <> {_SUM}",
        "A holding is the sum of its movements.",
    ),
    "inventory_holding_stays_sum": (
        "BEFORE UPDATE",
        "inventory_holding",
        f"NEW.quantity <> {_SUM}",
        "A holding is the sum of its movements.",
    ),
    "inventory_holding_same_place": (
        "BEFORE UPDATE",
        "inventory_holding",
        "NEW.part_id <> OLD.part_id OR NEW.bin_id <> OLD.bin_id OR NEW.lot <> OLD.lot",
        "A holding stays with its part, bin and lot.",
    ),
}
_KEEPING = "inventory_movement_keeps_holding"
NAMES = (*_REFUSING, _KEEPING)


def install(using: str = DEFAULT_DB_ALIAS) -> None:
    """Put every guard in place on this database, replacing those that are there."""
    connection = connections[using]
    remove(using)
    with connection.cursor() as cursor:
        for statement in _statements(connection.vendor):
            cursor.execute(statement)


def remove(using: str = DEFAULT_DB_ALIAS) -> None:
    """Take every guard away while tables are rebuilt."""
    connection = connections[using]
    with connection.cursor() as cursor:
        for name in NAMES:
            if connection.vendor == "postgresql":
                cursor.execute(f"DROP TRIGGER IF EXISTS {name} ON {_table(name)}")
                cursor.execute(f"DROP FUNCTION IF EXISTS {name}_does()")
            else:
                cursor.execute(f"DROP TRIGGER IF EXISTS {name}")


def missing(connection: BaseDatabaseWrapper) -> list[str]:
    """Names of the guards that this database has not got; empty while the tables themselves are not there."""
    if not _tables_exist(connection.alias):
        return []
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SELECT tgname FROM pg_trigger WHERE NOT tgisinternal AND tgenabled <> 'D'")
        else:
            cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
        there = {row[0] for row in cursor.fetchall()}
    return [name for name in NAMES if name not in there]


def remove_before_migrate(using: str = DEFAULT_DB_ALIAS, **kwargs: Any) -> None:
    """Receiver of pre_migrate."""
    if _tables_exist(using):
        remove(using)


def install_after_migrate(using: str = DEFAULT_DB_ALIAS, **kwargs: Any) -> None:
    """Receiver of post_migrate: the tables may be missing when only another app was migrated."""
    if _tables_exist(using):
        install(using)


def _tables_exist(using: str) -> bool:
    return {"inventory_movement", "inventory_holding"} <= set(connections[using].introspection.table_names())


def _table(name: str) -> str:
    return "inventory_movement" if name == _KEEPING else _REFUSING[name][1]


def _statements(vendor: str) -> Iterator[str]:
    refusing, keeping = (_postgresql_refusing, _postgresql_keeping) if vendor == "postgresql" else (_sqlite_refusing, _sqlite_keeping)
    for name, (when, table, condition, sentence) in _REFUSING.items():
        yield from refusing(name, when, table, condition, sentence)
    yield from keeping()


def _sqlite_refusing(name: str, when: str, table: str, condition: str, sentence: str) -> Iterator[str]:
    yield f"CREATE TRIGGER {name} {when} ON {table} FOR EACH ROW WHEN {condition} BEGIN SELECT RAISE(ABORT, '{sentence}'); END"


def _sqlite_keeping() -> Iterator[str]:
    yield f"CREATE TRIGGER {_KEEPING} AFTER INSERT ON inventory_movement FOR EACH ROW BEGIN {_ADD} {_BEGIN} END"


def _postgresql_refusing(name: str, when: str, table: str, condition: str, sentence: str) -> Iterator[str]:
    refuse = f"RAISE EXCEPTION '{sentence}' USING ERRCODE = 'integrity_constraint_violation';"
    body = f"IF {condition} THEN {refuse} END IF; RETURN NEW;"
    yield f"CREATE FUNCTION {name}_does() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN {body} END $$"
    yield f"CREATE TRIGGER {name} {when} ON {table} FOR EACH ROW EXECUTE FUNCTION {name}_does()"


def _postgresql_keeping() -> Iterator[str]:
    yield (
        f"CREATE FUNCTION {_KEEPING}_does() RETURNS trigger LANGUAGE plpgsql AS"
        f" $$ BEGIN {_ADD} {_BEGIN} RETURN NULL; END $$"
    )
    yield (
        f"CREATE TRIGGER {_KEEPING} AFTER INSERT ON inventory_movement"
        f" FOR EACH ROW EXECUTE FUNCTION {_KEEPING}_does()"
    )
