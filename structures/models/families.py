"""Family files as they were loaded."""

from __future__ import annotations

from django.conf import settings
from django.db import models


class FamilyRevision(models.Model):
    """One family file, kept as text. Once a design was made from it a trigger refuses every change."""

    code = models.CharField(max_length=16)
    revision = models.CharField(max_length=8)
    title = models.CharField(max_length=120)
    text = models.TextField()
    sha256 = models.CharField(max_length=64)
    effective = models.DateField()
    source = models.CharField(max_length=120, blank=True)
    loaded_at = models.DateTimeField(auto_now_add=True)
    loaded_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )

    class Meta:
        ordering = ["code", "effective", "revision"]
        constraints = [
            models.UniqueConstraint(fields=["code", "revision"], name="family_revision_once"),
            models.CheckConstraint(condition=~models.Q(code=""), name="family_has_code"),
            models.CheckConstraint(condition=~models.Q(text=""), name="family_has_text"),
        ]

    def __str__(self) -> str:
        return f"{self.code}, revision {self.revision}"
