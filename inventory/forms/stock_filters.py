"""What the lists of parts, bins, movements, receipts and expected parts can be narrowed by."""

from __future__ import annotations

from typing import Any

import django_filters as filters
from django.db.models import F, Q, QuerySet

from inventory.forms.stock_fields import DayField
from inventory.models import Bin, ExpectedReceipt, Movement, PackageLine, Part, Receipt
from inventory.queries.parts import family_codes, role_words, roles

STOCK = [("short", "short"), ("low", "under the reorder point"), ("there", "on hand"), ("held", "held back")]


class PartsFilter(filters.FilterSet):
    named = filters.CharFilter(label="Number, name or tube", method="by_name")
    role = filters.ChoiceFilter(label="Goes where", empty_label="anywhere", choices=lambda: [(role, role_words(role)) for role in roles()])
    family = filters.ChoiceFilter(
        label="Family", method="by_family", empty_label="any family", choices=lambda: [(code, code) for code in family_codes()]
    )
    stock = filters.ChoiceFilter(label="Stock", method="by_stock", empty_label="any", choices=STOCK)

    class Meta:
        model = Part
        fields: list[str] = []

    def by_name(self, queryset: QuerySet[Part], name: str, value: str) -> QuerySet[Part]:
        return queryset.filter(Q(number__icontains=value) | Q(name__icontains=value) | Q(tube__icontains=value))

    def by_family(self, queryset: QuerySet[Part], name: str, value: str) -> QuerySet[Part]:
        # Not by a join: several revisions of the family would show the part as often.
        return queryset.filter(pk__in=Part.objects.of_family(value).values("pk"))

    def by_stock(self, queryset: QuerySet[Part], name: str, value: str) -> QuerySet[Part]:
        conditions: dict[str, Any] = {
            "short": Q(free__lt=0), "low": Q(free__lt=F("reorder_point")), "there": Q(on_hand__gt=0), "held": Q(held_back__gt=0),
        }
        return queryset.filter(conditions[value])


class BinsFilter(filters.FilterSet):
    named = filters.CharFilter(label="Code or where it is", method="by_name")
    held_back = filters.ChoiceFilter(label="To sell or not", empty_label="both", choices=[(True, "held back"), (False, "free to sell")])

    class Meta:
        model = Bin
        fields: list[str] = []

    def by_name(self, queryset: QuerySet[Bin], name: str, value: str) -> QuerySet[Bin]:
        return queryset.filter(Q(code__icontains=value) | Q(zone__icontains=value))


class DayFilter(filters.Filter):
    """A day, whose field says how to write one when it can't be read."""

    field_class = DayField


class MovementsFilter(filters.FilterSet):
    part = filters.CharFilter(label="Part", field_name="part__number", lookup_expr="icontains")
    bin = filters.CharFilter(label="Bin", field_name="bin__code", lookup_expr="iexact")
    lot = filters.CharFilter(label="Lot", lookup_expr="iexact")
    kind = filters.ChoiceFilter(label="What happened", empty_label="anything", choices=Movement.Kind.choices)
    since = DayFilter(label="Since", field_name="at", lookup_expr="date__gte")

    class Meta:
        model = Movement
        fields: list[str] = []


class LotsFilter(filters.FilterSet):
    """A lot must be named: the list answers where one went, and every line ever sent answers nothing."""

    lot = filters.CharFilter(label="Lot, or unknown", lookup_expr="iexact")
    part = filters.CharFilter(label="Part", field_name="part__number", lookup_expr="iexact")

    class Meta:
        model = PackageLine
        fields: list[str] = []

    def filter_queryset(self, queryset: QuerySet[PackageLine]) -> QuerySet[PackageLine]:
        if not self.form.cleaned_data.get("lot"):
            return queryset.none()
        return super().filter_queryset(queryset)


class ReceiptsFilter(filters.FilterSet):
    named = filters.CharFilter(label="From, or their paper", method="by_name")
    part = filters.CharFilter(label="Part", method="by_part")
    lot = filters.CharFilter(label="Lot", method="by_lot")

    class Meta:
        model = Receipt
        fields: list[str] = []

    def by_name(self, queryset: QuerySet[Receipt], name: str, value: str) -> QuerySet[Receipt]:
        return queryset.filter(Q(supplier__icontains=value) | Q(paper__icontains=value))

    def by_part(self, queryset: QuerySet[Receipt], name: str, value: str) -> QuerySet[Receipt]:
        return queryset.filter(pk__in=Receipt.objects.filter(lines__part__number__icontains=value).values("pk"))

    def by_lot(self, queryset: QuerySet[Receipt], name: str, value: str) -> QuerySet[Receipt]:
        return queryset.filter(pk__in=Receipt.objects.filter(lines__lot__iexact=value).values("pk"))


class ExpectedFilter(filters.FilterSet):
    named = filters.CharFilter(label="Part or supplier", method="by_name")

    class Meta:
        model = ExpectedReceipt
        fields: list[str] = []

    def by_name(self, queryset: QuerySet[ExpectedReceipt], name: str, value: str) -> QuerySet[ExpectedReceipt]:
        return queryset.filter(Q(part__number__icontains=value) | Q(part__name__icontains=value) | Q(supplier__icontains=value))
