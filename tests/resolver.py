"""Every address of the product, walked from the resolver: a new one is there without anybody listing it."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from importlib.util import find_spec

import pytest
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from structures.access import Rule
from tests.factories import ADDRESSES, World

for app in ("structures", "inventory", "inspections"):
    if find_spec(f"tests.{app}.addresses"):
        import_module(f"tests.{app}.addresses")


@dataclass(frozen=True)
class Address:
    """One address of the product: its name, and the view behind it."""

    name: str
    pattern: URLPattern

    @property
    def rule(self) -> Rule | None:
        return getattr(self.pattern.callback, "access_rule", None)

    @property
    def about_something(self) -> bool:
        return bool(self.pattern.pattern.converters)

    def url(self, world: World) -> str:
        return reverse(self.name, kwargs=ADDRESSES[self.name](world) if self.about_something else {})


def addresses(resolver: URLResolver, namespace: str = "") -> list[Address]:
    """All addresses below this one, the admin's own left out."""
    found = []
    for entry in resolver.url_patterns:
        if isinstance(entry, URLPattern):
            found.append(Address(f"{namespace}{entry.name}", entry))
        elif entry.namespace != "admin":
            found += addresses(entry, f"{namespace}{entry.namespace}:" if entry.namespace else namespace)
    return found


ALL = addresses(get_resolver())
each_address = pytest.mark.parametrize("address", ALL, ids=[address.name for address in ALL])
