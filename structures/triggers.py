"""Rows that may not change: triggers on SQLite and PostgreSQL, installed after every migrate.

An app registers its rules in `AppConfig.ready` with `append_only` or `refuse_change` and connects `install_rules` to
`post_migrate`. Django rebuilds a table on SQLite when a migration alters it, which drops its triggers without a
word; that is why they are installed after every migrate and looked for by a system check.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.db import connections


@dataclass(frozen=True, slots=True)
class Rule:
    """Refuse `act` ("update", "delete") on `table` where the SQL `when` holds ("" is always; it may use OLD).

    `columns` narrows an update to these columns, so that the rest of the row stays free.
    """

    table: str
    act: str
    message: str
    when: str = ""
    columns: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        return f"{self.table}_no_{self.act}"


_RULES: dict[str, Rule] = {}


def append_only(table: str, message: str = "") -> None:
    """Rows of `table` may be added and nothing else. A breach is an `IntegrityError` with `message`."""
    refuse_change(table, message or f"Rows of {table} are never changed or deleted.")


def refuse_change(
    table: str, message: str, *, when: str = "", columns: Iterable[str] = (), updates: bool = True, deletes: bool = True
) -> None:
    """Refuse updates (of `columns`, or of any) and deletes of rows for which the SQL `when` holds.

    `when` may use OLD and subqueries, in SQL that both databases know.
    """
    if updates:
        _add(Rule(table, "update", message, when, tuple(columns)))
    if deletes:
        _add(Rule(table, "delete", message, when))


def _add(rule: Rule) -> None:
    _RULES[rule.name] = rule


def rules() -> list[Rule]:
    """Every registered rule, in order of name."""
    return [_RULES[name] for name in sorted(_RULES)]


def install_rules(using: str = "default", **signal: object) -> None:
    """Install every registered rule whose table exists. Connected to `post_migrate` of each app; may run at any time."""
    connection = connections[using]
    tables = set(connection.introspection.table_names())
    with connection.cursor() as cursor:
        for rule in rules():
            if rule.table in tables:
                for statement in _drop(rule, connection.vendor) + _create(rule, connection.vendor):
                    cursor.execute(statement)


def lift_rules(using: str = "default") -> None:
    """Take every rule away. Only a test's teardown has a reason to: it empties the tables, then installs again."""
    connection = connections[using]
    tables = set(connection.introspection.table_names())
    with connection.cursor() as cursor:
        for rule in rules():
            if rule.table in tables:
                for statement in _drop(rule, connection.vendor):
                    cursor.execute(statement)


def missing_rules(using: str = "default") -> list[Rule]:
    """The rules whose table exists and whose trigger does not."""
    connection = connections[using]
    tables = set(connection.introspection.table_names())
    query = (
        "SELECT name FROM sqlite_master WHERE type = 'trigger'"
        if connection.vendor == "sqlite"
        else "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal AND tgenabled <> 'D'"
    )
    with connection.cursor() as cursor:
        cursor.execute(query)
        there = {row[0] for row in cursor.fetchall()}
    return [rule for rule in rules() if rule.table in tables and rule.name not in there]


def _drop(rule: Rule, vendor: str) -> list[str]:
    if vendor == "sqlite":
        return [f'DROP TRIGGER IF EXISTS "{rule.name}"']
    return [f'DROP TRIGGER IF EXISTS "{rule.name}" ON "{rule.table}"']


def _create(rule: Rule, vendor: str) -> list[str]:
    of = f" OF {', '.join(rule.columns)}" if rule.columns else ""
    message = rule.message.replace("'", "''")
    if vendor == "sqlite":
        when = f" WHEN {rule.when}" if rule.when else ""
        return [
            f'CREATE TRIGGER "{rule.name}" BEFORE {rule.act.upper()}{of} ON "{rule.table}" FOR EACH ROW{when} '
            f"BEGIN SELECT RAISE(ABORT, '{message}'); END"
        ]
    # A WHEN clause may hold no subquery on PostgreSQL, so the condition stands inside the function.
    answer = "NEW" if rule.act == "update" else "OLD"
    return [
        f'CREATE OR REPLACE FUNCTION "{rule.name}"() RETURNS trigger LANGUAGE plpgsql AS $rule$ BEGIN '
        f"IF {rule.when or 'TRUE'} THEN RAISE EXCEPTION USING MESSAGE = '{message}', ERRCODE = 'restrict_violation'; "
        f"END IF; RETURN {answer}; END $rule$",
        f'CREATE TRIGGER "{rule.name}" BEFORE {rule.act.upper()}{of} ON "{rule.table}" FOR EACH ROW '
        f'EXECUTE FUNCTION "{rule.name}"()',
    ]
