"""What to put into each address of this app that is about something."""

from uuid import uuid4

from inventory.actions.supply import Arrived, expect, take_in
from inventory.models import ExpectedReceipt
from tests.factories import World, address
from tests.inventory import order_addresses  # noqa: F401  (it registers the addresses of orders)
from tests.inventory.stock import make_bin, make_part, stocked


def _shelf(world: World):
    return world.once("shelf", lambda: stocked(world.wes, "SB26", "C-14", 44))


def _receipt(world: World):
    line = Arrived(make_part("SB26"), make_bin("C-14"), "P-304", 8)
    facts = {"supplier": "own press", "paper": "", "received_on": "2026-03-02", "note": ""}
    return world.once("receipt", lambda: take_in([line], **facts, key=str(uuid4()), by=world.wes))


def _expected(world: World) -> ExpectedReceipt:
    values = {"part": make_part("SB26"), "quantity": 20, "supplier": "own press", "due_on": "2026-03-20", "reference": ""}
    return world.once("expected", lambda: expect(values, by=world.wes))


@address("inventory:measured-back", "inventory:measured-keep")
def measured(world: World):
    return {"tag": world.structure.tag}


@address("inventory:part-detail", "inventory:part-keep")
def part(world: World):
    return {"number": _shelf(world)[0].number}


@address("inventory:bin-detail", "inventory:bin-keep")
def bin_(world: World):
    return {"code": _shelf(world)[1].code}


@address("inventory:movement-detail", "inventory:movement-reverse")
def movement(world: World):
    return {"pk": _shelf(world)[0].movements.earliest("pk").pk}


@address("inventory:receipt-detail")
def receipt(world: World):
    return {"pk": _receipt(world).pk}


@address("inventory:expected-close")
def expected(world: World):
    return {"pk": _expected(world).pk}
