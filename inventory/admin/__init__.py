"""Rows of this app in the admin, by noun."""

from inventory.admin import stock

__all__ = ["stock"]
