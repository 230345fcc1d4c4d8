"""Things wrong, and what was done about each."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models

from inspections.mending import OPEN, STEPS
from inspections.models.visits import Observation
from structures.models import Structure


class FaultRequestQuerySet(models.QuerySet["FaultRequest"]):
    def with_last_step(self) -> FaultRequestQuerySet:
        """Each with `last_step` and `last_at`, the newest of its steps."""
        newest = RequestStep.objects.filter(request=models.OuterRef("pk")).order_by("-number")
        return self.annotate(
            last_step=models.Subquery(newest.values("step")[:1]), last_at=models.Subquery(newest.values("server_at")[:1])
        )

    def open(self) -> FaultRequestQuerySet:
        """Those that somebody still has to do something about."""
        return self.with_last_step().filter(last_step__in=OPEN)


class FaultRequest(models.Model):
    """One thing wrong at one place of one structure, from the day it was seen until it was looked at again."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    structure = models.ForeignKey(Structure, on_delete=models.PROTECT, related_name="fault_requests")
    place = models.CharField(max_length=64)
    observation = models.ForeignKey(Observation, on_delete=models.PROTECT, related_name="requests")
    made_at = models.DateTimeField(auto_now_add=True)

    objects = FaultRequestQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "id"]
        constraints = [
            models.CheckConstraint(condition=~models.Q(place=""), name="request_has_a_place"),
            models.UniqueConstraint(fields=["observation"], name="request_once_for_an_observation"),
        ]
        # The open request at a place, asked before another one is made.
        indexes = [models.Index(fields=["structure", "place"], name="request_by_place")]

    def __str__(self) -> str:
        return f"{self.structure} {self.code}"

    @property
    def code(self) -> str:
        """The location code alone."""
        return self.place.split(":", 1)[0]


class RequestStep(models.Model):
    """One step in the life of a request. Appended; the newest says where it stands."""

    request = models.ForeignKey(FaultRequest, on_delete=models.PROTECT, related_name="steps")
    number = models.PositiveSmallIntegerField()
    step = models.CharField(max_length=16, choices=[(step, step) for step in STEPS])
    note = models.CharField(max_length=240, blank=True)
    observation = models.ForeignKey(Observation, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    who = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    server_at = models.DateTimeField()

    class Meta:
        ordering = ["request", "number"]
        constraints = [
            models.CheckConstraint(condition=models.Q(step__in=STEPS), name="request_step_is_known"),
            # Two people who take the next step at once get the same number, and only one of them gets it.
            models.UniqueConstraint(fields=["request", "number"], name="request_step_number_once"),
        ]

    def __str__(self) -> str:
        return f"{self.request}: {self.step}"
