"""People and farms that buy from us."""

from __future__ import annotations

from typing import Any

from django.db import models

from inventory.matching import fold
from inventory.phones import phone_digits


class CustomerQuerySet(models.QuerySet["Customer"]):
    def named(self, name: str, town: str = "") -> CustomerQuerySet:
        """Customers of exactly this name (and town, if one is given), capitals read past."""
        found = self.filter(name__iexact=name.strip())
        return found.filter(town__iexact=town.strip()) if town.strip() else found


class Customer(models.Model):
    """Somebody who ordered. `farm` is what the place is called, when it has a name of its own."""

    name = models.CharField(max_length=120)
    farm = models.CharField(max_length=120, blank=True)
    town = models.CharField(max_length=120, blank=True)
    phone = models.CharField("phone, as it was said", max_length=60, blank=True)
    # What the search box looks in: digits only, with the country code where the number is a whole one.
    phone_digits = models.CharField(max_length=40, blank=True, editable=False)
    # The other thing it looks in: name, farm and town as small letters and figures, without accents.
    folded = models.CharField(max_length=370, blank=True, editable=False)
    note = models.TextField(blank=True)

    objects = CustomerQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")
        constraints = [
            models.CheckConstraint(condition=~models.Q(name=""), name="customer_has_a_name"),
        ]
        indexes = [
            models.Index(fields=("name", "town"), name="customer_name_town"),   # order list, sorted by name
            models.Index(fields=("phone_digits",), name="customer_phone_digits"),   # an exact number from the box
        ]

    def __str__(self) -> str:
        return self.said

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Keep what the search box looks in equal to what was typed: one fact in two forms."""
        self.phone_digits = phone_digits(self.phone)
        self.folded = " ".join(fold(text) for text in (self.name, self.farm, self.town) if text)
        if kwargs.get("update_fields") is not None:
            kwargs["update_fields"] = {*kwargs["update_fields"], "phone_digits", "folded"}
        super().save(*args, **kwargs)

    @property
    def said(self) -> str:
        """Name and place as one says them: "Ada Quill, Quillmere Croft"."""
        place = self.farm or self.town
        return f"{self.name}, {place}" if place and place != self.name else self.name
