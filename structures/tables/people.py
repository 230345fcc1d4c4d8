"""The list of people."""

from __future__ import annotations

import django_tables2 as tables
from django.db.models import QuerySet

from structures.models import User


class PeopleTable(tables.Table):
    noun = ("person", "people")

    username = tables.Column(verbose_name="Signs in as", linkify=("structures:person-change", {"username": tables.A("username")}))
    called = tables.Column(verbose_name="Name")
    email = tables.Column(verbose_name="Email", default="none")
    role = tables.Column(verbose_name="Role")
    units = tables.Column(verbose_name="Lengths in")
    is_active = tables.Column(verbose_name="Can sign in")
    last_login = tables.DateColumn(
        verbose_name="Last here", default="never", format="j M Y", attrs={"td": {"class": "fig"}, "th": {"class": "fig"}}
    )

    class Meta:
        model = User
        fields = ["username", "called", "email", "role", "units", "is_active", "last_login"]
        order_by = ["username"]
        empty_text = "Nobody fits these words: take one away."

    def render_is_active(self, value: bool) -> str:
        return "yes" if value else "no"

    def value_is_active(self, value: bool) -> str:
        return "yes" if value else "no"

    def order_called(self, queryset: QuerySet[User], is_descending: bool) -> tuple[QuerySet[User], bool]:
        sign = "-" if is_descending else ""
        return queryset.order_by(f"{sign}first_name", f"{sign}last_name", f"{sign}username"), True
