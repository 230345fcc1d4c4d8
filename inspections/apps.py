"""The highest app: it looks after structures that were designed and sold in the apps below it."""

from __future__ import annotations

from django.apps import AppConfig
from django.db.models.signals import post_migrate

from structures import triggers


class InspectionsConfig(AppConfig):
    name = "inspections"
    verbose_name = "Walks and storms"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        triggers.append_only("inspections_observation", "An observation is never changed: correct it with a newer one.")
        triggers.append_only("inspections_photo", "A photo is never changed or deleted.")
        triggers.append_only("inspections_requeststep", "A step of a request is never changed: take the next one.")
        triggers.refuse_change(
            "inspections_visit", "A visit that was started stays that structure's and keeps its start.",
            when="OLD.started_server_at IS NOT NULL", columns=("structure_id", "started_at", "started_server_at", "who_id"),
        )
        post_migrate.connect(triggers.install_rules, sender=self, dispatch_uid="inspections.triggers")
