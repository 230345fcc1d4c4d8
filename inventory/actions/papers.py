"""Papers made once and kept as they were handed over, bytes and SHA-256."""

from __future__ import annotations

import hashlib

from django.utils import timezone

from inventory.models import Order, PickSheet, Shipment, StoredPaper
from inventory.queries.papers import packing_list_context, pick_sheet_context
from structures.models import User
from structures.papers import make_paper


def keep_packing_list(shipment: Shipment, *, by: User | None) -> StoredPaper:
    """Make the packing list of a shipment and keep it. Runs inside the caller's transaction."""
    content = make_paper("pdf/packing_list.html", packing_list_context(shipment))
    part = "" if shipment.part == 1 else f"-part-{shipment.part}"
    return _keep(
        shipment.order, StoredPaper.Kind.PACKING_LIST, f"packing-list-{shipment.order.label}{part}.pdf", content, by, shipment
    )


def keep_pick_sheet(sheet: PickSheet, *, by: User | None) -> StoredPaper:
    """Make the paper of a printed pick and keep it. `sheet` is not stored yet: it names this paper."""
    content = make_paper("pdf/pick_sheet.html", pick_sheet_context(sheet))
    return _keep(sheet.pick.order, StoredPaper.Kind.PICK_SHEET, f"pick-{sheet.label}.pdf", content, by)


def _keep(
    order: Order, kind: str, name: str, content: bytes, by: User | None, shipment: Shipment | None = None
) -> StoredPaper:
    return StoredPaper.objects.create(
        order=order, shipment=shipment, kind=kind, name=name, content=content,
        sha256=hashlib.sha256(content).hexdigest(), made_at=timezone.now(), made_by=by,
    )
