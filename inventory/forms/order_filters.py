"""What the lists of orders and picks can be narrowed by."""

from __future__ import annotations

import django_filters as filters
from django import forms
from django.db.models import Q, QuerySet

from inventory.models import Order, OrderLine, OrderStatus
from structures.models import FamilyRevision


def _families(request: object) -> list[tuple[str, str]]:
    codes = FamilyRevision.objects.order_by("code").values_list("code", flat=True).distinct()
    return [(code, code) for code in codes]


class OrdersFilter(filters.FilterSet):
    named = filters.CharFilter(label="Name, town or number", method="by_name")
    status = filters.ChoiceFilter(label="State", choices=OrderStatus.choices, empty_label="any state")
    family = filters.ChoiceFilter(label="Family", choices=lambda: _families(None), method="by_family", empty_label="any family")
    promised_before = filters.DateFilter(
        label="Promised before", field_name="due_on", lookup_expr="lt", widget=forms.DateInput(attrs={"type": "date"})
    )

    class Meta:
        model = Order
        fields: list[str] = []

    def by_name(self, queryset: QuerySet[Order], name: str, value: str) -> QuerySet[Order]:
        value = value.strip()
        if number := Order.objects.labelled(value).values("pk")[:1]:
            return queryset.filter(pk__in=number)
        return queryset.filter(
            Q(customer__name__icontains=value) | Q(customer__farm__icontains=value) | Q(customer__town__icontains=value)
        )

    def by_family(self, queryset: QuerySet[Order], name: str, value: str) -> QuerySet[Order]:
        lines = OrderLine.objects.current().filter(family_revision__code=value)
        return queryset.filter(pk__in=lines.values("version__order"))


class PicksFilter(OrdersFilter):
    status = None
