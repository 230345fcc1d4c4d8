"""Rows of this app in the admin, by noun."""

from inventory.admin import orders, stock

__all__ = ["orders", "stock"]
