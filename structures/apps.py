"""The lowest app: families, designs, structures and the people who belong to them."""

from __future__ import annotations

from django.apps import AppConfig
from django.contrib.admin import apps as admin_apps
from django.db.models.signals import post_migrate

from structures import triggers


class OwnersAdminConfig(admin_apps.AdminConfig):
    """Django's admin with our own site, which asks for an owner."""

    default = False
    default_site = "structures.admin_site.OwnersSite"


class StructuresConfig(AppConfig):
    default = True
    name = "structures"
    verbose_name = "structures"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from structures import checks  # noqa: F401  (registers itself; models must be ready first)

        triggers.append_only("structures_event", "An event is never changed or deleted.")
        triggers.append_only("structures_design", "A frozen design is never changed or deleted.")
        triggers.append_only("structures_asbuiltchange", "An as-built change is never changed: add a newer one.")
        triggers.append_only("structures_measuredback", "What was measured is never changed: add a newer measurement.")
        triggers.refuse_change(
            "structures_familyrevision",
            "A family revision that a design was made from is never changed: load a new revision.",
            when="EXISTS (SELECT 1 FROM structures_design WHERE structures_design.family_id = OLD.id)",
        )
        _name_rooms()
        post_migrate.connect(triggers.install_rules, sender=self, dispatch_uid="structures.triggers")


def _name_rooms() -> None:
    from structures.rooms import add_room  # models must be ready first

    add_room("structures:structure-list", "Structures", "what stands, and what is still in parcels", roles=["support"], order=40)
    add_room("structures:size", "Size and options", "what a structure of a size would be made of", roles=["support"], order=25)
    add_room("structures:family-list", "Families", "what is made, and how it was made in earlier years", roles=["support"], order=80)
    add_room("structures:person-list", "People", "who may sign in, and as what", roles=["owner"], order=90)
