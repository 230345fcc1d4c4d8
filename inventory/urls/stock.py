"""Addresses of parts, bins, stock and supply."""

from __future__ import annotations

from django.urls import path, register_converter

from inventory.views import bins, lots, parts, stock, stock_file, supply


class NumberConverter:
    """A part number or a bin code: letters, figures, dots and dashes."""

    regex = r"[A-Za-z0-9][A-Za-z0-9.-]{0,39}"

    def to_python(self, value: str) -> str:
        return value

    def to_url(self, value: str) -> str:
        return value


register_converter(NumberConverter, "part_number")

urlpatterns = [
    path("parts/", parts.part_list, name="part-list"),
    path("parts/take-up/", parts.part_take_up, name="part-take-up"),
    path("parts/<part_number:number>/", parts.part_detail, name="part-detail"),
    path("parts/<part_number:number>/keep/", parts.part_keep, name="part-keep"),
    path("bins/", bins.bin_list, name="bin-list"),
    path("bins/new/", bins.bin_new, name="bin-new"),
    path("bins/make/", bins.bin_make, name="bin-make"),
    path("bins/<part_number:code>/", bins.bin_detail, name="bin-detail"),
    path("bins/<part_number:code>/keep/", bins.bin_keep, name="bin-keep"),
    path("lots/", lots.lot_list, name="lot-list"),
    path("movements/", stock.movement_list, name="movement-list"),
    path("movements/<int:pk>/", stock.movement_detail, name="movement-detail"),
    path("movements/<int:pk>/reverse/", stock.movement_reverse, name="movement-reverse"),
    path("stock/move/", stock.stock_move, name="stock-move"),
    path("stock/moved/", stock.stock_moved, name="stock-moved"),
    path("stock/hold-back/", stock.stock_hold_back, name="stock-hold-back"),
    path("stock/held-back/", stock.stock_held_back, name="stock-held-back"),
    path("stock/release/", stock.stock_release, name="stock-release"),
    path("stock/released/", stock.stock_released, name="stock-released"),
    path("stock/count/", stock.stock_count, name="stock-count"),
    path("stock/counted/", stock.stock_counted, name="stock-counted"),
    path("stock/import/", stock_file.stock_import, name="stock-import"),
    path("stock/import/look/", stock_file.stock_import_look, name="stock-import-look"),
    path("stock/imported/", stock_file.stock_imported, name="stock-imported"),
    path("stock/export/", stock_file.stock_export, name="stock-export"),
    path("receipts/", supply.receipt_list, name="receipt-list"),
    path("receipts/new/", supply.receipt_new, name="receipt-new"),
    path("receipts/take-in/", supply.receipt_take_in, name="receipt-take-in"),
    path("receipts/<int:pk>/", supply.receipt_detail, name="receipt-detail"),
    path("on-order/", supply.expected_list, name="expected-list"),
    path("on-order/add/", supply.expected_add, name="expected-add"),
    path("on-order/<int:pk>/close/", supply.expected_close, name="expected-close"),
]
