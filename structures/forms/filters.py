"""What lists of this app can be narrowed by."""

from __future__ import annotations

from typing import Any

import django_filters as filters
from django import forms
from django.db.models import Q, QuerySet

from structures.models import FamilyRevision, Structure, User


class PeopleFilter(filters.FilterSet):
    named = filters.CharFilter(label="Name or email", method="by_name")
    role = filters.ChoiceFilter(label="Role", choices=User.Role.choices, empty_label="any role")

    class Meta:
        model = User
        fields: list[str] = []

    def by_name(self, queryset: QuerySet[User], name: str, value: str) -> QuerySet[User]:
        return queryset.filter(
            Q(username__icontains=value) | Q(first_name__icontains=value) | Q(last_name__icontains=value)
            | Q(email__icontains=value)
        )


class StructuresFilter(filters.FilterSet):
    named = filters.CharFilter(label="Tag, name or order", method="by_name")
    town = filters.CharFilter(label="Town", lookup_expr="icontains")
    family = filters.CharFilter(label="Family", method="by_family")
    stands = filters.ChoiceFilter(
        label="State", method="by_standing", empty_label="any state",
        choices=[("yes", "standing"), ("no", "still in parcels"), ("paper", "from paper, not checked")],
    )

    class Meta:
        model = Structure
        fields: list[str] = []

    def by_name(self, queryset: QuerySet[Structure], name: str, value: str) -> QuerySet[Structure]:
        return queryset.filter(Q(tag__icontains=value) | Q(name__icontains=value) | Q(order_number__icontains=value))

    def by_family(self, queryset: QuerySet[Structure], name: str, value: str) -> QuerySet[Structure]:
        return queryset.filter(design__family__code__iexact=value.strip())

    def by_standing(self, queryset: QuerySet[Structure], name: str, value: str) -> QuerySet[Structure]:
        if value == "paper":
            return queryset.filter(unchecked=True)
        if value == "no":
            return queryset.filter(finished_on__isnull=True, unchecked=False)
        return queryset.filter(finished_on__isnull=False)


class YearField(forms.CharField):
    """A year, such as a date can have."""

    def __init__(self, **kwargs: Any):
        super().__init__(max_length=20, widget=forms.TextInput(attrs={"inputmode": "numeric", "autocomplete": "off"}), **kwargs)

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 9999):
            raise forms.ValidationError(f"{text} is no year: write it like 2024.")
        return int(text)


class YearFilter(filters.Filter):
    field_class = YearField


class FamiliesFilter(filters.FilterSet):
    named = filters.CharFilter(label="Family or words", method="by_name")
    year = YearFilter(label="Took effect in the year", field_name="effective", lookup_expr="year")

    class Meta:
        model = FamilyRevision
        fields: list[str] = []

    def by_name(self, queryset: QuerySet[FamilyRevision], name: str, value: str) -> QuerySet[FamilyRevision]:
        return queryset.filter(Q(code__icontains=value) | Q(title__icontains=value))
