"""Rows of this app in the admin: what was recorded can be looked at, rules and what is due can be put right."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.http import HttpRequest

from inspections.models import FaultRequest, Observation, Photo, RequestStep, Storm, Visit, WalkRule
from structures.admin import ViewOnly


@admin.register(WalkRule)
class WalkRuleAdmin(admin.ModelAdmin):
    """When walks come back. A rule that visits were put down by is switched off, not deleted."""

    list_display = ["name", "recurrence", "minutes", "active"]
    list_filter = ["active"]

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(Storm)
class StormAdmin(admin.ModelAdmin):
    """Storms are entered on their own page, which makes the visits due; figures and words can be put right here."""

    list_display = ["title", "on", "measured", "source", "entered_by"]
    list_select_related = ["entered_by"]
    list_filter = ["kind"]
    readonly_fields = ["kind", "on", "towns", "entered_at", "entered_by"]

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(Visit)
class VisitAdmin(admin.ModelAdmin):
    """Why and by when may be put right; who looked and when comes from the walk itself."""

    list_display = ["title", "structure", "kind", "due_on", "who", "started_server_at", "finished_server_at"]
    list_select_related = ["structure", "who"]
    list_filter = ["kind"]
    search_fields = ["structure__tag", "title"]
    fields = [
        "structure", "kind", "title", "why", "due_on", "rule", "storm", "who", "started_at", "started_server_at", "finished_at",
        "finished_server_at",
    ]
    readonly_fields = [name for name in fields if name not in ("title", "why", "due_on")]

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return obj is not None and not obj.is_started


@admin.register(Observation)
class ObservationAdmin(ViewOnly):
    list_display = ["place", "state", "fault_class", "what", "who", "server_at", "device_at"]
    list_select_related = ["who"]
    list_filter = ["state", "fault_class", "given"]
    search_fields = ["place", "visit__structure__tag"]


@admin.register(Photo)
class PhotoAdmin(ViewOnly):
    """Files are opened on the product's own pages, which ask who may see them."""

    list_display = ["code", "visit", "who", "server_at", "device_at", "sha256"]
    list_select_related = ["visit__structure", "who"]
    fields = ["visit", "place", "corner", "name", "sha256", "width_px", "height_px", "stand_in", "who", "device_at", "server_at"]


class StepInline(admin.TabularInline):
    model = RequestStep
    extra = 0
    can_delete = False
    fields = readonly_fields = ["number", "step", "note", "who", "server_at"]

    def has_add_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(FaultRequest)
class FaultRequestAdmin(ViewOnly):
    list_display = ["place", "structure", "observation", "made_at"]
    list_select_related = ["structure", "observation"]
    search_fields = ["place", "structure__tag"]
    inlines = [StepInline]
