"""What stands on the papers: packing list and pick sheet."""

from __future__ import annotations

from typing import Any

from inventory.answering import NoRow, no_rows
from inventory.models import PickSheet, Shipment
from inventory.queries.packing import package_rows, still_to_come, structure_lines
from structures.frame.names import listed


def packing_list_context(shipment: Shipment) -> dict[str, Any]:
    """Everything on a packing list. Lengths are feet-inches: the paper is one for all who read it."""
    order = shipment.order
    lines = structure_lines(order)
    documents = [line.design.read() for line in lines if line.design]
    first = documents[0] if documents else None
    return {
        "order": order, "shipment": shipment, "packages": package_rows([shipment]),
        "structures": listed(dict.fromkeys(f"{d.family} × {d.measures.length_in / 12:g} ft" for d in documents)) or "loose parts",
        "revision": f"{first.revision}, {first.effective[:4]}" if first else "none",
        "not_included": _not_included(no_rows(document) for document in documents),
        "to_come": [(line.to_pick - line.sent, line.part.name, line.part.number) for line in still_to_come(order)],
    }


def _not_included(groups: Any) -> list[str]:
    """ "Snow pack (5 pieces, 10 bands)": what was offered and not bought, each once."""
    rows: dict[str, NoRow] = {}
    for group in groups:
        rows.update({row.code: row for row in group if row.kind == "offered, not bought"})
    said = []
    for row in rows.values():
        counts = [f"{n} {word}" for n, word in ((row.pieces, "pieces"), (row.bands, "bands")) if n]
        said.append(f"{row.name} ({', '.join(counts)})" if counts else row.name)
    return said


def pick_sheet_context(sheet: PickSheet) -> dict[str, Any]:
    """Everything on a printed pick: the lines as they were when it was printed."""
    return {"sheet": sheet, "pick": sheet.pick, "order": sheet.pick.order, "lines": sheet.lines}
