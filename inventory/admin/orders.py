"""Customers, orders, picks and shipments in the admin: people may be put right, what was confirmed or done is only shown.

An order is changed on its own page, by an action that leaves a version; a draft's plain facts may be put right here.
"""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.http import HttpRequest

from inventory.models import (
    Customer,
    InvoicePhoto,
    OneOff,
    Order,
    OrderLine,
    OrderVersion,
    Package,
    PackageLine,
    Pick,
    PickEntry,
    PickLine,
    PickSheet,
    PutBack,
    SentStructure,
    Shipment,
    StoredPaper,
)
from structures.admin import ViewOnly


class _Shown(admin.TabularInline):
    """Rows below another, to be looked at."""

    extra = 0
    can_delete = False
    show_change_link = True

    def has_add_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(Customer)
class CustomerAdmin(admin.ModelAdmin):
    list_display = ["name", "farm", "town", "phone"]
    search_fields = ["name", "farm", "town", "phone", "phone_digits"]

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        # Orders stand on their customers for as long as a frame stands.
        return obj is None or not obj.orders.exists()


class OrderVersionInline(_Shown):
    model = OrderVersion
    fields = ["number", "made_at", "made_by", "confirmed_at", "why"]


@admin.register(Order)
class OrderAdmin(admin.ModelAdmin):
    list_display = ["label", "customer", "status", "promised_on", "unchecked"]
    list_filter = ["status", "unchecked"]
    list_select_related = ["customer"]
    search_fields = ["=number", "customer__name", "customer__town"]
    date_hierarchy = "taken_on"
    fields = ["number", "customer", "status", "promised_on", "taken_on", "unchecked", "stated", "note"]
    readonly_fields = ["number", "status", "unchecked", "stated"]
    raw_id_fields = ["customer"]
    inlines = [OrderVersionInline]
    actions = None

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Order | None = None) -> bool:
        return (obj is None or obj.is_draft) and super().has_change_permission(request, obj)

    def has_delete_permission(self, request: HttpRequest, obj: Order | None = None) -> bool:
        return False


class OrderLineInline(_Shown):
    model = OrderLine
    fields = ["ordinal", "family_revision", "configuration", "design", "part", "quantity"]


@admin.register(OrderVersion)
class OrderVersionAdmin(ViewOnly):
    list_display = ["order", "number", "made_at", "made_by", "confirmed_at", "why"]
    list_select_related = ["order", "made_by"]
    inlines = [OrderLineInline]


@admin.register(OneOff)
class OneOffAdmin(ViewOnly):
    list_display = ["version", "ordinal", "act", "target", "who", "on", "why"]
    list_select_related = ["version__order"]


@admin.register(InvoicePhoto)
class InvoicePhotoAdmin(ViewOnly):
    list_display = ["order", "kept_at", "kept_by", "sha256"]
    list_select_related = ["order", "kept_by"]


class PickLineInline(_Shown):
    model = PickLine
    fields = ["order_line", "part", "to_pick", "picked", "to_put_back", "promised_on", "short_at"]


@admin.register(Pick)
class PickAdmin(ViewOnly):
    list_display = ["number", "order", "made_at"]
    list_select_related = ["order"]
    search_fields = ["=number", "=order__number"]
    inlines = [PickLineInline]


@admin.register(PickEntry)
class PickEntryAdmin(ViewOnly):
    list_display = ["line", "count", "how", "bin", "lot", "who", "at"]
    list_select_related = ["line__pick", "line__part", "bin", "who"]
    list_filter = ["how"]
    search_fields = ["lot", "line__part__number"]


@admin.register(PutBack)
class PutBackAdmin(ViewOnly):
    list_display = ["line", "count", "bin", "lot", "made_at", "done_at", "done_by"]
    list_select_related = ["line__pick", "line__part", "bin", "done_by"]


@admin.register(PickSheet)
class PickSheetAdmin(ViewOnly):
    list_display = ["label", "printed_at", "printed_by", "entered_at", "entered_by"]
    list_select_related = ["pick", "printed_by", "entered_by"]


class PackageInline(_Shown):
    model = Package
    fields = ["number", "kind", "title", "weight_lb"]


@admin.register(Shipment)
class ShipmentAdmin(ViewOnly):
    list_display = ["order", "part", "shipped_on", "carrier", "made_by"]
    list_select_related = ["order", "made_by"]
    date_hierarchy = "shipped_on"
    inlines = [PackageInline]


class PackageLineInline(_Shown):
    model = PackageLine
    fields = ["ordinal", "item", "count", "lot", "goes"]


@admin.register(Package)
class PackageAdmin(ViewOnly):
    list_display = ["shipment", "number", "kind", "title", "weight_lb"]
    list_select_related = ["shipment__order"]
    inlines = [PackageLineInline]


@admin.register(PackageLine)
class PackageLineAdmin(ViewOnly):
    """By part and lot: who has this lot?"""

    list_display = ["part", "lot", "count", "package", "goes"]
    list_select_related = ["part", "package__shipment__order"]
    search_fields = ["part__number", "lot"]


@admin.register(SentStructure)
class SentStructureAdmin(ViewOnly):
    list_display = ["structure", "order", "ordinal"]
    list_select_related = ["structure", "order"]


@admin.register(StoredPaper)
class StoredPaperAdmin(ViewOnly):
    """Names and sums; the bytes are served on their own address only."""

    list_display = ["name", "kind", "order", "made_at", "made_by", "sha256"]
    list_select_related = ["order", "made_by"]
    exclude = ["content"]
