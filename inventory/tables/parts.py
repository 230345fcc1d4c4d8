"""The list of parts."""

from __future__ import annotations

from typing import Any

import django_tables2 as tables

from inventory.models import Part
from inventory.queries.parts import stock_words
from structures.frame.lengths import show_length

FIG = {"td": {"class": "fig"}, "th": {"class": "fig"}}
LENGTH = {"td": {"class": "fig nowrap"}, "th": {"class": "fig"}}


class PartsTable(tables.Table):
    """Parts with their length and what of them is free to sell."""

    noun = ("part", "parts")

    number = tables.Column(
        verbose_name="Part", linkify=("inventory:part-detail", {"number": tables.A("number")}), attrs={"td": {"class": "nowrap"}}
    )
    name = tables.Column(verbose_name="Name")
    length_in = tables.Column(verbose_name="Length", attrs=LENGTH, default="none")
    on_hand = tables.Column(verbose_name="On hand", attrs=FIG)
    spoken_for = tables.Column(verbose_name="Spoken for", attrs=FIG)
    free = tables.Column(verbose_name="Free to sell", attrs=FIG)
    held_back = tables.Column(verbose_name="Held back", attrs=FIG)
    words = tables.Column(verbose_name="What stands out", empty_values=(), orderable=False, attrs={"td": {"class": "words"}})

    class Meta:
        model = Part
        fields = ["number", "name", "length_in", "on_hand", "spoken_for", "free", "held_back", "words"]
        order_by = ["number"]
        empty_text = "No part fits these words: take one away."

    def render_length_in(self, value: float) -> str:
        user = getattr(self.request, "user", None)
        return show_length(value, getattr(user, "units", "us"))

    def value_length_in(self, value: float) -> str:
        return self.render_length_in(value)

    def render_words(self, record: Part) -> str:
        return stock_words(record)

    def value_words(self, record: Part) -> str:
        return stock_words(record)

    def _pieces(self, value: int) -> str:
        return f"{value:,}"

    render_on_hand = render_spoken_for = render_free = render_held_back = _pieces

    def _figure(self, value: int) -> Any:
        return value

    value_on_hand = value_spoken_for = value_free = value_held_back = _figure
