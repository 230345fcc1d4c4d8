"""The list of walks due and the list of storms."""

from __future__ import annotations

from typing import Any

import django_tables2 as tables
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from inspections.models import Storm, Visit
from inspections.states import STORM

FIG = {"td": {"class": "fig len"}, "th": {"class": "fig"}}
AFTER = {"td": {"class": "after-fig"}, "th": {"class": "after-fig"}}


class VisitsTable(tables.Table):
    noun = ("visit", "visits")
    sorted_words = "Overdue first."

    structure = tables.Column(
        accessor="structure__tag", verbose_name="Structure", linkify=("inspections:visit-detail", {"pk": tables.A("pk")})
    )
    title = tables.Column(verbose_name="Walk", orderable=False)
    due_on = tables.DateColumn(verbose_name="Due", default="no day", format="j M Y", attrs=FIG)
    town = tables.Column(accessor="structure__town", verbose_name="Town", default="unknown", attrs=AFTER)
    state = tables.Column(accessor="pk", verbose_name="State", orderable=False)
    why = tables.Column(verbose_name="Why", orderable=False)

    class Meta:
        model = Visit
        fields = ["structure", "title", "due_on", "town", "state", "why"]
        order_by = ["due_on"]
        empty_text = "No visit is due: enter a storm, or put down the yearly walks."

    def render_state(self, record: Visit) -> str | SafeString:
        words = self.value_state(record)
        return format_html('<span class="late">{}</span>', words) if words in ("overdue", "due now") else words

    def value_state(self, record: Visit) -> str:
        if record.is_finished:
            return f"finished {record.finished_server_at:%-d %b %Y}"
        if record.is_started:
            return f"under way, {record.who.called}"
        today = timezone.localdate()
        if record.due_on is None or record.due_on > today:
            return "due"
        return "due now" if record.kind == STORM or record.due_on == today else "overdue"


class StormsTable(tables.Table):
    noun = ("storm", "storms")
    sorted_words = "Newest first."

    storm = tables.Column(
        accessor="title", verbose_name="Storm", linkify=("inspections:storm-detail", {"pk": tables.A("pk")}), order_by=("kind", "on")
    )
    on = tables.DateColumn(verbose_name="Day", format="j M Y", attrs=FIG)
    measured = tables.Column(verbose_name="Measured", orderable=False, attrs=AFTER)
    towns = tables.Column(verbose_name="Towns", orderable=False)
    visits_due = tables.Column(verbose_name="To look", attrs=FIG)
    visits_made = tables.Column(verbose_name="Looked", attrs=FIG)

    class Meta:
        model = Storm
        fields = ["storm", "on", "measured", "towns", "visits_due", "visits_made"]
        order_by = ["-on"]
        empty_text = "No storm was entered yet."

    def render_towns(self, value: Any) -> str:
        return ", ".join(value)

    def value_towns(self, value: Any) -> str:
        return ", ".join(value)
