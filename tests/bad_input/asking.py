"""Asking an address as the people who may, and saying what came of it."""

from __future__ import annotations

from django.http import HttpResponse
from django.test import Client

from structures.models import User
from tests.factories import World
from tests.resolver import Address


def who_may(world: World, address: Address) -> list[User]:
    """The people to try an address as: an owner, who may everything, and a grower where growers may come in."""
    people = [world.olive]
    return [*people, world.ada] if address.rule.admits(world.ada) and not address.rule.open else people


def signed_in(user: User) -> Client:
    """A client of this person that gives an answer even where the code falls over."""
    client = Client(raise_request_exception=False)
    client.force_login(user)
    return client


def fell_over(response: HttpResponse) -> str:
    """What happened, in words, when the code fell over; "" when it did not."""
    if response.status_code < 500:
        return ""
    caught = getattr(response, "exc_info", None)
    return f"{response.status_code} {caught[0].__name__}: {caught[1]}"[:200] if caught else str(response.status_code)
