"""The printed pick: made, kept, and entered once as "all as printed, except"."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from uuid import UUID, uuid5

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from inventory.actions.papers import keep_pick_sheet
from inventory.actions.picking import From, record_pick, say_short
from inventory.models import Order, Pick, PickEntry, PickLine, PickSheet
from inventory.queries.parts import twins_of
from inventory.queries.pick_lines import Stand, stands
from inventory.twins import Twin
from structures.events import record
from structures.frame.lengths import feet_inches
from structures.models import User
from structures.refusals import Refuse

EMPTY_BIN = "bin empty, line stays open"
WHY = (EMPTY_BIN, "label torn off", "another lot", "another bin", "taken on a phone already", "hurt or bent pieces left")


@dataclass(frozen=True, slots=True)
class Differs:
    """What somebody wrote on the sheet beside a line: how many were taken, from which lot, and why it differs."""

    taken: int
    lot: str = ""
    why: str = ""


class SheetRefused(Refuse):
    """Lines of a sheet that can't be entered: a sentence for each printed line number. Nothing was entered."""

    def __init__(self, by_line: Mapping[int, str]):
        self.by_line = dict(by_line)
        super().__init__("Some lines can't be entered as they are, so nothing was: look at each.")


def print_sheet(pick: Pick, *, by: User) -> PickSheet:
    """Print what is still to be picked, keep the paper, and return its sheet. Raises `Refuse` when nothing is left."""
    with transaction.atomic():
        order = Order.objects.select_for_update().get(pk=pick.order_id)
        if not order.is_open:
            raise Refuse(f"Order {order.label} is {order.get_status_display()}: nothing is picked for it.")
        lines = [_printed(stand) for stand in stands(pick) if stand.line.still_to_pick]
        if not lines:
            raise Refuse(f"Every line of pick {pick.number} is taken: there is nothing to print.")
        last = pick.sheets.aggregate(last=Max("number"))["last"] or 0
        sheet = PickSheet(
            pick=pick, number=last + 1, version=order.version, lines=lines, printed_at=timezone.now(), printed_by=by
        )
        sheet.paper = keep_pick_sheet(sheet, by=by)
        sheet.save()
        record("pick printed", f"order {order.label}", who=by, after={"sheet": sheet.label, "lines": len(lines)})
        return sheet


def enter_sheet(
    sheet: PickSheet, differs: Mapping[int, Differs], *, picked_by: str, key: UUID, by: User
) -> list[PickEntry]:
    """Enter a printed sheet: every line as printed, except those in `differs` (by printed line number).

    All lines or none. Raises `SheetRefused` with a sentence for each line that can't be, and `Refuse` when the sheet was
    entered before, saying when and by whom.
    """
    with transaction.atomic():
        order = Order.objects.select_for_update().get(pick=sheet.pick_id)
        sheet = PickSheet.objects.select_for_update(of=("self",)).select_related("entered_by", "pick").get(pk=sheet.pk)
        if sheet.entered_at is not None:
            raise Refuse(entered_words(sheet))
        if not order.is_open:
            raise Refuse(f"Order {order.label} is {order.get_status_display()}: nothing is picked for it.")
        printed = {line["n"]: line for line in sheet.lines}
        if strangers := sorted(set(differs) - set(printed)):
            raise SheetRefused({strangers[0]: f"Line {strangers[0]} is not on this sheet: it has 1 to {max(printed)}."})
        entries, refused = _enter_lines(printed, differs, key, by)
        if refused:
            raise SheetRefused(refused)
        sheet.entered_at, sheet.entered_by, sheet.picked_by = timezone.now(), by, picked_by.strip()
        sheet.entered = [
            {"n": n, "taken": row.taken, "lot": row.lot, "why": row.why} for n, row in sorted(differs.items())
        ]
        sheet.save(update_fields=["entered_at", "entered_by", "picked_by", "entered"])
        record(
            "sheet entered", f"order {order.label}", who=by,
            after={"sheet": sheet.label, "picked_by": sheet.picked_by, "except": sheet.entered},
        )
        return entries


def entered_words(sheet: PickSheet) -> str:
    """That a sheet was entered before: when, by whom, and what differed."""
    who = sheet.entered_by.called if sheet.entered_by else "somebody"
    at = timezone.localtime(sheet.entered_at)
    differed = f"{len(sheet.entered)} lines differing" if sheet.entered else "all as printed"
    return f"Sheet {sheet.label} was entered on {at:%-d %b %Y at %H:%M} by {who}, {differed}: a sheet is entered once."


def _printed(stand: Stand) -> dict[str, Any]:
    part = stand.line.part
    twin = next(iter(twins_of(part)), None)
    return {
        "line": stand.line.pk, "n": stand.n, "part": part.number, "name": part.name, "ends": part.ends, "hand": part.hand,
        "length_in": None if part.kind in ("fastener", "fitting") else part.length_in, "bin": stand.bin, "lot": stand.lot,
        "count": stand.line.still_to_pick, "twin": _twin_words(twin) if twin else "",
    }


def _twin_words(twin: Twin) -> str:
    # A fitting has a twin too, and neither has a length; a bolt's stands in its number.
    has_length = twin.piece.length_in is not None and twin.piece.tube
    length = f", {feet_inches(twin.piece.length_in)}" if has_length else ""
    hand = f", {twin.piece.hand} twist" if twin.piece.hand else ""
    return f"{twin.piece.number}{length}{hand}"


def _enter_lines(
    printed: Mapping[int, dict[str, Any]], differs: Mapping[int, Differs], key: UUID, by: User
) -> tuple[list[PickEntry], dict[int, str]]:
    """Enter line by line; what is refused is collected, and the caller then undoes all of it."""
    entries: list[PickEntry] = []
    refused: dict[int, str] = {}
    lines = PickLine.objects.select_related("part", "pick__order").in_bulk([line["line"] for line in printed.values()])
    for n, line in printed.items():
        row = differs.get(n, Differs(line["count"]))
        try:
            entries += _enter_line(lines[line["line"]], line, row, uuid5(key, f"line {n}"), by)
        except Refuse as refusal:
            refused[n] = refusal.sentence
    return entries, refused


def _enter_line(line: PickLine, printed: dict[str, Any], row: Differs, key: UUID, by: User) -> list[PickEntry]:
    if row.taken > printed["count"]:
        more = row.taken - printed["count"]
        raise Refuse(f"{row.taken:,} is {more:,} more than the sheet asks. {printed['count']:,} would do.")
    if row.taken < printed["count"] and not row.why:
        raise Refuse(f"{row.taken:,} is fewer than the {printed['count']:,} printed: say why.")
    entries: list[PickEntry] = []
    if row.taken:
        entries = record_pick(
            line, row.taken, key=key, by=by, taken_from=From(lot=row.lot), how=PickEntry.How.SHEET, why=row.why
        )
    if row.why == EMPTY_BIN:
        say_short(line, by=by)
    return entries
