"""The lists of receipts and of what is on order."""

from __future__ import annotations

from datetime import date

import django_tables2 as tables
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.html import format_html

from inventory.models import ExpectedReceipt, Receipt
from inventory.tables.parts import FIG
from inventory.tables.stock import BESIDE


class ReceiptsTable(tables.Table):
    """Receipts, newest first."""

    noun = ("receipt", "receipts")

    id = tables.Column(verbose_name="Receipt", linkify=("inventory:receipt-detail", {"pk": tables.A("pk")}))
    supplier = tables.Column(verbose_name="From")
    paper = tables.Column(verbose_name="Their paper", default="none")
    received_on = tables.DateColumn(verbose_name="Came on", format="j M Y", attrs=FIG)
    count = tables.Column(verbose_name="Lines", attrs=FIG)
    pieces = tables.Column(verbose_name="Pieces", attrs=FIG)
    by = tables.Column(
        accessor="by__called", verbose_name="Taken in by", order_by=("by__first_name", "by__last_name", "by__username"), attrs=BESIDE
    )

    class Meta:
        model = Receipt
        fields = ["id", "supplier", "paper", "received_on", "count", "pieces", "by"]
        order_by = ["-received_on", "-id"]
        empty_text = "Nothing was taken in yet: take in what came."

    def render_pieces(self, value: int) -> str:
        return f"{value:,}"

    def value_pieces(self, value: int) -> int:
        return value


class ExpectedTable(tables.Table):
    """What is on order, soonest first."""

    noun = ("part on order", "parts on order")
    sorted_words = "Soonest first."

    part = tables.Column(
        accessor="part__number", verbose_name="Part", linkify=("inventory:part-detail", {"number": tables.A("part__number")})
    )
    name = tables.Column(accessor="part__name", verbose_name="Name")
    rest = tables.Column(verbose_name="Still to come", attrs=FIG)
    quantity = tables.Column(verbose_name="Ordered", attrs=FIG)
    due_on = tables.DateColumn(verbose_name="Due", format="j M Y", attrs=FIG)
    supplier = tables.Column(verbose_name="From", attrs=BESIDE)
    reference = tables.Column(verbose_name="Our order", default="none")
    close = tables.TemplateColumn(
        template_name="inventory/_expected_close.html", verbose_name="When it comes", orderable=False, exclude_from_export=True
    )

    class Meta:
        model = ExpectedReceipt
        fields = ["part", "name", "rest", "quantity", "due_on", "supplier", "reference", "close"]
        order_by = ["due_on"]
        empty_text = "Nothing is on order."

    def render_rest(self, value: int) -> str:
        return f"{value:,}"

    def value_rest(self, value: int) -> int:
        return value

    def render_quantity(self, value: int) -> str:
        return f"{value:,}"

    def value_quantity(self, value: int) -> int:
        return value

    def render_due_on(self, value: date) -> str:
        shown = date_format(value, "j M Y")
        return format_html('<span class="late">{}, late</span>', shown) if value < timezone.localdate() else shown
