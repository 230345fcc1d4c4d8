"""Picks: what is to leave the bins for an order, what was taken, and what has to go back."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.db.models.functions import Coalesce

from inventory.models.orders import OPEN


class Pick(models.Model):
    """All that is taken from the bins for one order."""

    number = models.PositiveIntegerField(unique=True)
    order = models.OneToOneField("inventory.Order", models.PROTECT, related_name="pick")
    made_at = models.DateTimeField()

    class Meta:
        ordering = ("-number",)

    def __str__(self) -> str:
        return f"pick {self.number}"


class PickLineQuerySet(models.QuerySet["PickLine"]):
    def still_wanted(self) -> PickLineQuerySet:
        """Lines of open orders that are not all taken yet."""
        return self.filter(pick__order__status__in=OPEN, picked__lt=F("to_pick"))

    def annotate_sent(self) -> PickLineQuerySet:
        """Lines with `sent`: how many pieces left in shipments."""
        return self.annotate(sent=Coalesce(models.Sum("package_lines__count"), 0))

    def spoken_for(self) -> PickLineQuerySet:
        """Lines of open orders with `wanted`: pieces that are promised and still lie in the bins."""
        return self.still_wanted().annotate(wanted=F("to_pick") - F("picked"))


class PickLine(models.Model):
    """One part for one order line: `to_pick` is wanted in all, `picked` was taken and not undone.

    From the confirmation on, `to_pick - picked` pieces are spoken for by `promised_on`. When a change lowers `to_pick`
    below what was taken, the difference stands in `to_put_back` until it lies in its bin again.
    """

    pick = models.ForeignKey(Pick, models.PROTECT, related_name="lines")
    order_line = models.ForeignKey("inventory.OrderLine", models.PROTECT, related_name="pick_lines")
    part = models.ForeignKey("inventory.Part", models.PROTECT, related_name="+")
    to_pick = models.PositiveIntegerField()
    picked = models.PositiveIntegerField(default=0)
    to_put_back = models.PositiveIntegerField(default=0)
    promised_on = models.DateField(null=True)
    short_at = models.DateTimeField(null=True)
    short_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")

    objects = PickLineQuerySet.as_manager()

    class Meta:
        ordering = ("pick", "pk")
        constraints = [
            models.UniqueConstraint(fields=("order_line", "part"), name="pick_line_once"),
            # An over-pick can't be written, whoever tries; what a change made too many is named in to_put_back.
            models.CheckConstraint(condition=Q(picked__lte=F("to_pick") + F("to_put_back")), name="pick_line_not_over"),
            models.CheckConstraint(condition=Q(to_put_back__lte=F("picked")), name="pick_line_puts_back_what_it_has"),
        ]
        indexes = [
            # Spoken for, by part: read by the parts list for every row.
            models.Index(fields=("part",), condition=Q(picked__lt=F("to_pick")), name="pick_line_wanted"),
        ]

    def __str__(self) -> str:
        return f"{self.pick}, {self.part}"

    @property
    def still_to_pick(self) -> int:
        return max(self.to_pick - self.picked, 0)

    @property
    def is_short(self) -> bool:
        return self.short_at is not None and self.still_to_pick > 0


class PickEntry(models.Model):
    """One accepted count. Rows are only ever added: an undo is an entry of its own that reverses another."""

    class How(models.TextChoices):
        COUNT = "count", "counted"
        CODE = "code", "code typed or scanned"
        SHEET = "sheet", "from the printed sheet"
        UNDO = "undo", "undone"
        PUT_BACK = "put back", "put back"

    line = models.ForeignKey(PickLine, models.PROTECT, related_name="entries")
    count = models.IntegerField()
    how = models.CharField(max_length=10, choices=How.choices)
    bin = models.ForeignKey("inventory.Bin", models.PROTECT, related_name="+")
    lot = models.CharField(max_length=40)
    who = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()
    key = models.UUIDField(unique=True)
    reverses = models.OneToOneField("self", models.PROTECT, null=True, related_name="reversed_by")
    why = models.CharField(max_length=120, blank=True)

    class Meta:
        ordering = ("line", "pk")
        constraints = [
            models.CheckConstraint(condition=~Q(count=0), name="pick_entry_counts_something"),
            models.CheckConstraint(
                condition=Q(count__gt=0, how__in=["count", "code", "sheet"])
                | Q(count__lt=0, how__in=["undo", "put back"]),
                name="pick_entry_sign_matches",
            ),
            models.CheckConstraint(condition=Q(how="undo") | Q(reverses__isnull=True), name="pick_entry_undo_reverses"),
            models.CheckConstraint(condition=~Q(lot=""), name="pick_entry_lot_or_unknown"),
        ]

    def __str__(self) -> str:
        return f"{self.count} on {self.line}"


class PutBack(models.Model):
    """Pieces that were taken for an order and are wanted no more: into which bin, and when it was done."""

    line = models.ForeignKey(PickLine, models.PROTECT, related_name="put_backs")
    version = models.ForeignKey("inventory.OrderVersion", models.PROTECT, related_name="+")
    count = models.PositiveIntegerField()
    bin = models.ForeignKey("inventory.Bin", models.PROTECT, related_name="+")
    lot = models.CharField(max_length=40)
    why = models.CharField(max_length=200, blank=True)
    made_at = models.DateTimeField()
    done_at = models.DateTimeField(null=True)
    done_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("line", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(count__gte=1), name="put_back_counts_something"),
        ]

    def __str__(self) -> str:
        return f"put back {self.count} of {self.line}"


class PickSheet(models.Model):
    """A printed sheet of a whole pick. `lines` is what was printed; it is entered once.

    `lines` holds {line, n, part, bin, lot, count} in printed order, so that "all as printed" means this paper and not
    what the pick has become since.
    """

    pick = models.ForeignKey(Pick, models.PROTECT, related_name="sheets")
    number = models.PositiveIntegerField()
    version = models.ForeignKey("inventory.OrderVersion", models.PROTECT, related_name="+")
    lines = models.JSONField()
    paper = models.ForeignKey("inventory.StoredPaper", models.PROTECT, related_name="+")
    printed_at = models.DateTimeField()
    printed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")
    entered_at = models.DateTimeField(null=True)
    entered_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")
    picked_by = models.CharField(max_length=120, blank=True)
    entered = models.JSONField(default=list)

    class Meta:
        ordering = ("pick", "number")
        constraints = [
            models.UniqueConstraint(fields=("pick", "number"), name="pick_sheet_once"),
        ]

    def __str__(self) -> str:
        return f"sheet {self.label}"

    @property
    def label(self) -> str:
        """Pick number and sheet number as printed on it: "1214-1"."""
        return f"{self.pick.number}-{self.number}"
