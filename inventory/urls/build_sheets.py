"""Addresses of the sheet a crew builds from and its papers: by an order's line, and by a structure's tag."""

from __future__ import annotations

from django.urls import path

from inventory.views import build_sheets as views

urlpatterns = [
    path("orders/<slug:number>/build-sheet/", views.order_build_sheet, name="order-build-sheet"),
    path("orders/<slug:number>/build-sheet/<int:ordinal>/", views.order_build_sheet, name="order-build-sheet-line"),
    path("orders/<slug:number>/build-sheet/<int:ordinal>/sheet.pdf", views.order_build_sheet_pdf, name="order-build-sheet-pdf"),
    path("orders/<slug:number>/build-sheet/<int:ordinal>/rain.pdf", views.order_rain_sheet, name="order-rain-sheet"),
    path("orders/<slug:number>/build-sheet/<int:ordinal>/card/<str:part>.pdf", views.order_card, name="order-card"),
    path("structures/<str:tag>/build-sheet/", views.structure_build_sheet, name="structure-build-sheet"),
    path("structures/<str:tag>/build-sheet/sheet.pdf", views.structure_build_sheet_pdf, name="structure-build-sheet-pdf"),
    path("structures/<str:tag>/build-sheet/rain.pdf", views.structure_rain_sheet, name="structure-rain-sheet"),
    path("structures/<str:tag>/build-sheet/card/<str:part>.pdf", views.structure_card, name="structure-card"),
]
