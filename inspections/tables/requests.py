"""The list of things wrong."""

from __future__ import annotations

import django_tables2 as tables
from django.db.models import Case, IntegerField, QuerySet, Value, When
from django.utils.safestring import SafeString

from inspections.mending import stand_words
from inspections.models import FaultRequest
from inspections.tables.visits import AFTER, FIG
from structures.templatetags.hoop import glyph

_RANK = Case(
    When(class_now="stop", then=Value(0)), When(class_now="mend", then=Value(1)),
    default=Value(2), output_field=IntegerField(),
)


class WrongTable(tables.Table):
    noun = ("thing wrong", "things wrong")
    sorted_words = "Most urgent first."

    place = tables.Column(verbose_name="Place", linkify=("inspections:wrong-detail", {"pk": tables.A("pk")}))
    structure = tables.Column(accessor="structure__tag", verbose_name="Structure")
    urgency = tables.Column(accessor="class_now", verbose_name="Class")
    what = tables.Column(accessor="what_words", verbose_name="What", orderable=False)
    town = tables.Column(accessor="structure__town", verbose_name="Town", default="unknown")
    seen = tables.DateColumn(accessor="observation__server_at", verbose_name="Seen", format="j M Y", attrs=FIG)
    stands = tables.Column(accessor="last_step", verbose_name="Where it stands", attrs=AFTER)

    class Meta:
        model = FaultRequest
        fields = ["place", "structure", "urgency", "what", "town", "seen", "stands"]
        order_by = ["urgency", "seen"]
        empty_text = "Nothing is wrong that was not seen to."

    def render_place(self, record: FaultRequest) -> str:
        return record.code

    def render_urgency(self, record: FaultRequest) -> SafeString:
        word = record.class_word
        return SafeString(f'<span class="state">{glyph(word.glyph)}{word.words}</span>')

    def value_urgency(self, record: FaultRequest) -> str:
        return record.class_word.words

    def order_urgency(self, queryset: QuerySet[FaultRequest], is_descending: bool) -> tuple[QuerySet[FaultRequest], bool]:
        return queryset.annotate(rank=_RANK).order_by("-rank" if is_descending else "rank", "observation__server_at"), True

    def render_stands(self, value: str) -> str:
        return stand_words(value)

    def value_stands(self, value: str) -> str:
        return stand_words(value)
