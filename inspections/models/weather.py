"""Storms, as they were entered."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models

from inspections.storms import KINDS, Meaning, Weather, meanings, measured, title


def towns_are_words(value: Any) -> None:
    """A storm's towns are a list of names."""
    if not isinstance(value, (list, tuple)) or not value or not all(isinstance(town, str) and town.strip() for town in value):
        raise ValidationError("Name at least one town, each as a word: Quillmere, Alder Ford.")


class Storm(models.Model):
    """One storm over some towns. Where nobody measured, the figure is empty and not zero."""

    kind = models.CharField(max_length=12, choices=list(KINDS.items()))
    on = models.DateField("day")
    towns = models.JSONField(validators=[towns_are_words])
    gust_mph = models.PositiveSmallIntegerField("gust, mph", null=True, blank=True)
    snow_in = models.DecimalField("snow, in.", max_digits=4, decimal_places=1, null=True, blank=True)
    hail_in = models.DecimalField("hail, in.", max_digits=3, decimal_places=2, null=True, blank=True)
    source = models.CharField("who measured it", max_length=160)
    note = models.CharField(max_length=240, blank=True)
    entered_at = models.DateTimeField(auto_now_add=True)
    entered_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["-on", "-id"]
        constraints = [
            models.CheckConstraint(condition=models.Q(kind__in=list(KINDS)), name="storm_kind_is_known"),
            models.CheckConstraint(condition=~models.Q(source=""), name="storm_has_a_source"),
            models.CheckConstraint(
                condition=models.Q(gust_mph__isnull=True) | models.Q(gust_mph__range=(1, 250)), name="storm_gust_is_a_gust"
            ),
            models.CheckConstraint(
                condition=models.Q(snow_in__isnull=True) | models.Q(snow_in__gt=0), name="storm_snow_over_nothing"
            ),
            models.CheckConstraint(
                condition=models.Q(hail_in__isnull=True) | models.Q(hail_in__gt=0), name="storm_hail_over_nothing"
            ),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def weather(self) -> Weather:
        """The figures alone, for the words."""
        return Weather(
            kind=self.kind, on=self.on, gust_mph=self.gust_mph,
            snow_in=None if self.snow_in is None else float(self.snow_in),
            hail_in=None if self.hail_in is None else float(self.hail_in),
        )

    @property
    def title(self) -> str:
        """What the walk after it is called."""
        return title(self.weather)

    @property
    def measured(self) -> str:
        """Its figures in words."""
        return measured(self.weather)

    @property
    def meanings(self) -> tuple[Meaning, ...]:
        """What the figures mean to those who publish them."""
        return meanings(self.weather)
