"""The physical thing with a tag, who belongs to it, and what was changed on it since."""

from __future__ import annotations

from datetime import date

from django.conf import settings
from django.db import models

from structures.models.designs import Design


class Structure(models.Model):
    """A structure, standing or still in parcels.

    `design` is null only for one known from nothing but a tag. `unchecked` says "from paper, not checked". `left_on` is
    the day on which its first load left, null where that is not known; whoever ships it writes it here. The names of its ends
    are what people there call them; location codes never depend on them.
    """

    tag = models.CharField(max_length=24)
    name = models.CharField(max_length=80)
    design = models.ForeignKey(Design, null=True, blank=True, on_delete=models.PROTECT, related_name="structures")
    town = models.CharField(max_length=80, blank=True)
    place = models.CharField(max_length=160, blank=True)
    order_number = models.CharField(max_length=24, blank=True)
    left_on = models.DateField("left on", null=True, blank=True)
    finished_on = models.DateField(null=True, blank=True)
    unchecked = models.BooleanField("from paper, not checked", default=False)
    tag_end_name = models.CharField(max_length=40, blank=True)
    far_end_name = models.CharField(max_length=40, blank=True)
    zone = models.CharField("time zone", max_length=48, default="America/New_York")
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["tag"]
        constraints = [
            models.UniqueConstraint(fields=["tag"], name="structure_tag_once"),
            models.CheckConstraint(condition=~models.Q(tag=""), name="structure_has_tag"),
            models.CheckConstraint(
                condition=models.Q(finished_on__isnull=True) | models.Q(left_on__isnull=True)
                | models.Q(finished_on__gte=models.F("left_on")),
                name="structure_finished_after_it_left",
                violation_error_message="A structure can't be finished before the day on which it left.",
            ),
        ]
        indexes = [
            # A storm asks for every structure in the named towns; an order page for the structures it became.
            models.Index(fields=["town"], name="structure_by_town"),
            models.Index(fields=["order_number"], name="structure_by_order"),
        ]

    def __str__(self) -> str:
        return self.tag

    @property
    def end_names(self) -> dict[int, str]:
        """What people call its ends, as drawings take them: {1: "road end"}, 1 the tag end and 2 the far end."""
        return {end: name for end, name in ((1, self.tag_end_name), (2, self.far_end_name)) if name}

    @property
    def stands(self) -> bool:
        return self.finished_on is not None

    def why_not_finished_on(self, day: date | None) -> str:
        """Why it can't have been finished on this day, "" where it can: a frame can't stand before it left in parcels."""
        if day is None or self.left_on is None or day >= self.left_on:
            return ""
        return (
            f"{self.tag} can't be finished on {day.day} {day:%B %Y}: it left here on {self.left_on.day} {self.left_on:%B %Y}. "
            "That day or a later one would do, or none while the day is unknown."
        )

    @property
    def unfinished_words(self) -> str:
        """What is known of one without a finishing day: what paper tells of was shipped long ago, and nobody said when it stood."""
        return "day unknown" if self.unchecked else "still in parcels"


class Belonging(models.Model):
    """A person belongs to a structure from one day to another; while `until` is empty they see it."""

    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="belongings")
    structure = models.ForeignKey(Structure, on_delete=models.PROTECT, related_name="belongings")
    since = models.DateField()
    until = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["since", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["user", "structure"], condition=models.Q(until__isnull=True), name="belonging_open_once"
            ),
            models.CheckConstraint(
                condition=models.Q(until__isnull=True) | models.Q(until__gte=models.F("since")),
                name="belonging_ends_after_it_begins",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.user} at {self.structure}"


class AsBuiltChange(models.Model):
    """Something about the standing structure differs from what was shipped. Appended, never changed."""

    class Act(models.TextChoices):
        MOVED = "moved", "moved"
        LEFT_OUT = "left out", "left out"
        ADDED = "added", "added"
        REPLACED = "replaced", "replaced"

    structure = models.ForeignKey(Structure, on_delete=models.PROTECT, related_name="changes")
    act = models.CharField(max_length=12, choices=Act.choices)
    place = models.CharField(max_length=48)
    words = models.CharField(max_length=400)
    seen_on = models.DateField()
    noted_at = models.DateTimeField(auto_now_add=True)
    noted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["noted_at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(act__in=["moved", "left out", "added", "replaced"]), name="as_built_act_is_known"
            ),
            models.CheckConstraint(condition=~models.Q(words=""), name="as_built_has_words"),
        ]

    def __str__(self) -> str:
        return f"{self.place} {self.act}"


class MeasuredBack(models.Model):
    """What a crew measured on the standing structure, in inches, as `frame.measured.Measured` writes it. Appended, never changed."""

    structure = models.ForeignKey(Structure, on_delete=models.PROTECT, related_name="measured")
    figures = models.JSONField()
    kept_at = models.DateTimeField(auto_now_add=True)
    kept_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["-kept_at", "-id"]
        verbose_name_plural = "measured back"
        constraints = [models.CheckConstraint(condition=~models.Q(figures={}), name="measured_back_has_figures")]

    def __str__(self) -> str:
        return f"{self.structure} measured {self.kept_at:%Y-%m-%d}"
