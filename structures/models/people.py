"""People: one account each, one role each."""

from __future__ import annotations

from django.contrib.auth.models import AbstractUser
from django.db import models


class User(AbstractUser):
    """Somebody who signs in.

    The role decides which rooms are open; which structures a grower sees is said by `Belonging`.
    """

    class Role(models.TextChoices):
        WAREHOUSE = "warehouse", "warehouse"
        SUPPORT = "support", "support"
        GROWER = "grower", "grower"
        OWNER = "owner", "owner"

    class Units(models.TextChoices):
        US = "us", "feet and inches"
        METRIC = "metric", "millimetres"

    role = models.CharField(max_length=12, choices=Role.choices, default=Role.GROWER)
    units = models.CharField(max_length=8, choices=Units.choices, default=Units.US)

    # `createsuperuser` asks for these: without a role the first owner of an installation would come in as a grower.
    REQUIRED_FIELDS = ["email", "role"]

    class Meta(AbstractUser.Meta):
        constraints = [
            models.CheckConstraint(
                condition=models.Q(role__in=["warehouse", "support", "grower", "owner"]), name="user_role_is_known"
            ),
            models.CheckConstraint(condition=models.Q(units__in=["us", "metric"]), name="user_units_are_known"),
        ]

    @property
    def called(self) -> str:
        """The person's name as it is spoken, or the name they sign in with."""
        return self.get_full_name() or self.username

    def has_perm(self, perm: str, obj: object = None) -> bool:
        """In the admin an owner may do whatever a page there allows; nobody else comes in."""
        return self.is_active and (self.role == self.Role.OWNER or super().has_perm(perm, obj))

    def has_module_perms(self, app_label: str) -> bool:
        return self.is_active and (self.role == self.Role.OWNER or super().has_module_perms(app_label))

    @property
    def is_staff_role(self) -> bool:
        return self.role != self.Role.GROWER


class SignInTry(models.Model):
    """A try to sign in that did not succeed, kept while it counts against the next one."""

    name = models.CharField(max_length=150)
    address = models.CharField(max_length=45)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        # Asked before every password is looked at.
        indexes = [models.Index(fields=["name", "address", "at"], name="sign_in_try_by_name")]

    def __str__(self) -> str:
        return f"{self.name} at {self.at}"
