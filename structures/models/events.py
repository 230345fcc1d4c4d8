"""What happened, and which requests were answered already."""

from __future__ import annotations

from django.conf import settings
from django.db import models


class Event(models.Model):
    """One act: who did what to what, with the values before and after. Append-only by trigger."""

    at = models.DateTimeField(auto_now_add=True)
    who = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    verb = models.CharField(max_length=48)
    about = models.CharField(max_length=120)
    before = models.JSONField(null=True, blank=True)
    after = models.JSONField(null=True, blank=True)

    class Meta:
        ordering = ["-id"]
        constraints = [models.CheckConstraint(condition=~models.Q(verb=""), name="event_has_verb")]
        # Every detail page asks for the events about one thing, newest first.
        indexes = [models.Index(fields=["about", "-id"], name="event_about_newest")]

    def __str__(self) -> str:
        return f"{self.verb} {self.about}"


class KeyedRequest(models.Model):
    """A request that changed something, with its answer, so that a double tap changes it once."""

    key = models.UUIDField()
    body_sha256 = models.CharField(max_length=64)
    status = models.PositiveSmallIntegerField(default=0)
    location = models.TextField(blank=True)
    content_type = models.CharField(max_length=120, blank=True)
    content = models.TextField(blank=True)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["key"], name="keyed_request_once")]

    def __str__(self) -> str:
        return str(self.key)
