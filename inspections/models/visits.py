"""Visits, what was seen on them, and the photos.

Times stand twice: by the device's clock, empty where the device did not tell it, and by ours.
"""

from __future__ import annotations

import uuid

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models

from inspections.checklist import finding_words
from inspections.places import CORNERS
from inspections.schedule import Rule, RuleError, read_recurrence
from inspections.states import AGAINST, ANNUAL, CLASSES, KINDS, STATES, STORM, WRONG, Word, class_word, shown
from inspections.walk import Answer
from structures.models import Structure

ONE_BY_ONE, ALL_THE_REST = "one by one", "all the rest"
_KIND_CHOICES = list(KINDS.items())
_STATE_CHOICES = [(word.code, word.words) for word in STATES]
_CLASS_CHOICES = [(word.code, word.words) for word in CLASSES]


def recurrence_can_be_read(value: str) -> None:
    """The rule is one that the schedule reads."""
    try:
        read_recurrence(value)
    except RuleError as error:
        raise ValidationError(str(error)) from None


class WalkRule(models.Model):
    """A walk that comes back: the owner sets when, in the words of RFC 5545, counted from the finishing date."""

    code = models.SlugField(max_length=24)
    name = models.CharField(max_length=60)
    recurrence = models.CharField("when", max_length=120, validators=[recurrence_can_be_read])
    minutes = models.CharField("how long it takes", max_length=40)
    about = models.CharField(max_length=200, blank=True)
    active = models.BooleanField(default=True)

    class Meta:
        ordering = ["id"]
        constraints = [
            models.UniqueConstraint(fields=["code"], name="walk_rule_code_once"),
            models.CheckConstraint(condition=~models.Q(recurrence=""), name="walk_rule_has_a_rule"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def rule(self) -> Rule:
        """The same as the schedule reads it."""
        return Rule(self.code, self.name, self.recurrence, self.minutes, self.about)


class VisitQuerySet(models.QuerySet["Visit"]):
    def waiting(self) -> VisitQuerySet:
        """Visits that are due or under way."""
        return self.filter(finished_server_at__isnull=True)

    def finished(self) -> VisitQuerySet:
        return self.filter(finished_server_at__isnull=False)

    def overdue_first(self) -> VisitQuerySet:
        """By due day, which puts what is overdue on top; a visit without a due day last."""
        return self.order_by(models.F("due_on").asc(nulls_last=True), "structure__tag", "id")


class Visit(models.Model):
    """One look at one structure, due or made. Its id is made on the device, so that it can be begun without signal."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    structure = models.ForeignKey(Structure, on_delete=models.PROTECT, related_name="visits")
    kind = models.CharField(max_length=12, choices=_KIND_CHOICES)
    title = models.CharField(max_length=80)
    why = models.CharField(max_length=300, blank=True)
    due_on = models.DateField(null=True, blank=True)
    rule = models.ForeignKey(WalkRule, null=True, blank=True, on_delete=models.PROTECT, related_name="visits")
    storm = models.ForeignKey("inspections.Storm", null=True, blank=True, on_delete=models.PROTECT, related_name="visits")
    made_at = models.DateTimeField(auto_now_add=True)
    who = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="visits", verbose_name="started by"
    )
    started_at = models.DateTimeField("started, by the device", null=True, blank=True)
    started_server_at = models.DateTimeField("started, by our clock", null=True, blank=True)
    finished_at = models.DateTimeField("finished, by the device", null=True, blank=True)
    finished_server_at = models.DateTimeField("finished, by our clock", null=True, blank=True)

    objects = VisitQuerySet.as_manager()

    class Meta:
        ordering = ["-due_on", "-made_at"]
        constraints = [
            models.CheckConstraint(condition=models.Q(kind__in=list(KINDS)), name="visit_kind_is_known"),
            models.CheckConstraint(
                condition=models.Q(kind=STORM, storm__isnull=False) | (~models.Q(kind=STORM) & models.Q(storm__isnull=True)),
                name="visit_after_a_storm_names_it",
            ),
            models.CheckConstraint(
                condition=models.Q(rule__isnull=True) | models.Q(kind=ANNUAL, due_on__isnull=False),
                name="visit_by_rule_has_a_day",
            ),
            models.CheckConstraint(
                condition=models.Q(started_at__isnull=True, started_server_at__isnull=True, who__isnull=True)
                | models.Q(started_server_at__isnull=False, who__isnull=False),
                name="visit_started_by_somebody",
            ),
            models.CheckConstraint(
                condition=models.Q(finished_at__isnull=True, finished_server_at__isnull=True)
                | models.Q(finished_server_at__isnull=False, started_server_at__isnull=False),
                name="visit_finished_after_it_started",
            ),
            models.UniqueConstraint(
                fields=["structure", "storm"], condition=models.Q(storm__isnull=False), name="visit_once_for_a_storm"
            ),
            models.UniqueConstraint(
                fields=["structure", "rule", "due_on"], condition=models.Q(rule__isnull=False), name="visit_once_for_a_rule_and_day"
            ),
        ]
        indexes = [
            # The list of what is due, overdue first.
            models.Index(fields=["due_on"], condition=models.Q(finished_server_at__isnull=True), name="visit_waiting_by_day"),
            # A structure's last visit.
            models.Index(fields=["structure", "-finished_server_at"], name="visit_newest_of_structure"),
        ]

    def __str__(self) -> str:
        return f"{self.title}, {self.structure}"

    @property
    def is_started(self) -> bool:
        return self.started_server_at is not None

    @property
    def is_finished(self) -> bool:
        return self.finished_server_at is not None


class Observation(models.Model):
    """What one person recorded at one place. Appended: a correction is a new one that names the old."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="observations")
    place = models.CharField(max_length=64)
    state = models.CharField(max_length=8, choices=_STATE_CHOICES)
    fault_class = models.CharField("class", max_length=8, choices=_CLASS_CHOICES, blank=True)
    what = models.CharField(max_length=24, blank=True)
    note = models.CharField(max_length=400, blank=True)
    given = models.CharField(
        max_length=12, choices=[(ONE_BY_ONE, "one by one"), (ALL_THE_REST, "by all the rest looks as built")], default=ONE_BY_ONE
    )
    against = models.CharField("against last time", max_length=8, choices=list(AGAINST.items()), blank=True)
    who = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="observations")
    device_at = models.DateTimeField("by the device", null=True, blank=True)
    server_at = models.DateTimeField("by our clock")
    corrects = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT, related_name="corrected_by")

    class Meta:
        ordering = ["server_at", "id"]
        constraints = [
            models.CheckConstraint(condition=models.Q(state__in=[word.code for word in STATES]), name="observation_state_is_known"),
            models.CheckConstraint(
                condition=models.Q(state=WRONG, fault_class__in=[word.code for word in CLASSES]) & ~models.Q(what="")
                | ~models.Q(state=WRONG) & models.Q(fault_class="", what=""),
                name="observation_class_only_when_wrong",
            ),
            models.CheckConstraint(condition=models.Q(against__in=["", *AGAINST]), name="observation_against_is_known"),
            models.CheckConstraint(
                condition=models.Q(given=ONE_BY_ONE) | models.Q(given=ALL_THE_REST, state="well", corrects__isnull=True),
                name="observation_all_the_rest_looks_as_built",
            ),
            models.CheckConstraint(condition=~models.Q(place=""), name="observation_has_a_place"),
            models.CheckConstraint(
                condition=models.Q(corrects__isnull=True) | ~models.Q(corrects=models.F("id")), name="observation_corrects_another"
            ),
        ]
        # A place's history: last time's answer and picture beside today's.
        indexes = [models.Index(fields=["visit", "place"], name="observation_by_place")]

    def __str__(self) -> str:
        return f"{self.place}: {self.word.words.lower()}"

    @property
    def code(self) -> str:
        """The location code alone."""
        return self.place.split(":", 1)[0]

    @property
    def word(self) -> Word:
        """Its state as words and shape."""
        return shown(self.state, self.fault_class)

    @property
    def class_word(self) -> Word:
        """Its class as words and shape; only where something is wrong."""
        return class_word(self.fault_class)

    @property
    def what_words(self) -> str:
        """What is wrong, in words; "" when nothing is."""
        return finding_words(self.what) if self.what else ""

    @property
    def answer(self) -> Answer:
        """The same for the counts."""
        return Answer(
            str(self.id), self.place, self.state, self.fault_class, str(self.who_id), self.server_at, str(self.corrects_id or "")
        )


