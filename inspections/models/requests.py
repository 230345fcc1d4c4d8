"""Things wrong, and what was done about each."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models
from django.db.models.functions import Coalesce

from inspections.checklist import finding_words
from inspections.mending import OPEN, STEPS
from inspections.models.visits import Observation
from inspections.states import WRONG, Word, class_word
from structures.models import Structure


class FaultRequestQuerySet(models.QuerySet["FaultRequest"]):
    def with_last_step(self) -> FaultRequestQuerySet:
        """Each with `last_step` and `last_at`, the newest of its steps, and with `class_now` and `what_now`, what was said
        last of what is wrong: a second look may find it worse."""
        newest = RequestStep.objects.filter(request=models.OuterRef("pk")).order_by("-number")
        stand = self.annotate(
            last_step=models.Subquery(newest.values("step")[:1]), last_at=models.Subquery(newest.values("server_at")[:1])
        )
        said = _said_since()
        return stand.annotate(
            class_now=Coalesce(models.Subquery(said.values("fault_class")[:1]), "observation__fault_class"),
            what_now=Coalesce(models.Subquery(said.values("what")[:1]), "observation__what"),
        )

    def open(self) -> FaultRequestQuerySet:
        """Those that somebody still has to do something about."""
        return self.with_last_step().filter(last_step__in=OPEN)


def _said_since() -> models.QuerySet[Observation]:
    """What was seen wrong at a request's place since it was made and until it was settled, newest first."""
    stands = models.ExpressionWrapper(models.OuterRef("last_step"), output_field=models.CharField())
    return (
        Observation.objects.filter(
            visit__structure=models.OuterRef("structure"), place=models.OuterRef("place"), state=WRONG, corrected_by__isnull=True,
            server_at__gte=models.OuterRef("observation__server_at"),
        )
        .annotate(stands=stands)
        .filter(models.Q(stands__in=OPEN) | models.Q(server_at__lte=models.OuterRef("last_at")))
        .order_by("-server_at", "-id")
    )


class FaultRequest(models.Model):
    """One thing wrong at one place of one structure, from the day it was seen until it was looked at again."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    structure = models.ForeignKey(Structure, on_delete=models.PROTECT, related_name="fault_requests")
    place = models.CharField(max_length=64)
    observation = models.ForeignKey(Observation, on_delete=models.PROTECT, related_name="requests")
    made_at = models.DateTimeField(auto_now_add=True)

    objects = FaultRequestQuerySet.as_manager()

    # Given by `with_last_step`, and by nothing else.
    class_now: str
    what_now: str

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

    @property
    def class_word(self) -> Word:
        """The class that was said last, as words and shape; of a request with its last step."""
        return class_word(self.class_now)

    @property
    def what_words(self) -> str:
        """What was said last of what is wrong; of a request with its last step."""
        return finding_words(self.what_now)


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
