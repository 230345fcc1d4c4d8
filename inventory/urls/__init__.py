"""Addresses of the inventory app: each noun brings its own list."""

from inventory.urls import build_sheets, measured, orders, stock

app_name = "inventory"
urlpatterns = [*orders.urlpatterns, *stock.urlpatterns, *measured.urlpatterns, *build_sheets.urlpatterns]
