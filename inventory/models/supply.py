"""What comes in: receipts with their lots, and what is expected."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import F, Q


class Receipt(models.Model):
    """One delivery taken in: from whom, on which day, under which paper of theirs. `key` is the request that made it."""

    supplier = models.CharField(max_length=120)
    paper = models.CharField(max_length=60, blank=True)
    received_on = models.DateField()
    note = models.CharField(max_length=200, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="receipts")
    at = models.DateTimeField()
    key = models.CharField(max_length=80, unique=True)

    class Meta:
        ordering = ["-received_on", "-id"]
        constraints = [models.CheckConstraint(condition=~Q(supplier=""), name="inventory_receipt_has_supplier")]

    def __str__(self) -> str:
        return f"receipt {self.pk}"


class ReceiptLine(models.Model):
    """One part and lot of a receipt, the movement that put it into its bin, and what was on order that it answers."""

    receipt = models.ForeignKey(Receipt, on_delete=models.PROTECT, related_name="lines")
    position = models.PositiveIntegerField()
    part = models.ForeignKey("inventory.Part", on_delete=models.PROTECT, related_name="receipt_lines")
    bin = models.ForeignKey("inventory.Bin", on_delete=models.PROTECT, related_name="receipt_lines")
    lot = models.CharField(max_length=40)
    quantity = models.PositiveIntegerField()
    movement = models.OneToOneField("inventory.Movement", on_delete=models.PROTECT, related_name="receipt_line")
    answers = models.ForeignKey(
        "inventory.ExpectedReceipt", on_delete=models.PROTECT, null=True, blank=True, related_name="answered_by"
    )

    class Meta:
        ordering = ["receipt", "position"]
        constraints = [
            models.UniqueConstraint(fields=["receipt", "position"], name="inventory_receipt_line_position_once"),
            models.CheckConstraint(condition=Q(quantity__gt=0), name="inventory_receipt_line_something"),
            models.CheckConstraint(condition=~Q(lot=""), name="inventory_receipt_line_has_lot"),
        ]

    def __str__(self) -> str:
        return f"{self.receipt}, line {self.position}"


class ExpectedReceipt(models.Model):
    """A part on order: how many, from whom, when it is due; `closed_on` once nothing more is expected.

    `came` are the pieces of receipt lines that answer it and were not taken back; all of them close it.
    """

    part = models.ForeignKey("inventory.Part", on_delete=models.PROTECT, related_name="expected")
    quantity = models.PositiveIntegerField()
    came = models.PositiveIntegerField(default=0, editable=False)
    supplier = models.CharField(max_length=120)
    due_on = models.DateField()
    reference = models.CharField(max_length=60, blank=True)
    closed_on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["due_on", "id"]
        constraints = [
            models.CheckConstraint(condition=Q(quantity__gt=0), name="inventory_expected_something"),
            models.CheckConstraint(
                condition=Q(closed_on__isnull=False) | Q(came__lt=F("quantity")), name="inventory_expected_open_has_a_rest",
                violation_error_message="As many came already: give the day on which it was closed, or more pieces.",
            ),
        ]
        indexes = [
            # A part's page and the parts list ask for what is still to come.
            models.Index(
                fields=["part", "due_on"], condition=Q(closed_on__isnull=True), name="inventory_expected_open"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.quantity} of {self.part_id}, due {self.due_on}"

    @property
    def still(self) -> int:
        """How many are still to come, were it open."""
        return max(self.quantity - self.came, 0)
