"""Parts, bins, stock and supply in the admin: the ledger can only be looked at, since one module alone may write it."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.http import HttpRequest

from inventory.actions.parts import KEPT
from inventory.models import Bin, ExpectedReceipt, Holding, Movement, Part, PartUse, Receipt, ReceiptLine
from structures.admin import ViewOnly


class PartUseInline(admin.TabularInline):
    model = PartUse
    extra = 0
    can_delete = False

    def has_add_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(Part)
class PartAdmin(admin.ModelAdmin):
    """A part of no family (raw tube) may be made and put right here; what a family defines stands as it says."""

    list_display = ["number", "name", "role", "kind", "tube", "length_in", "hand"]
    list_filter = ["kind", "role", "uses__family__code"]
    search_fields = ["number", "name"]
    inlines = [PartUseInline]

    def get_readonly_fields(self, request: HttpRequest, obj: Part | None = None) -> list[str]:
        if obj is None:
            return []
        defined = [field.name for field in Part._meta.fields if field.name not in KEPT and field.name != "id"]
        return defined if obj.uses.exists() else ["number"]


@admin.register(Bin)
class BinAdmin(admin.ModelAdmin):
    list_display = ["code", "walk", "zone", "held_back"]
    list_filter = ["held_back"]
    search_fields = ["code", "zone"]

    def get_readonly_fields(self, request: HttpRequest, obj: Bin | None = None) -> list[str]:
        return ["code"] if obj else []


@admin.register(Movement)
class MovementAdmin(ViewOnly):
    list_display = ["id", "part", "quantity", "bin", "lot", "kind", "reference", "who", "at"]
    list_select_related = ["part", "bin", "who"]
    list_filter = ["kind"]
    search_fields = ["part__number", "lot", "reference"]


@admin.register(Holding)
class HoldingAdmin(ViewOnly):
    list_display = ["part", "bin", "lot", "quantity"]
    list_select_related = ["part", "bin"]
    list_filter = ["bin__held_back"]
    search_fields = ["part__number", "bin__code", "lot"]


class ReceiptLineInline(admin.TabularInline):
    model = ReceiptLine
    extra = 0
    can_delete = False

    def has_add_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(Receipt)
class ReceiptAdmin(ViewOnly):
    list_display = ["id", "supplier", "paper", "received_on", "by"]
    list_select_related = ["by"]
    search_fields = ["supplier", "paper"]
    inlines = [ReceiptLineInline]


@admin.register(ExpectedReceipt)
class ExpectedReceiptAdmin(admin.ModelAdmin):
    list_display = ["part", "quantity", "came", "supplier", "due_on", "reference", "closed_on"]
    readonly_fields = ["came"]
    list_select_related = ["part"]
    list_filter = ["supplier"]
    autocomplete_fields = ["part"]
