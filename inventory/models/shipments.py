"""What left the yard: shipments by package and lot, and the papers that went with them."""

from __future__ import annotations

import hashlib

from django.conf import settings
from django.db import models
from django.db.models import Q


class Shipment(models.Model):
    """One load of one order. `part` counts the order's shipments from 1. Never changed afterwards."""

    order = models.ForeignKey("inventory.Order", models.PROTECT, related_name="shipments")
    version = models.ForeignKey("inventory.OrderVersion", models.PROTECT, related_name="+")
    part = models.PositiveIntegerField()
    shipped_on = models.DateField()
    carrier = models.CharField(max_length=120, blank=True)
    note = models.CharField(max_length=300, blank=True)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("order", "part")
        constraints = [
            models.UniqueConstraint(fields=("order", "part"), name="shipment_part_once"),
            models.CheckConstraint(condition=Q(part__gte=1), name="shipment_part_from_one"),
        ]

    def __str__(self) -> str:
        return f"{self.order}, shipment {self.part}"


class Package(models.Model):
    """One bundle, bag, roll or carton. `weight_lb` null means that it is unknown.

    `cautions` are sentences for who lifts it, `leftovers` for who counts what remains when the frame stands.
    """

    shipment = models.ForeignKey(Shipment, models.PROTECT, related_name="packages")
    number = models.PositiveIntegerField()
    kind = models.CharField(max_length=20)
    title = models.CharField(max_length=120)
    weight_lb = models.FloatField(null=True)
    longest_in = models.FloatField(null=True)
    cautions = models.JSONField(default=list)
    leftovers = models.JSONField(default=list)

    class Meta:
        ordering = ("shipment", "number")
        constraints = [
            models.UniqueConstraint(fields=("shipment", "number"), name="package_number_once"),
            models.CheckConstraint(condition=Q(kind__in=["bundle", "bag", "roll", "carton"]), name="package_kind_known"),
            models.CheckConstraint(condition=Q(weight_lb__isnull=True) | Q(weight_lb__gt=0), name="package_weight_real"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.number}"


class PackageLine(models.Model):
    """So many of one part from one lot in one package, and where it goes on the frame, in words."""

    package = models.ForeignKey(Package, models.PROTECT, related_name="lines")
    pick_line = models.ForeignKey("inventory.PickLine", models.PROTECT, related_name="package_lines")
    ordinal = models.PositiveIntegerField()
    part = models.ForeignKey("inventory.Part", models.PROTECT, related_name="+")
    item = models.CharField(max_length=200)
    length_in = models.FloatField(null=True)
    count = models.PositiveIntegerField()
    lot = models.CharField(max_length=40)
    goes = models.CharField(max_length=400, blank=True)

    class Meta:
        ordering = ("package", "ordinal")
        constraints = [
            models.UniqueConstraint(fields=("package", "ordinal"), name="package_line_once"),
            models.CheckConstraint(condition=Q(count__gte=1), name="package_line_counts_something"),
            models.CheckConstraint(condition=~Q(lot=""), name="package_line_lot_or_unknown"),
        ]
        indexes = [
            # "Who has this lot?"
            models.Index(fields=("part", "lot"), name="package_line_part_lot"),
        ]

    def __str__(self) -> str:
        return f"{self.count} of {self.part} in {self.package}"


class SentStructure(models.Model):
    """Which structure stands for which line of an order."""

    order = models.ForeignKey("inventory.Order", models.PROTECT, related_name="sent_structures")
    ordinal = models.PositiveIntegerField()
    structure = models.OneToOneField("structures.Structure", models.PROTECT, related_name="sent")

    class Meta:
        ordering = ("order", "ordinal")
        constraints = [
            models.UniqueConstraint(fields=("order", "ordinal"), name="sent_structure_once"),
        ]

    def __str__(self) -> str:
        return f"{self.structure} of {self.order}"


class StoredPaper(models.Model):
    """A paper as it was sent: its bytes and their SHA-256, never changed and never made again."""

    class Kind(models.TextChoices):
        PACKING_LIST = "packing list", "packing list"
        PICK_SHEET = "pick sheet", "pick sheet"

    order = models.ForeignKey("inventory.Order", models.PROTECT, related_name="papers")
    shipment = models.ForeignKey(Shipment, models.PROTECT, null=True, related_name="papers")
    kind = models.CharField(max_length=20, choices=Kind.choices)
    name = models.CharField(max_length=120)
    media_type = models.CharField(max_length=60, default="application/pdf")
    content = models.BinaryField()
    sha256 = models.CharField(max_length=64)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("order", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(kind__in=["packing list", "pick sheet"]), name="stored_paper_kind_known"),
            models.CheckConstraint(condition=Q(sha256__regex=r"^[0-9a-f]{64}$"), name="stored_paper_has_sha256"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def is_as_kept(self) -> bool:
        """Whether the bytes still have the sum that was written down with them."""
        return hashlib.sha256(bytes(self.content)).hexdigest() == self.sha256
