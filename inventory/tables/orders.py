"""The lists of orders and of picks."""

from __future__ import annotations

from datetime import date
from typing import Any

import django_tables2 as tables
from django.db.models import F, QuerySet
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.html import format_html

from inventory.models import Order
from inventory.queries.orders import how_far, lines_by_order, said_of

FIGURE = {"td": {"class": "fig"}, "th": {"class": "fig"}}


class OrdersTable(tables.Table):
    noun = ("order", "orders")
    sorted_words = "Soonest promise first."

    number = tables.Column(verbose_name="Order", order_by=("unchecked", "number"))
    customer = tables.Column(verbose_name="For", accessor="customer__name")
    town = tables.Column(verbose_name="Town", accessor="customer__town", default="unknown")
    structure = tables.Column(verbose_name="Structure", empty_values=(), orderable=False)
    promised_on = tables.DateColumn(verbose_name="Promised", accessor="due_on", default="none open", format="j M Y", attrs=FIGURE)
    status = tables.Column(verbose_name="State")
    how_far = tables.Column(verbose_name="How far", empty_values=(), orderable=False)

    class Meta:
        model = Order
        fields = ["number", "customer", "town", "structure", "promised_on", "status", "how_far"]
        order_by = ["promised_on"]
        empty_text = "No order fits these words: take one away, or take a new order down."

    def render_number(self, record: Order) -> str:
        return format_html('<a href="{}">{}</a>', reverse("inventory:order-detail", args=[record.label]), record.label)

    def value_number(self, record: Order) -> str:
        return record.label

    def render_structure(self, record: Order) -> str:
        return said_of(self._lines().get(record.pk, []))

    def render_status(self, record: Order) -> str:
        return record.get_status_display()

    def render_how_far(self, record: Any) -> str:
        return how_far(record)

    def render_promised_on(self, value: date | None, record: Order) -> str:
        if value is None:
            return "none open"
        shown = date_format(value, "j M Y")
        # A draft is promised to nobody yet, so it can't be late.
        late = record.is_open and value < timezone.localdate()
        return format_html('<span class="late">{}, late</span>', shown) if late else shown

    def order_promised_on(self, queryset: QuerySet[Order], is_descending: bool) -> tuple[QuerySet[Order], bool]:
        # An order without an open promise is never the soonest, nor the latest: it stands last either way.
        due = F("due_on")
        order = due.desc(nulls_last=True) if is_descending else due.asc(nulls_last=True)
        return queryset.order_by(order, "-number"), True

    def _lines(self) -> dict[int, list[Any]]:
        """The lines of every order shown, fetched once for the page."""
        if not hasattr(self, "_lines_found"):
            shown = self.page.object_list if hasattr(self, "page") else self.rows
            self._lines_found = lines_by_order(row.record for row in shown)
        return self._lines_found


class PicksTable(OrdersTable):
    noun = ("pick", "picks")

    pick = tables.Column(verbose_name="Pick", accessor="pick__number", order_by=("pick__number",))

    class Meta(OrdersTable.Meta):
        fields = ["pick", "customer", "number", "structure", "promised_on", "how_far"]
        sequence = ["pick", "customer", "number", "structure", "promised_on", "how_far"]
        exclude = ["town", "status"]
        empty_text = "Nothing waits to be picked. Confirm an order first, or take a word away."

    def render_pick(self, value: int) -> str:
        return format_html('<a href="{}">{}</a>', reverse("inventory:pick-detail", args=[value]), value)

    def value_pick(self, value: int) -> int:
        return value
