"""Carrying out a stock file: what it would change, and changing it."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from uuid import UUID

from django.db import transaction

from inventory import ledger
from inventory.models import Movement
from inventory.queries.stock_file import plan_stock_file
from structures.events import record
from structures.models import User
from structures.refusals import Refuse


@dataclass(frozen=True, slots=True)
class Imported:
    """What was stored: the movements, and how many lines agreed with the books already."""

    movements: list[Movement]
    agreed: int


@transaction.atomic
def import_stock(text: str, *, name: str, shown: str, key: UUID | str, by: User) -> Imported:
    """Make every bin that the file names hold what the file says, all lines or none.

    `shown` is the `stamp` of the plan that the person looked at. Raises `StockFileError` when the file can't be read,
    `Refuse` when it has a bad line, changes nothing, or would now change something else than was shown.
    """
    plan = plan_stock_file(text)
    if plan.wrong:
        raise Refuse(f"{plan.wrong:,} of {len(plan.lines):,} lines can't be read, so nothing was stored: mend them first.")
    stored = Movement.objects.filter(posting=str(key)).exists()
    if not stored and plan.stamp != shown:
        raise Refuse("The stock has moved since this was shown, so nothing was stored: look at the lines as they are now.")
    counted = [
        ledger.Counted(line.part, line.bin, line.lot, line.will)
        for line in plan.lines
        if line.part is not None and line.bin is not None and line.will is not None
    ]
    movements = ledger.count_all(counted, cause=_as_it_says(text), key=key, by=by, reference=f"stock file {name}"[:120])
    if not stored:
        record(
            "imported stock", f"stock file {name}"[:120], who=by,
            after={"sha256": hashlib.sha256(text.encode()).hexdigest(), "changed": len(movements), "lines": len(counted)},
        )
    return Imported(movements, len(counted) - len(movements))


def _as_it_says(text: str) -> str:
    return f"as the file says, SHA-256 {hashlib.sha256(text.encode()).hexdigest()[:12]}"


