"""Where a lot went."""

from __future__ import annotations

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from inventory.models import PackageLine
from inventory.queries.lots import tags_of
from inventory.tables.parts import FIG
from inventory.tables.stock import BESIDE


class SentLotsTable(tables.Table):
    """Lines of packages that were sent, latest first."""

    noun = ("package line", "package lines")
    sorted_words = "Latest first."

    order = tables.Column(accessor="package__shipment__order__number", verbose_name="Order")
    customer = tables.Column(accessor="package__shipment__order__customer__name", verbose_name="For")
    tags = tables.Column(verbose_name="Stands as", empty_values=(), orderable=False)
    part = tables.Column(accessor="part__number", verbose_name="Part")
    lot = tables.Column(verbose_name="Lot")
    count = tables.Column(verbose_name="Pieces", attrs=FIG)
    package = tables.Column(accessor="package__number", verbose_name="Package", attrs=BESIDE, order_by=("package__number",))
    shipped_on = tables.DateColumn(accessor="package__shipment__shipped_on", verbose_name="Sent", format="j M Y", attrs=FIG)

    class Meta:
        model = PackageLine
        fields = ["order", "customer", "tags", "part", "lot", "count", "package", "shipped_on"]
        order_by = ["-shipped_on"]
        empty_text = "Nothing of this lot was sent, as far as the books know. Pieces of unknown lots may be of it."

    def render_order(self, record: PackageLine) -> SafeString:
        label = record.package.shipment.order.label
        return format_html('<a href="{}">{}</a>', reverse("inventory:order-detail", args=[label]), label)

    def value_order(self, record: PackageLine) -> str:
        return record.package.shipment.order.label

    def render_tags(self, record: PackageLine) -> str:
        return ", ".join(tags_of(record)) or "none yet"

    def value_tags(self, record: PackageLine) -> str:
        return self.render_tags(record)

    def render_count(self, value: int) -> str:
        return f"{value:,}"

    def value_count(self, value: int) -> int:
        return value

    def render_package(self, record: PackageLine) -> str:
        return str(record.package)

    def value_package(self, record: PackageLine) -> str:
        return str(record.package)
