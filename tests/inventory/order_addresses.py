"""What to put into each address of orders, picks, shipments and papers."""

from datetime import date
from uuid import uuid4

from inventory.actions.orders import cancel_order
from inventory.actions.pick_sheets import print_sheet
from inventory.actions.picking import record_pick
from inventory.actions.shipments import ship
from inventory.models import InvoicePhoto, Order, PickSheet, PutBack
from tests.factories import World, address
from tests.inventory.selling import a_confirmed, a_draft, a_paper_order, pick_all, stock, stock_for


def _draft(world: World) -> Order:
    return world.once("draft", lambda: a_draft(by=world.sue))


def _order(world: World) -> Order:
    """An open order with its pick, all of it on hand."""
    def make() -> Order:
        order = a_confirmed(by=world.sue)
        stock_for(order, by=world.wes)
        return order

    return world.once("order", make)


def _shipped(world: World) -> Order:
    def make() -> Order:
        order = a_confirmed(by=world.sue)
        stock_for(order, by=world.wes)
        pick_all(order, by=world.wes)
        ship(order, by=world.wes, shipped_on=date(2026, 3, 9))
        return order

    return world.once("shipped", make)


def _sheet(world: World) -> PickSheet:
    return world.once("sheet", lambda: print_sheet(_order(world).pick, by=world.wes))


def _photo(world: World) -> InvoicePhoto:
    return world.once("photo", lambda: a_paper_order(by=world.sue, photo=True).photos.get())


def _put_back(world: World) -> PutBack:
    """What was picked for an order that was cancelled then."""
    def make() -> PutBack:
        order = a_confirmed(by=world.sue)
        line = order.pick.lines.get(part__number="SB26")
        stock(line.part, 8, by=world.wes)
        record_pick(line, 8, key=uuid4(), by=world.wes)
        cancel_order(order, by=world.sue, why="another year")
        return PutBack.objects.get(line=line)

    return world.once("put back", make)


@address(
    "inventory:order-detail", "inventory:order-size", "inventory:order-keep", "inventory:order-loose", "inventory:order-confirm",
    "inventory:order-cancel", "inventory:order-one-off", "inventory:order-one-off-sign",
    "inventory:order-answer",
)
def draft(world: World):
    return {"number": _draft(world).label}


@address("inventory:order-line-size", "inventory:order-drop-line", "inventory:order-answer-line")
def draft_line(world: World):
    return {"number": _draft(world).label, "ordinal": 1}


@address("inventory:order-ship", "inventory:order-send", "inventory:order-promise")
def open_order(world: World):
    return {"number": _order(world).label}


@address("inventory:order-packages")
def shipped_order(world: World):
    return {"number": _shipped(world).label}


@address("inventory:invoice-photo")
def photo(world: World):
    return {"pk": _photo(world).pk, "size": "small"}


@address("inventory:paper-file")
def paper(world: World):
    return {"pk": _shipped(world).papers.get().pk}


@address("inventory:customer-detail", "inventory:customer-keep")
def customer(world: World):
    return {"pk": _draft(world).customer_id}


@address("inventory:pick-detail", "inventory:pick-next", "inventory:pick-print")
def pick(world: World):
    return {"number": _order(world).pick.number}


@address(
    "inventory:pick-line", "inventory:pick-take", "inventory:pick-code", "inventory:pick-undo", "inventory:pick-short"
)
def pick_line(world: World):
    return {"number": _order(world).pick.number, "pk": _order(world).pick.lines.first().pk}


@address("inventory:pick-put-back")
def put_back(world: World):
    return {"number": _put_back(world).line.pick.number, "pk": _put_back(world).pk}


@address("inventory:sheet-entry", "inventory:sheet-enter")
def sheet(world: World):
    return {"number": _order(world).pick.number, "sheet": _sheet(world).number}


@address("inventory:order-build-sheet")
def build_sheet(world: World):
    return {"number": _order(world).label}


@address("inventory:order-build-sheet-line", "inventory:order-build-sheet-pdf", "inventory:order-rain-sheet")
def build_sheet_line(world: World):
    return {"number": _order(world).label, "ordinal": 1}


@address("inventory:order-card")
def order_card(world: World):
    return {"number": _order(world).label, "ordinal": 1, "part": "RL26-L"}


@address("inventory:structure-build-sheet", "inventory:structure-build-sheet-pdf", "inventory:structure-rain-sheet")
def structure_build_sheet(world: World):
    return {"tag": world.structure.tag}


@address("inventory:structure-card")
def structure_card(world: World):
    return {"tag": world.structure.tag, "part": "RL26-L"}
