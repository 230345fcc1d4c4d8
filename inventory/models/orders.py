"""Orders, their versions and lines, and the maker's own changes to one order."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.db import models
from django.db.models import Q


class OrderStatus(models.TextChoices):
    DRAFT = "draft", "draft"
    CONFIRMED = "confirmed", "confirmed"
    PICKING = "picking", "picking"
    PART_SHIPPED = "part shipped", "part shipped"
    SHIPPED = "shipped", "shipped"
    CANCELLED = "cancelled", "cancelled"
    FROM_PAPER = "from paper", "from paper, not checked"


OPEN = (OrderStatus.CONFIRMED, OrderStatus.PICKING, OrderStatus.PART_SHIPPED)


class OrderQuerySet(models.QuerySet["Order"]):
    def promised(self) -> OrderQuerySet:
        """Orders that we owe somebody something on."""
        return self.filter(status__in=OPEN)

    def late(self, today: Any) -> OrderQuerySet:
        return self.promised().filter(promised_on__lt=today)

    def labelled(self, label: str | int) -> OrderQuerySet:
        """The order of this label ("1207", "P-0093"); nothing when the label can't be one."""
        text = str(label).strip().upper()
        unchecked = text.startswith("P-")
        digits = text.removeprefix("P-")
        if not digits.isascii() or not digits.isdigit() or len(digits) > 9:
            return self.none()
        return self.filter(number=int(digits), unchecked=unchecked)


class Order(models.Model):
    """What somebody asked for. An order known only from paper is `unchecked`, and says so everywhere."""

    number = models.PositiveIntegerField()
    customer = models.ForeignKey("inventory.Customer", models.PROTECT, related_name="orders")
    status = models.CharField(max_length=20, choices=OrderStatus.choices, default=OrderStatus.DRAFT)
    promised_on = models.DateField(null=True, blank=True)
    taken_on = models.DateField()
    unchecked = models.BooleanField("from paper, not checked", default=False)
    # How the paper put it: "revision C", "about 2019". Empty for orders that were taken here.
    stated = models.CharField(max_length=80, blank=True)
    note = models.TextField(blank=True)

    objects = OrderQuerySet.as_manager()

    class Meta:
        ordering = ("-number",)
        constraints = [
            models.UniqueConstraint(fields=("unchecked", "number"), name="order_number_once"),
            models.CheckConstraint(condition=Q(status__in=OrderStatus.values), name="order_status_known"),
            models.CheckConstraint(
                condition=Q(unchecked=True, status="from paper") | (Q(unchecked=False) & ~Q(status="from paper")),
                name="order_from_paper_is_unchecked",
            ),
        ]
        indexes = [
            # The list's first page: soonest promise first, by state.
            models.Index(fields=("status", "promised_on"), name="order_status_promised"),
        ]

    def __str__(self) -> str:
        return f"order {self.label}"

    @property
    def label(self) -> str:
        """The number as it is said and written: "1207", or "P-0093" for an order known from paper."""
        return f"P-{self.number:04d}" if self.unchecked else str(self.number)

    @property
    def is_draft(self) -> bool:
        return self.status == OrderStatus.DRAFT

    @property
    def is_open(self) -> bool:
        return self.status in OPEN

    @property
    def version(self) -> OrderVersion:
        """The version that holds now (this may query)."""
        found = self.versions.order_by("-number").first()
        if found is None:
            raise OrderVersion.DoesNotExist(f"Order {self.label} has no version.")
        return found


class OrderVersion(models.Model):
    """What the order said from one moment to the next; never changed once it was confirmed.

    `changes` is the difference to the version before, as data: {"parts": [{part, name, was, now}], "put_back": [{part,
    name, count}], "lines": [sentence, ...]}.
    """

    order = models.ForeignKey(Order, models.PROTECT, related_name="versions")
    number = models.PositiveIntegerField()
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")
    confirmed_at = models.DateTimeField(null=True)
    why = models.CharField(max_length=200, blank=True)
    changes = models.JSONField(default=dict)

    class Meta:
        ordering = ("order", "number")
        constraints = [
            models.UniqueConstraint(fields=("order", "number"), name="order_version_once"),
            models.CheckConstraint(condition=Q(number__gte=1), name="order_version_from_one"),
        ]

    def __str__(self) -> str:
        return f"{self.order}, version {self.number}"


