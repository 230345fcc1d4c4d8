"""Parts: what the families say that a structure is made of, and the raw stock that parts are made from."""

from __future__ import annotations

from django.db import models
from django.db.models import Q


class PartQuerySet(models.QuerySet["Part"]):
    """Questions about parts in the trade's words."""

    def of_family(self, code: str) -> PartQuerySet:
        """Parts that any revision of this family uses."""
        return self.filter(uses__family__code=code).distinct()

    def with_ends_of(self, part: Part) -> PartQuerySet:
        """Other parts that could be taken for this one: the same ends on the same tube."""
        return self.filter(ends=part.ends, tube=part.tube).exclude(pk=part.pk)


class Part(models.Model):
    """One part number of ours. All that a family defines is fixed once taken up; another definition needs a new number.

    Lengths are inches, weights pounds for one unit, angles degrees. `tube` says diameter and wall in one text
    ("1.315 x .058"), so that equal tubes of different family files compare equal. `hand` is "left", "right" or "".
    """

    class Kind(models.TextChoices):
        TUBE = "tube", "tube"
        FITTING = "fitting", "fitting"
        FASTENER = "fastener", "fastener"
        LENGTHWISE = "lengthwise", "lengthwise stock"
        FILM = "film", "film"

    number = models.CharField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    role = models.CharField(max_length=40)
    kind = models.CharField(max_length=12, choices=Kind.choices)
    tube = models.CharField(max_length=40, blank=True)
    diameter_in = models.FloatField(null=True, blank=True)
    wall_in = models.FloatField(null=True, blank=True)
    coating = models.CharField(max_length=60, blank=True)
    length_in = models.FloatField(null=True, blank=True)
    cut_in = models.FloatField(null=True, blank=True)
    ends = models.CharField(max_length=60, blank=True)
    hand = models.CharField(max_length=5, blank=True)
    twist_deg = models.FloatField(null=True, blank=True)
    weight_lb = models.FloatField(null=True, blank=True)
    spacing_in = models.FloatField(null=True, blank=True)
    unit = models.CharField(max_length=20, default="each")
    spares = models.FloatField(default=0.0)
    pack = models.PositiveIntegerField(default=1)
    # Ours to change at any time: they say when and how we buy or make, not what the part is.
    reorder_point = models.PositiveIntegerField(null=True, blank=True)
    lead_weeks = models.PositiveIntegerField(null=True, blank=True)
    lead_weeks_spring = models.PositiveIntegerField(null=True, blank=True)
    note = models.CharField(max_length=200, blank=True)

    objects = PartQuerySet.as_manager()

    class Meta:
        ordering = ["number"]
        constraints = [
            models.CheckConstraint(condition=~Q(number=""), name="inventory_part_has_number"),
            models.CheckConstraint(
                condition=Q(kind__in=["tube", "fitting", "fastener", "lengthwise", "film"]), name="inventory_part_kind"
            ),
            models.CheckConstraint(condition=Q(hand__in=["", "left", "right"]), name="inventory_part_hand"),
            models.CheckConstraint(condition=Q(pack__gte=1), name="inventory_part_pack_one_or_more"),
            models.CheckConstraint(condition=Q(spares__gte=0), name="inventory_part_spares_not_negative"),
            models.CheckConstraint(
                condition=Q(length_in__isnull=True) | Q(length_in__gt=0), name="inventory_part_length_over_zero"
            ),
            models.CheckConstraint(
                condition=Q(weight_lb__isnull=True) | Q(weight_lb__gte=0), name="inventory_part_weight_not_negative"
            ),
        ]
        indexes = [
            # The nearest twin is looked for among parts with the same ends on the same tube, on every pick line.
            models.Index(fields=["tube", "ends", "length_in"], name="inventory_part_twins"),
        ]

    def __str__(self) -> str:
        return self.number


class PartUse(models.Model):
    """A family revision that uses a part."""

    part = models.ForeignKey(Part, on_delete=models.PROTECT, related_name="uses")
    family = models.ForeignKey("structures.FamilyRevision", on_delete=models.PROTECT, related_name="part_uses")

    class Meta:
        constraints = [models.UniqueConstraint(fields=["part", "family"], name="inventory_part_use_once")]

    def __str__(self) -> str:
        return f"{self.part} in {self.family}"
