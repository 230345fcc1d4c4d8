"""Frozen designs: what was sold, as a result and not as a recipe."""

from __future__ import annotations

from functools import lru_cache

from django.db import models

from structures.frame.document import Document, read_document
from structures.models.families import FamilyRevision


class Design(models.Model):
    """One computed frame with everything derived from it. A trigger refuses every later change.

    Equal inputs share a row: `input_hash` covers the family's text, the configuration, schema and engine.
    """

    input_hash = models.CharField(max_length=64)
    family = models.ForeignKey(FamilyRevision, on_delete=models.PROTECT, related_name="designs")
    configuration = models.JSONField()
    document = models.TextField()
    schema = models.PositiveSmallIntegerField()
    engine = models.CharField(max_length=24)
    family_sha256 = models.CharField(max_length=64)
    family_text = models.TextField()
    frozen_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-id"]
        constraints = [
            models.UniqueConstraint(fields=["input_hash"], name="design_input_once"),
            models.CheckConstraint(condition=~models.Q(document=""), name="design_has_document"),
        ]

    def __str__(self) -> str:
        return f"design {self.pk}, {self.family}"

    def read(self) -> Document:
        """The frozen document. Read once for each process, since a design never changes."""
        return _read(self.input_hash, self.document)


@lru_cache(maxsize=64)
def _read(input_hash: str, text: str) -> Document:
    return read_document(text)
