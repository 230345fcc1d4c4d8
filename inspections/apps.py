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
        _name_the_rooms()


def _name_the_rooms() -> None:
    from inspections.queries.news import staff_news  # models must be ready first
    from structures.rooms import add_news, add_room  # for the same reason

    add_room(
        "inspections:home", "My structures", "what is yours, and when to walk round it", roles=["grower"], order=10, first_for=["grower"]
    )
    add_room("inspections:my-wrong", "What was wrong", "what was asked for, and where it stands", roles=["grower"], order=20)
    add_room("inspections:visit-list", "Visits", "who looks at what, overdue ones first", roles=["support"], order=60)
    add_room("inspections:storm-list", "Storms", "what came over which towns, and who must look", roles=["support"], order=65)
    add_room("inspections:wrong-list", "Things wrong", "what was seen, asked for, sent and fitted", roles=["support"], order=70)
    add_news(staff_news, roles=["support", "owner"])
