"""The lists of bins and of movements."""

from __future__ import annotations

from typing import Any

import django_tables2 as tables

from inventory.models import Bin, Holding, Movement
from inventory.tables.parts import FIG

BESIDE = {"td": {"class": "after-fig"}}


class BinsTable(tables.Table):
    """Bins in walking order."""

    noun = ("bin", "bins")
    sorted_words = ""

    code = tables.Column(verbose_name="Bin", linkify=("inventory:bin-detail", {"code": tables.A("code")}))
    zone = tables.Column(verbose_name="Where", default="not said")
    walk = tables.Column(verbose_name="Turn", attrs=FIG)
    parts = tables.Column(verbose_name="Parts", attrs=FIG)
    pieces = tables.Column(verbose_name="Pieces", attrs=FIG)
    held_back = tables.Column(verbose_name="To sell or not", attrs=BESIDE)

    class Meta:
        model = Bin
        fields = ["code", "zone", "walk", "parts", "pieces", "held_back"]
        order_by = ["walk"]
        empty_text = "No bin fits these words: take one away, or make a bin."

    def render_pieces(self, value: int) -> str:
        return f"{value:,}"

    def value_pieces(self, value: int) -> int:
        return value

    def render_held_back(self, value: bool) -> str:
        return "held back" if value else "free to sell"

    def value_held_back(self, value: bool) -> str:
        return self.render_held_back(value)


class ContentsTable(tables.Table):
    """What lies in one bin."""

    noun = ("lot", "lots")

    part = tables.Column(
        accessor="part__number", verbose_name="Part", linkify=("inventory:part-detail", {"number": tables.A("part__number")})
    )
    name = tables.Column(accessor="part__name", verbose_name="Name")
    lot = tables.Column(verbose_name="Lot")
    quantity = tables.Column(verbose_name="Pieces", attrs=FIG)

    class Meta:
        model = Holding
        fields = ["part", "name", "lot", "quantity"]
        order_by = ["part", "lot"]
        empty_text = "Nothing lies here."

    def render_quantity(self, value: int) -> str:
        return f"{value:,}"

    def value_quantity(self, value: int) -> int:
        return value


class MovementsTable(tables.Table):
    """Movements, newest first."""

    noun = ("movement", "movements")

    id = tables.Column(verbose_name="Movement", linkify=("inventory:movement-detail", {"pk": tables.A("pk")}))
    part = tables.Column(accessor="part__number", verbose_name="Part")
    quantity = tables.Column(verbose_name="Pieces", attrs=FIG)
    bin = tables.Column(accessor="bin__code", verbose_name="Bin", attrs=BESIDE)
    lot = tables.Column(verbose_name="Lot")
    kind = tables.Column(verbose_name="What happened")
    at = tables.DateTimeColumn(verbose_name="When", format="j M Y, H:i")
    who = tables.Column(accessor="who__called", verbose_name="By", order_by=("who__first_name", "who__last_name", "who__username"))
    about = tables.Column(accessor="reference", verbose_name="For", empty_values=(), orderable=False)

    class Meta:
        model = Movement
        fields = ["id", "part", "quantity", "bin", "lot", "kind", "at", "who", "about"]
        order_by = ["-id"]
        empty_text = "No movement fits these words: take one away."

    def render_quantity(self, value: int) -> str:
        return f"{value:+,}" if value else "0"

    def value_quantity(self, value: int) -> Any:
        return value

    def render_kind(self, record: Movement) -> str:
        words = record.get_kind_display()
        return f"{words}, taken back" if hasattr(record, "reversed_by") else words

    def value_kind(self, record: Movement) -> str:
        return self.render_kind(record)

    def render_about(self, record: Movement) -> str:
        return "; ".join(words for words in (record.reference, record.cause) if words)

    def value_about(self, record: Movement) -> str:
        return self.render_about(record)


class PartMovementsTable(MovementsTable):
    """Movements of one part, on its own page."""

    class Meta(MovementsTable.Meta):
        exclude = ["part"]
        empty_text = "Nothing of it came or went yet."
