"""Questions about orders: the list, what one is made of, how far it is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Case, Count, F, Q, QuerySet, Sum, When
from django.db.models.functions import Coalesce

from inventory.models import OPEN, Order, OrderLine, OrderStatus
from structures.frame.choose import read_configuration
from structures.frame.document import Document
from structures.frame.refusal import Refused
from structures.models import Event
from structures.queries.designs import document_for


def orders_listed() -> QuerySet[Order]:
    """Every order with customer, `due_on` (the promise that is still open) and how far its pick is: `line_count`,
    `done_count`, `short_pieces`, `taken_pieces`."""
    wanted = Q(pick__lines__to_pick__gt=0)
    return Order.objects.select_related("customer").annotate(
        due_on=Case(When(status__in=[OrderStatus.DRAFT, *OPEN], then=F("promised_on"))),
        line_count=Count("pick__lines", filter=wanted),
        done_count=Count("pick__lines", filter=wanted & Q(pick__lines__picked__gte=F("pick__lines__to_pick"))),
        taken_pieces=Coalesce(Sum("pick__lines__picked"), 0),
        short_pieces=Coalesce(
            Sum(
                F("pick__lines__to_pick") - F("pick__lines__picked"),
                filter=Q(pick__lines__short_at__isnull=False, pick__lines__picked__lt=F("pick__lines__to_pick")),
            ),
            0,
        ),
    )


def how_far(order: Any) -> str:
    """How far an order of `orders_listed` is, in a few words."""
    if order.status == OrderStatus.DRAFT:
        return "not confirmed"
    if order.status == OrderStatus.FROM_PAPER:
        return order.stated or "known from paper"
    if order.status == OrderStatus.CANCELLED:
        return "nothing to do"
    if order.short_pieces:
        return f"{order.short_pieces:,} piece{'' if order.short_pieces == 1 else 's'} short"
    if order.status == OrderStatus.SHIPPED:
        return "all sent"
    if not order.taken_pieces:
        return "not begun"
    return f"{order.done_count} of {order.line_count} lines"


def lines_by_order(orders: Iterable[Order]) -> dict[int, list[OrderLine]]:
    """The lines that hold now, by order (one query for a whole page of orders)."""
    found: dict[int, list[OrderLine]] = defaultdict(list)
    rows = OrderLine.objects.current().filter(version__order__in=[order.pk for order in orders])
    for line in rows.select_related("version", "family_revision", "part").order_by("version__order", "ordinal"):
        found[line.version.order_id].append(line)
    return found


def said_of(lines: Iterable[OrderLine]) -> str:
    """What an order is for, in few words: "G26 × 48, D", "2 × G20 × 48, B", "parts, 7 kinds"."""
    structures: dict[str, int] = defaultdict(int)
    loose = 0
    for line in lines:
        if line.is_structure:
            structures[f"{line.size}, {line.family_revision.revision}"] += 1
        else:
            loose += 1
    said = [size if count == 1 else f"{count} times {size}" for size, count in structures.items()]
    if loose:
        said.append(f"{loose} kind{'' if loose == 1 else 's'} of loose parts")
    return "; ".join(said) or "nothing yet"


@dataclass(frozen=True, slots=True)
class ListFigures:
    """What stands at the head of the list of orders."""

    open: int
    late: int
    next_promise: date | None
    from_paper: int


def list_figures(today: date) -> ListFigures:
    """Counts over all orders, in one query."""
    promised = Q(status__in=[OrderStatus.CONFIRMED, OrderStatus.PICKING, OrderStatus.PART_SHIPPED])
    found = Order.objects.aggregate(
        open=Count("pk", filter=promised), late=Count("pk", filter=promised & Q(promised_on__lt=today)),
        from_paper=Count("pk", filter=Q(unchecked=True)),
    )
    upcoming = Order.objects.filter(promised, promised_on__gte=today).order_by("promised_on").values_list("promised_on", flat=True)
    return ListFigures(found["open"], found["late"], upcoming.first(), found["from_paper"])


def document_of(line: OrderLine) -> Document | None:
    """The frame of a structure line: the frozen one, or for a draft what would be frozen. None when it can't be built."""
    if line.design is not None:
        return line.design.read()
    if not line.is_structure:
        return None
    try:
        return document_for(line.family_revision, read_configuration(line.configuration))
    except Refused:
        return None


def events_of(order: Order) -> QuerySet[Event]:
    """What was done to an order, newest first."""
    return Event.objects.filter(about=f"order {order.label}").select_related("who").order_by("-id")
