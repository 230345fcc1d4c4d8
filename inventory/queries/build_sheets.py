"""For whom a build sheet is: the line of an order or the standing structure, and the frozen document that it is read from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from inventory.models import Order, OrderLine, OrderStatus, SentStructure
from structures.frame.document import Document
from structures.frame.sheet import BuildSheet, Heading, build_sheet
from structures.models import Structure

_STATES = {
    OrderStatus.CANCELLED: "This order was cancelled and nothing of it was sent.",
}


@dataclass(frozen=True, slots=True)
class SheetOf:
    """A frozen document and its heading: of an order's line (`order` and `ordinal`), or of the structure with this `tag`."""

    document: Document
    heading: Heading
    order: Order | None
    ordinal: int | None
    tag: str
    lines: Sequence[OrderLine]

    @property
    def file_word(self) -> str:
        """What the names of its files end with."""
        return self.tag if self.order is None else f"{self.order.label}-{self.ordinal}"

    def sheet(self, units: str) -> BuildSheet:
        """The build sheet in a person's own units."""
        return build_sheet(self.document, self.heading, units)


def sheet_of_order(order: Order, ordinal: int | None, today: date) -> SheetOf | None:
    """The sheet of a structure line (the first when none is named); None while nothing is frozen or there is no such line."""
    lines = list(
        order.version.lines.filter(family_revision__isnull=False, design__isnull=False)
        .select_related("design", "family_revision").order_by("ordinal")
    )
    line = next((line for line in lines if ordinal in (None, line.ordinal)), None)
    if line is None:
        return None
    heading = Heading(f"order {order.label}{_of_lines(line, lines)}", order.customer.said, _day(today), _state(order))
    return SheetOf(line.design.read(), heading, order, line.ordinal, "", lines)


def sheet_of_structure(structure: Structure, today: date) -> SheetOf | None:
    """The sheet of a standing structure, with the order that it came with; None for one known from nothing but a tag."""
    if structure.design is None:
        return None
    sent = SentStructure.objects.select_related("order__customer").filter(structure=structure).first()
    if sent is not None:
        only_for, who = f"order {sent.order.label}, structure {structure.tag}", sent.order.customer.said
    else:
        came = f"order {structure.order_number}, " if structure.order_number else ""
        only_for, who = f"{came}structure {structure.tag}", structure.name
    state = "From paper, not checked." if structure.unchecked else ""
    heading = Heading(only_for, who, _day(today), state, structure.end_names)
    return SheetOf(structure.design.read(), heading, None, None, structure.tag, ())


def _of_lines(line: OrderLine, lines: Sequence[OrderLine]) -> str:
    return f", line {line.ordinal}" if len(lines) > 1 else ""


def _state(order: Order) -> str:
    if order.unchecked:
        return f"From paper, not checked: the paper says {order.stated}."
    return _STATES.get(OrderStatus(order.status), "")


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
