"""Bins, movements and holdings. Only `inventory.ledger` writes movements; the database itself keeps the holdings.

A movement is never changed or deleted. A holding is the sum of the movements of one part, bin and lot: a trigger writes
it when a movement is stored and refuses any other figure, a check refuses less than zero.
"""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from inventory.lots import UNKNOWN_LOT


class Bin(models.Model):
    """A place on the shelf. `walk` is its turn in walking order; what lies in a held-back bin is not free to sell."""

    code = models.CharField(max_length=20, unique=True)
    walk = models.PositiveIntegerField()
    zone = models.CharField(max_length=60, blank=True)
    held_back = models.BooleanField(default=False)

    class Meta:
        ordering = ["walk", "code"]
        constraints = [models.CheckConstraint(condition=~Q(code=""), name="inventory_bin_has_code")]

    def __str__(self) -> str:
        return self.code


class Movement(models.Model):
    """One entry of the stock ledger: so many of a part came to or left a bin. `quantity` is signed.

    `key` is unique to the entry; `posting` is the request key that all entries of one posting share. A count entry says
    what was counted and what the books said, and may differ by nothing.
    """

    class Kind(models.TextChoices):
        RECEIVED = "received", "received"
        MADE = "made", "made at the press"
        USED = "used", "used at the press"
        COUNTED = "counted", "counted again"
        MOVED = "moved", "moved"
        HELD_BACK = "held back", "held back"
        RELEASED = "released", "released"
        PICKED = "picked", "picked"
        PUT_BACK = "put back", "put back"
        RETURNED = "returned", "returned"
        SCRAPPED = "scrapped", "scrapped"
        REVERSED = "reversed", "reversed"

    part = models.ForeignKey("inventory.Part", on_delete=models.PROTECT, related_name="movements")
    bin = models.ForeignKey(Bin, on_delete=models.PROTECT, related_name="movements")
    lot = models.CharField(max_length=40, default=UNKNOWN_LOT)
    quantity = models.IntegerField()
    kind = models.CharField(max_length=12, choices=Kind.choices)
    reference = models.CharField(max_length=120, blank=True)
    who = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="movements")
    at = models.DateTimeField()
    posting = models.CharField(max_length=80)
    key = models.CharField(max_length=90, unique=True)
    reverses = models.OneToOneField(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="reversed_by"
    )
    counted = models.PositiveIntegerField(null=True, blank=True)
    book = models.PositiveIntegerField(null=True, blank=True)
    cause = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["-id"]
        constraints = [
            models.CheckConstraint(condition=~Q(lot=""), name="inventory_movement_has_lot"),
            models.CheckConstraint(condition=~Q(key="") & ~Q(posting=""), name="inventory_movement_has_key"),
            models.CheckConstraint(
                condition=~Q(quantity=0) | Q(kind="counted"), name="inventory_movement_moves_something"
            ),
            models.CheckConstraint(
                condition=Q(
                    kind__in=[
                        "received", "made", "used", "counted", "moved", "held back", "released", "picked", "put back",
                        "returned", "scrapped", "reversed",
                    ]
                ),
                name="inventory_movement_kind",
            ),
            models.CheckConstraint(
                condition=Q(kind="reversed", reverses__isnull=False) | (~Q(kind="reversed") & Q(reverses__isnull=True)),
                name="inventory_movement_reversed_names_entry",
            ),
            models.CheckConstraint(
                condition=Q(kind="counted", counted__isnull=False, book__isnull=False, quantity=F("counted") - F("book"))
                | (~Q(kind="counted") & Q(counted__isnull=True, book__isnull=True)),
                name="inventory_movement_count_adds_up",
            ),
            models.CheckConstraint(
                condition=~Q(kind="counted") | Q(quantity=0) | ~Q(cause=""), name="inventory_movement_count_says_cause"
            ),
        ]
        indexes = [
            # The trigger adds up one holding's movements on every entry; a lot is followed from part to bins.
            models.Index(fields=["part", "bin", "lot", "quantity"], name="inventory_movement_sum"),
            # A retry asks for the stored entries of its posting.
            models.Index(fields=["posting"], name="inventory_movement_posting"),
            # "Which orders had lot C-0417?" reads all movements of a lot.
            models.Index(fields=["lot", "part"], name="inventory_movement_lot"),
        ]

    def __str__(self) -> str:
        return f"{self.quantity:+d} {self.part_id} in {self.bin_id}, lot {self.lot}"


class HoldingQuerySet(models.QuerySet["Holding"]):
    """Questions about what lies where."""

    def there(self) -> HoldingQuerySet:
        """Holdings with something in them."""
        return self.filter(quantity__gt=0)

    def free(self) -> HoldingQuerySet:
        """Something in them, and not in a held-back bin."""
        return self.there().filter(bin__held_back=False)

    def in_walking_order(self) -> HoldingQuerySet:
        """By bin as one walks, then by lot."""
        return self.order_by("bin__walk", "bin__code", "lot", "pk")


class Holding(models.Model):
    """What one bin holds of one part and lot: the sum of its movements, written by the database alone."""

    part = models.ForeignKey("inventory.Part", on_delete=models.PROTECT, related_name="holdings")
    bin = models.ForeignKey(Bin, on_delete=models.PROTECT, related_name="holdings")
    lot = models.CharField(max_length=40, default=UNKNOWN_LOT)
    quantity = models.IntegerField(default=0)

    objects = HoldingQuerySet.as_manager()

    class Meta:
        ordering = ["part", "bin", "lot"]
        constraints = [
            models.UniqueConstraint(fields=["part", "bin", "lot"], name="inventory_holding_once"),
            models.CheckConstraint(condition=Q(quantity__gte=0), name="inventory_holding_not_below_zero"),
            models.CheckConstraint(condition=~Q(lot=""), name="inventory_holding_has_lot"),
        ]
        indexes = [models.Index(fields=["bin", "part"], name="inventory_holding_bin")]

    def __str__(self) -> str:
        return f"{self.quantity} of {self.part_id} in {self.bin_id}, lot {self.lot}"
