"""The answer about one structure of an order: what it included, where each piece goes, what differs between the lists."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db.models import Sum
from django.db.models.functions import Coalesce

from inventory.answer_words import Said, braces_said, gaps_said
from inventory.answering import NoRow, PieceRow, gaps, no_rows, piece_rows
from inventory.models import OneOff, Order, OrderLine, OrderStatus, PackageLine, PickLine
from inventory.queries.orders import document_of
from structures.frame import drawing
from structures.frame.choose import read_configuration
from structures.frame.document import Document
from structures.frame.names import short_name
from structures.frame.refusal import Refused
from structures.models import Structure
from structures.queries.retrofit import document_with


@dataclass(frozen=True, slots=True)
class Piece:
    """A row of the table of pieces, and which package it came in."""

    row: PieceRow
    name: str
    came_in: str
    lit: bool


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything on the answer page of one structure."""

    order: Order
    line: OrderLine
    lines: Sequence[OrderLine]
    document: Document
    structure: Structure | None
    state: str
    said: Said
    gaps: Sequence[str]
    pieces: Sequence[Piece]
    nos: Sequence[NoRow]
    lit: frozenset[str]
    offered: Document | None
    offered_code: str
    one_offs: Sequence[OneOff]
    as_built: Sequence[Any]
    shipped_on: Any


def answer(order: Order, ordinal: int | None = None, *, lit: str = "", offer: str = "") -> Answer | None:
    """The answer about a structure line of an order (the first when none is named); None when it has no such line.

    `lit` narrows what is lit to one part number, `offer` draws an option that was not bought as phantom lines.
    """
    lines = list(
        order.version.lines.filter(family_revision__isnull=False).select_related("family_revision", "design").order_by("ordinal")
    )
    line = next((line for line in lines if ordinal in (None, line.ordinal)), None)
    document = document_of(line) if line else None
    if line is None or document is None:
        return None
    shown = lit_pieces(document, lit)
    sent = order.sent_structures.select_related("structure").filter(ordinal=line.ordinal).first()
    offered = offered_document(line, offer)
    first = order.shipments.order_by("part").first()
    return Answer(
        order=order, line=line, lines=lines, document=document, structure=sent.structure if sent else None,
        state=_state_words(order), said=braces_said(document, _verb(order)), gaps=_gaps(order, line),
        pieces=_pieces(order, line, document, offered, shown), nos=no_rows(document), lit=shown, offered=offered,
        offered_code=offer if offered else "", one_offs=list(OneOff.objects.filter(version__order=order, ordinal=line.ordinal)),
        as_built=list(sent.structure.changes.all()) if sent else [], shipped_on=first.shipped_on if first else None,
    )


def lit_pieces(document: Document, part: str = "") -> frozenset[str]:
    """Ids of the pieces that are lit: of one part when it is named, else all braces (ties where there are none)."""
    pieces = (*document.braces, *document.ties)
    named = frozenset(piece.id for piece in pieces if part and part in (piece.part, piece.option))
    return named or frozenset(brace.id for brace in document.braces) or frozenset(tie.id for tie in document.ties)


def offered_document(line: OrderLine, code: str) -> Document | None:
    """The same structure with an option that was not bought; None when there is none or it can't be."""
    configuration = read_configuration(line.configuration)
    if not code or code in configuration.options:
        return None
    try:
        return document_with(line.family_revision, configuration, code)
    except Refused:
        return None


def _pieces(
    order: Order, line: OrderLine, document: Document, offered: Document | None, shown: frozenset[str]
) -> list[Piece]:
    came_in = packages_by_part(order, line)
    rows = piece_rows(document, drawing.letters(document, offered))
    return [
        Piece(row, short_name(row.name), came_in.get(row.part, _not_sent(order)), any(i in shown for i in row.ids)) for row in rows
    ]


def packages_by_part(order: Order, line: OrderLine) -> dict[str, str]:
    """By part number, which packages of this order line it came in: "bundle 6", "part 2, bag 1" (one query)."""
    rows = (
        PackageLine.objects.filter(package__shipment__order=order, pick_line__order_line__ordinal=line.ordinal)
        .values_list("part__number", "package__kind", "package__number", "package__shipment__part")
        .order_by("package__shipment__part", "package__number").distinct()
    )
    found: dict[str, list[str]] = defaultdict(list)
    for part, kind, number, load in rows:
        words = f"{kind} {number}" if load == 1 else f"part {load}, {kind} {number}"
        if words not in found[part]:
            found[part].append(words)
    return {part: ", ".join(words) for part, words in found.items()}


def _not_sent(order: Order) -> str:
    if order.unchecked:
        return "unknown"
    return "not sent" if order.status == OrderStatus.CANCELLED else "not sent yet"


def _gaps(order: Order, line: OrderLine) -> list[str]:
    """Sentences on what differs between ordered, picked and shipped, once something was shipped."""
    if order.unchecked or order.is_draft:
        return []
    rows = list(
        PickLine.objects.filter(pick__order=order, order_line__ordinal=line.ordinal, to_pick__gt=0)
        .annotate(sent=Coalesce(Sum("package_lines__count"), 0)).select_related("part").order_by("pk")
    )
    if not any(row.sent for row in rows):
        taken = sum(1 for row in rows if not row.still_to_pick)
        return [f"Nothing was shipped yet; {taken} of {len(rows)} lines are picked."] if order.is_open else []
    return gaps_said(gaps((short_name(row.part.name), row.to_pick, row.picked, row.sent) for row in rows))


def _verb(order: Order) -> str:
    return "included" if order.status in (OrderStatus.SHIPPED, OrderStatus.FROM_PAPER, OrderStatus.CANCELLED) else "includes"


def _state_words(order: Order) -> str:
    """What must be said before the answer itself."""
    if order.unchecked:
        return f"From paper, not checked: the paper says {order.stated}."
    if order.is_draft:
        return "This order is a draft: this is what it would be."
    if order.status == OrderStatus.CANCELLED:
        return "This order was cancelled and nothing of it was sent."
    return ""