def _kept_at(photo: Photo, name: str, kind: str) -> str:
    return f"photos/{photo.visit_id}/{photo.id}-{kind}"


def original_path(photo: Photo, name: str) -> str:
    """Where the bytes as sent lie. No part of the sender's file name is in it, nor an ending that means a type."""
    return _kept_at(photo, name, "original.bin")


def shown_path(photo: Photo, name: str) -> str:
    """Where the upright copy lies."""
    return _kept_at(photo, name, "shown.jpg")


def small_path(photo: Photo, name: str) -> str:
    """Where the small copy lies."""
    return _kept_at(photo, name, "small.jpg")


class Photo(models.Model):
    """A photo of a place or of a corner: the bytes as they came with their SHA-256, and two copies to look at."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="photos")
    place = models.CharField(max_length=64, blank=True)
    corner = models.CharField(max_length=12, choices=[(corner, corner) for corner in CORNERS], blank=True)
    original = models.FileField(upload_to=original_path, max_length=120)
    sha256 = models.CharField(max_length=64)
    name = models.CharField("file name as sent", max_length=60)
    shown = models.FileField(upload_to=shown_path, max_length=120)
    small = models.FileField(upload_to=small_path, max_length=120)
    width_px = models.PositiveIntegerField()
    height_px = models.PositiveIntegerField()
    stand_in = models.BooleanField("drawn, not taken", default=False)
    who = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    device_at = models.DateTimeField("by the device", null=True, blank=True)
    server_at = models.DateTimeField("by our clock")

    class Meta:
        ordering = ["server_at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=(models.Q(place="") & models.Q(corner__in=CORNERS)) | (~models.Q(place="") & models.Q(corner="")),
                name="photo_of_a_place_or_a_corner",
            ),
            models.CheckConstraint(condition=~models.Q(sha256=""), name="photo_has_a_checksum"),
        ]
        # Last time's photo of the same place.
        indexes = [models.Index(fields=["visit", "place"], name="photo_by_place")]

    def __str__(self) -> str:
        return f"photo of {self.code}"

    @property
    def code(self) -> str:
        """The location code, or the corner in words."""
        return self.place.split(":", 1)[0] if self.place else f"{self.corner} corner"
