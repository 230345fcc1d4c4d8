"""Addresses of the inventory app: each noun brings its own list."""

from inventory.urls import stock

app_name = "inventory"
urlpatterns = [*stock.urlpatterns]
