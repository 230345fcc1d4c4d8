"""The list of structures."""

from __future__ import annotations

from datetime import date

import django_tables2 as tables
from django.utils.formats import date_format

from structures.models import Structure


class StructuresTable(tables.Table):
    noun = ("structure", "structures")

    tag = tables.Column(verbose_name="Tag", linkify=("structures:structure-detail", {"tag": tables.A("tag")}))
    name = tables.Column(verbose_name="Name")
    town = tables.Column(verbose_name="Town", default="unknown")
    family = tables.Column(
        accessor="design__family", verbose_name="Family", order_by=("design__family__code", "design__family__revision"),
        default="unknown",
    )
    order_number = tables.Column(verbose_name="Order", default="unknown")
    finished_on = tables.DateColumn(
        verbose_name="Finished", empty_values=(), format="j M Y", attrs={"td": {"class": "fig"}, "th": {"class": "fig"}}
    )
    unchecked = tables.Column(verbose_name="How we know it", attrs={"td": {"class": "after-fig"}})

    class Meta:
        model = Structure
        fields = ["tag", "name", "town", "family", "order_number", "finished_on", "unchecked"]
        order_by = ["tag"]
        empty_text = "No structure fits these words: take one away."

    def render_finished_on(self, value: date | None, record: Structure) -> str:
        return date_format(value, "j M Y") if value else record.unfinished_words

    def value_finished_on(self, value: date | None, record: Structure) -> date | str:
        return value or record.unfinished_words

    def render_unchecked(self, value: bool) -> str:
        return "from paper, not checked" if value else "from its order"

    def value_unchecked(self, value: bool) -> str:
        return self.render_unchecked(value)
