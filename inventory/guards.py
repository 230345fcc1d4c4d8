"""What may never change in orders, picks and shipments: told to the triggers that stand in the database itself."""

from __future__ import annotations

from structures.triggers import append_only, refuse_change

_CONFIRMED = "(SELECT v.confirmed_at FROM inventory_orderversion v WHERE v.id = OLD.version_id) IS NOT NULL"


def register() -> None:
    """Register every rule; `install_rules` puts them in place after each migrate."""
    refuse_change(
        "inventory_orderversion", "A confirmed version of an order is never changed.", when="OLD.confirmed_at IS NOT NULL"
    )
    refuse_change("inventory_orderline", "A line of a confirmed order is never changed.", when=_CONFIRMED)
    append_only("inventory_oneoff", "A one-off change of an order is never changed.")
    append_only("inventory_pickentry", "An accepted count is never changed: undo it with an entry of its own.")
    append_only("inventory_shipment", "A shipment is never changed.")
    append_only("inventory_package", "A package that was sent is never changed.")
    append_only("inventory_packageline", "A line of a package that was sent is never changed.")
    append_only("inventory_storedpaper", "A kept paper is never changed.")
    append_only("inventory_sentstructure", "What an order became is never changed.")
    append_only("inventory_invoicephoto", "A photo of a paper is never changed.")
    refuse_change(
        "inventory_putback", "What was put back is never changed.", when="OLD.done_at IS NOT NULL"
    )
    refuse_change(
        "inventory_picksheet", "A sheet that was entered is never changed.", when="OLD.entered_at IS NOT NULL"
    )
