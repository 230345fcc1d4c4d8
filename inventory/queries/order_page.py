"""Everything that one order's page says, gathered in a fixed number of queries for each of its structures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from inventory.models import (
    InvoicePhoto,
    OneOff,
    Order,
    OrderLine,
    OrderVersion,
    Pick,
    PutBack,
    SentStructure,
    Shipment,
    StoredPaper,
)
from inventory.queries.orders import document_of, events_of
from inventory.queries.packing import still_to_come
from structures.frame.document import Document
from structures.models import Event, User

MOST_EVENTS = 200  # a whole order, its pick of some thirty lines taken, changed and sent in parts


@dataclass(frozen=True, slots=True)
class LineRow:
    """One line of the order, with its frame when it is a structure, and its tag once it was sent."""

    line: OrderLine
    document: Document | None
    tag: str

    @property
    def options(self) -> str:
        """What is included, in words."""
        if self.document is None:
            return ""
        return ", ".join(option.name.lower() for option in self.document.options if option.included) or "no options"


@dataclass(frozen=True, slots=True)
class VersionRow:
    """One version with its difference to the one before."""

    version: OrderVersion
    parts: Sequence[dict[str, Any]]
    put_back: Sequence[dict[str, Any]]


@dataclass(frozen=True, slots=True)
class DoneRow:
    """The same act by the same person, once or many times on end: twenty lines picked are one row."""

    verb: str
    who: User | None
    first_at: datetime
    last_at: datetime
    times: int
    why: str


@dataclass(frozen=True, slots=True)
class OrderSheet:
    """The page's content. Lists are empty where the order has nothing of the kind."""

    version: OrderVersion
    lines: list[LineRow]
    versions: list[VersionRow]
    one_offs: list[OneOff]
    pick: Pick | None
    put_backs: list[PutBack]
    shipments: list[Shipment]
    papers: list[StoredPaper]
    photos: list[InvoicePhoto]
    sent: list[SentStructure]
    to_come: list[Any]
    done: list[DoneRow]
    totals: dict[str, Any] = field(default_factory=dict)


def order_sheet(order: Order) -> OrderSheet:
    """Gather one order's page: some fifteen queries, however long its history is."""
    versions = list(order.versions.select_related("made_by").order_by("-number"))
    lines = list(versions[0].lines.select_related("family_revision", "design", "part"))
    sent = list(order.sent_structures.select_related("structure"))
    tags = {row.ordinal: row.structure.tag for row in sent}
    rows = [LineRow(line, document_of(line), tags.get(line.ordinal, "")) for line in lines]
    pick = Pick.objects.filter(order=order).first()
    put_backs = PutBack.objects.filter(line__pick__order=order).select_related("line__part", "bin", "done_by")
    return OrderSheet(
        version=versions[0], lines=rows,
        versions=[VersionRow(v, v.changes.get("parts", []), v.changes.get("put_back", [])) for v in versions],
        one_offs=list(OneOff.objects.filter(version__order=order).select_related("recorded_by")),
        pick=pick, put_backs=list(put_backs), shipments=list(order.shipments.order_by("part")),
        # The bytes stay where they are: only their names are listed here.
        papers=list(order.papers.defer("content").order_by("pk")), photos=list(order.photos.all()), sent=sent,
        to_come=still_to_come(order) if order.is_open and order.shipments.exists() else [],
        done=folded(list(events_of(order)[:MOST_EVENTS])), totals=_totals(rows),
    )


def folded(events: Sequence[Event]) -> list[DoneRow]:
    """Events, newest first, with acts that follow on one another drawn together while one person does them on one day."""
    rows: list[DoneRow] = []
    for event in events:
        why = str(event.after.get("why", "")) if isinstance(event.after, dict) else ""
        last = rows[-1] if rows else None
        if last and not (why or last.why) and (last.verb, last.who, last.last_at.date()) == (event.verb, event.who, event.at.date()):
            rows[-1] = replace(last, first_at=event.at, times=last.times + 1)
        else:
            rows.append(DoneRow(event.verb, event.who, event.at, event.at, 1, why))
    return rows


def _totals(rows: Sequence[LineRow]) -> dict[str, Any]:
    documents = [row.document for row in rows if row.document]
    return {
        "structures": len(documents),
        "pieces": sum(document.totals.pieces for document in documents),
        "weight_lb": sum(document.totals.weight_lb for document in documents),
    }
