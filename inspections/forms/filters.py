"""What the lists of this app can be narrowed by."""

from __future__ import annotations

import django_filters as filters
from django.db.models import Q, QuerySet

from inspections.mending import OPEN, STEPS
from inspections.models import FaultRequest, Storm, Visit
from inspections.states import CLASSES, KINDS


class WrongFilter(filters.FilterSet):
    stands = filters.ChoiceFilter(
        label="Where it stands", method="by_step", empty_label="all that is open",
        choices=[*((step, step) for step in STEPS), ("all", "everything ever wrong")],
    )
    fault_class = filters.ChoiceFilter(
        field_name="class_now", label="Class", choices=[(word.code, word.words) for word in CLASSES],
        empty_label="any class",
    )
    at = filters.CharFilter(label="Tag, town or place", method="by_place")

    class Meta:
        model = FaultRequest
        fields: list[str] = []

    @property
    def qs(self) -> QuerySet[FaultRequest]:
        """What is open, unless something else is asked for."""
        found = super().qs
        return found if self.form.is_valid() and self.form.cleaned_data.get("stands") else found.filter(last_step__in=OPEN)

    def by_step(self, queryset: QuerySet[FaultRequest], name: str, value: str) -> QuerySet[FaultRequest]:
        return queryset if value == "all" else queryset.filter(last_step=value)

    def by_place(self, queryset: QuerySet[FaultRequest], name: str, value: str) -> QuerySet[FaultRequest]:
        return queryset.filter(
            Q(structure__tag__icontains=value) | Q(structure__town__icontains=value) | Q(place__icontains=value)
        )


class DueFilter(filters.FilterSet):
    kind = filters.ChoiceFilter(label="Kind", choices=list(KINDS.items()), empty_label="any kind")
    storm = filters.ModelChoiceFilter(label="Storm", queryset=Storm.objects.all(), empty_label="any storm")
    at = filters.CharFilter(label="Tag or town", method="by_place")
    state = filters.ChoiceFilter(
        label="State", method="by_state", empty_label="due or under way", choices=[("done", "finished"), ("all", "all")]
    )

    class Meta:
        model = Visit
        fields: list[str] = []

    @property
    def qs(self) -> QuerySet[Visit]:
        """What is due or under way, unless something else is asked for."""
        found = super().qs
        asked = self.form.is_valid() and self.form.cleaned_data.get("state")
        return found if asked else found.filter(finished_server_at__isnull=True)

    def by_state(self, queryset: QuerySet[Visit], name: str, value: str) -> QuerySet[Visit]:
        return queryset if value == "all" else queryset.filter(finished_server_at__isnull=False)

    def by_place(self, queryset: QuerySet[Visit], name: str, value: str) -> QuerySet[Visit]:
        return queryset.filter(Q(structure__tag__icontains=value) | Q(structure__town__icontains=value))


class StormFilter(filters.FilterSet):
    kind = filters.ChoiceFilter(label="Kind", choices=Storm._meta.get_field("kind").choices, empty_label="any kind")
    town = filters.CharFilter(label="Town", method="by_town")

    class Meta:
        model = Storm
        fields: list[str] = []

    def by_town(self, queryset: QuerySet[Storm], name: str, value: str) -> QuerySet[Storm]:
        return queryset.filter(towns__icontains=value)