class OrderLineQuerySet(models.QuerySet["OrderLine"]):
    def current(self) -> OrderLineQuerySet:
        """Lines of the version that holds now, of each order."""
        newest = (
            OrderVersion.objects.filter(order=models.OuterRef("version__order")).order_by("-number").values("number")[:1]
        )
        return self.filter(version__number=models.Subquery(newest))


class OrderLine(models.Model):
    """One structure, or a count of one loose part. `ordinal` stays the same from version to version."""

    version = models.ForeignKey(OrderVersion, models.PROTECT, related_name="lines")
    ordinal = models.PositiveIntegerField()
    # A structure: what was chosen, and once confirmed the frozen design that every later page reads.
    family_revision = models.ForeignKey("structures.FamilyRevision", models.PROTECT, null=True, related_name="+")
    configuration = models.JSONField(default=dict)
    design = models.ForeignKey("structures.Design", models.PROTECT, null=True, related_name="+")
    # Loose parts.
    part = models.ForeignKey("inventory.Part", models.PROTECT, null=True, related_name="+")
    quantity = models.PositiveIntegerField(default=1)

    objects = OrderLineQuerySet.as_manager()

    class Meta:
        ordering = ("version", "ordinal")
        constraints = [
            models.UniqueConstraint(fields=("version", "ordinal"), name="order_line_once"),
            models.CheckConstraint(
                condition=Q(family_revision__isnull=False, part__isnull=True, quantity=1)
                | Q(family_revision__isnull=True, part__isnull=False, design__isnull=True, quantity__gte=1),
                name="order_line_is_structure_or_parts",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.version.order}, line {self.ordinal}"

    @property
    def is_structure(self) -> bool:
        return self.family_revision_id is not None

    @property
    def size(self) -> str:
        """Family and length as one says them, "G26 × 48"; for loose parts count and name (this may query)."""
        if not self.is_structure:
            return f"{self.quantity} of {self.part.name}"
        feet = self.configuration.get("length_in", 0) / 12
        return f"{self.family_revision.code} × {feet:g}"


class OneOff(models.Model):
    """The maker's own change to one order: a piece left out, added or moved, with a name, a reason and a date.

    Rows are only ever added. `version` is the first version of the order that has the change.
    """

    class Act(models.TextChoices):
        LEAVE_OUT = "leave out", "leave out"
        ADD = "add", "add"
        MOVE = "move", "move"

    version = models.ForeignKey(OrderVersion, models.PROTECT, related_name="one_offs")
    ordinal = models.PositiveIntegerField()
    act = models.CharField(max_length=10, choices=Act.choices)
    target = models.CharField(max_length=80)
    target_2 = models.CharField(max_length=80, blank=True)
    part = models.CharField(max_length=40, blank=True)
    by_in = models.FloatField(default=0.0)
    who = models.CharField(max_length=120)
    why = models.CharField(max_length=300)
    on = models.DateField()
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")
    recorded_at = models.DateTimeField()

    class Meta:
        ordering = ("version", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(act__in=["leave out", "add", "move"]), name="one_off_act_known"),
            models.CheckConstraint(condition=~Q(target="") & ~Q(who="") & ~Q(why=""), name="one_off_is_signed"),
        ]

    def __str__(self) -> str:
        return f"{self.act} {self.target}"


class InvoicePhoto(models.Model):
    """A photo of the paper that an order is known from: the original bytes apart from the copy that is shown."""

    order = models.ForeignKey(Order, models.PROTECT, related_name="photos")
    original = models.FileField(upload_to="invoices/original/")
    shown = models.FileField(upload_to="invoices/shown/")
    thumbnail = models.FileField(upload_to="invoices/small/")
    sha256 = models.CharField(max_length=64)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    kept_at = models.DateTimeField()
    kept_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("order", "pk")

    def __str__(self) -> str:
        return f"paper of {self.order}"
