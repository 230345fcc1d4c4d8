"""The list of families and their revisions."""

from __future__ import annotations

import django_tables2 as tables

from structures.models import FamilyRevision
from structures.queries.families import value_of, years_words


class FamiliesTable(tables.Table):
    noun = ("revision", "revisions")

    code = tables.Column(
        verbose_name="Family", order_by=("code", "effective"),
        linkify=("structures:family-detail", {"code": tables.A("code"), "revision": tables.A("revision")}),
    )
    title = tables.Column(verbose_name="What it is")
    revision = tables.Column(verbose_name="Revision")
    effective = tables.Column(verbose_name="Years", order_by=("effective",))
    used = tables.Column(verbose_name="Designs made from it", attrs={"td": {"class": "fig"}, "th": {"class": "fig"}})
    loaded_at = tables.DateColumn(verbose_name="Loaded", format="j M Y", attrs={"td": {"class": "fig"}, "th": {"class": "fig"}})

    class Meta:
        model = FamilyRevision
        fields = ["code", "title", "revision", "effective", "used", "loaded_at"]
        order_by = ["code"]
        empty_text = "No family file was loaded yet: load one."

    def render_effective(self, record: FamilyRevision) -> str:
        return years_words(record.effective, record.until)

    def value_effective(self, record: FamilyRevision) -> str:
        return f"{record.effective:%Y-%m-%d}"

    def render_code(self, record: FamilyRevision) -> str:
        return value_of(record)
