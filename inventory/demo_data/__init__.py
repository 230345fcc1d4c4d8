"""What the demo starts with in stock and orders. All of it is invented."""

from __future__ import annotations

from collections.abc import Callable

from inventory import demo_orders
from inventory.demo_data import stock


def load(say: Callable[[str], None]) -> None:
    """Add parts, bins, stock and orders that are missing; what is there, changed by a person or not, stays as it is."""
    stock.load(say)
    demo_orders.load(say)
