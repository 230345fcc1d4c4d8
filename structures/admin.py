"""Rows of this app in the admin: what was frozen or happened can be looked at, the rest changed."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.contrib.auth.admin import UserAdmin
from django.contrib.auth.models import Group
from django.http import HttpRequest

from structures.models import (
    AsBuiltChange,
    Belonging,
    Design,
    Event,
    FamilyRevision,
    KeyedRequest,
    MeasuredBack,
    Structure,
    User,
)

# What somebody may do hangs on the role, so a group would be a second list that says nothing.
admin.site.unregister(Group)


class ViewOnly(admin.ModelAdmin):
    """Rows that are added by actions and never changed: no form, no box to tick, no delete."""

    actions = None

    def has_add_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(User)
class PersonAdmin(UserAdmin):
    list_display = ["username", "first_name", "last_name", "role", "units", "is_active"]
    list_filter = ["role", "is_active"]
    fieldsets = [
        (None, {"fields": ["username", "password"]}),
        ("Person", {"fields": ["first_name", "last_name", "email", "role", "units"]}),
        ("Account", {"fields": ["is_active", "last_login", "date_joined"]}),
    ]
    add_fieldsets = [(None, {"fields": ["username", "role", "units", "password1", "password2"]})]
    readonly_fields = ["last_login", "date_joined"]
    filter_horizontal: list[str] = []

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        # Somebody's name stands under what they did; an account that shall end is switched off.
        return False


@admin.register(FamilyRevision)
class FamilyRevisionAdmin(ViewOnly):
    """Family files are loaded on their own page, which reads them first."""

    list_display = ["code", "revision", "title", "effective", "loaded_at", "loaded_by"]
    list_filter = ["code"]


@admin.register(Design)
class DesignAdmin(ViewOnly):
    list_display = ["id", "family", "schema", "engine", "frozen_at"]
    list_select_related = ["family"]
    list_filter = ["family__code", "engine"]
    fields = ["family", "configuration", "schema", "engine", "family_sha256", "input_hash", "frozen_at"]


@admin.register(Event)
class EventAdmin(ViewOnly):
    list_display = ["at", "who", "verb", "about"]
    list_select_related = ["who"]
    list_filter = ["verb"]
    search_fields = ["about"]


@admin.register(KeyedRequest)
class KeyedRequestAdmin(ViewOnly):
    list_display = ["key", "status", "location", "at"]
    fields = ["key", "status", "location", "content_type", "at"]


@admin.register(AsBuiltChange)
class AsBuiltChangeAdmin(ViewOnly):
    list_display = ["structure", "place", "act", "words", "seen_on", "noted_by"]
    list_select_related = ["structure", "noted_by"]


class BelongingInline(admin.TabularInline):
    model = Belonging
    extra = 0
    autocomplete_fields = ["user"]


@admin.register(Structure)
class StructureAdmin(admin.ModelAdmin):
    """The tag, the design and the order come from shipping and stand; the rest may be put right."""

    list_display = ["tag", "name", "town", "order_number", "finished_on", "unchecked"]
    list_filter = ["unchecked"]
    search_fields = ["tag", "name", "town", "order_number"]
    readonly_fields = ["tag", "design", "order_number", "left_on", "made_at"]
    inlines = [BelongingInline]

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(MeasuredBack)
class MeasuredBackAdmin(ViewOnly):
    list_display = ["structure", "kept_at", "kept_by"]
