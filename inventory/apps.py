"""The inventory app: parts, stock, orders, picks and shipments."""

from __future__ import annotations

from django.apps import AppConfig
from django.core.checks import Tags, register
from django.db.models.signals import post_migrate, pre_migrate

from structures.triggers import append_only, install_rules, refuse_change


class InventoryConfig(AppConfig):
    """Guards the stock ledger in the database itself, and checks that the guards stand."""

    name = "inventory"
    verbose_name = "Stock and orders"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from inventory import checks, guards, triggers  # the app registry must be ready first

        append_only("inventory_movement", "A stock movement is never changed or deleted.")
        refuse_change("inventory_holding", "A holding is never deleted.", updates=False)
        guards.register()
        pre_migrate.connect(triggers.remove_before_migrate, sender=self, dispatch_uid="inventory-guards-off")
        post_migrate.connect(triggers.install_after_migrate, sender=self, dispatch_uid="inventory-guards-on")
        post_migrate.connect(install_rules, sender=self, dispatch_uid="inventory-rules")
        register(checks.stock_guards_stand, Tags.database)
        _name_the_rooms()


def _name_the_rooms() -> None:
    from inventory.queries.news import order_news, pick_news  # models must be ready first
    from inventory.queries.stock_news import stock_news  # models must be ready first
    from structures.rooms import add_news, add_room  # models must be ready first

    add_room("inventory:order-list", "Orders", "what was asked of us, promised, and sent", roles=["support", "warehouse"], order=20)
    add_room("inventory:pick-list", "Picks", "what is to leave the bins now", roles=["warehouse"], order=30)
    add_room("inventory:part-list", "Parts", "what lies in the bins and is free to sell", roles=["warehouse", "support"], order=50)
    add_room("inventory:bin-list", "Bins", "where parts lie, in walking order", roles=["warehouse"], order=75)
    add_news(order_news, roles=["support", "owner"])
    add_news(pick_news, roles=["warehouse", "owner"])
    add_news(stock_news, roles=["warehouse", "owner"])
