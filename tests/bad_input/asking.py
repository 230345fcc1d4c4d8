"""Asking an address as the people who may, and saying what came of it."""

from __future__ import annotations

from django.http import HttpResponse
from django.test import Client

from structures.models import User
from tests.factories import World
from tests.resolver import Address


def who_may(world: World, address: Address) -> list[User | None]:
    """The people to try an address as: an owner, who may everything, a grower where growers may come in; else nobody."""
    if address.rule.open:
        return [None]
    return [world.olive, world.ada] if address.rule.admits(world.ada) else [world.olive]


def signed_in(user: User | None) -> Client:
    """A client of this person, or of nobody, that gives an answer even where the code falls over."""
    client = Client(raise_request_exception=False)
    if user is not None:
        client.force_login(user)
    return client


def fell_over(response: HttpResponse) -> str:
    """What happened, in words, when the code fell over; "" when it did not."""
    if response.status_code < 500:
        return ""
    caught = getattr(response, "exc_info", None)
    return f"{response.status_code} {caught[0].__name__}: {caught[1]}"[:200] if caught else str(response.status_code)
