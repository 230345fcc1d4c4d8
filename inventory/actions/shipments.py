"""Sending what was picked: packages, structures with their tags, and the packing list as it goes with them."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from django.db import transaction
from django.utils import timezone

from inventory.actions.papers import keep_packing_list
from inventory.models import Order, OrderStatus, Package, PackageLine, PickLine, SentStructure, Shipment
from inventory.queries.packing import Load, loads, proposed_lines
from structures.events import record
from structures.models import Structure, User
from structures.refusals import Refuse

TAG = re.compile(r"^[A-Z0-9][A-Z0-9-]{0,23}$")


@dataclass(frozen=True, slots=True)
class Stands:
    """Where a structure goes: its tag ("" gives the next free one), what it is called, town and place."""

    tag: str = ""
    name: str = ""
    town: str = ""
    place: str = ""


def ship(
    order: Order, *, by: User | None, shipped_on: date, structures: Mapping[int, Stands] | None = None, carrier: str = "",
    note: str = "",
) -> Shipment:
    """Send everything that was picked and not sent before. Only what was picked goes.

    `structures` says by order line where each structure goes. Keeps the packing list, bytes and SHA-256, in the same
    transaction. Raises `Refuse` when nothing was picked, something waits to be put back, or a tag is taken.
    """
    with transaction.atomic():
        order = Order.objects.select_for_update().select_related("customer").get(pk=order.pk)
        _refuse_unless_ready(order, shipped_on)
        found = loads(order)
        if not found:
            raise Refuse(f"Nothing was picked for order {order.label} that is not sent yet: pick first, then ship.")
        shipment = Shipment.objects.create(
            order=order, version=order.version, part=order.shipments.count() + 1, shipped_on=shipped_on,
            carrier=carrier.strip(), note=note.strip(), made_at=timezone.now(), made_by=by,
        )
        _keep_packages(shipment, found)
        _raise_structures(shipment, found, structures or {})
        order.status = _status_after(order)
        order.save(update_fields=["status"])
        paper = keep_packing_list(shipment, by=by)
        record(
            "shipped", f"order {order.label}", who=by,
            after={"part": shipment.part, "packages": sum(len(load.packages) for load in found),
                   "status": order.status, "paper_sha256": paper.sha256},
        )
        return shipment


def _refuse_unless_ready(order: Order, shipped_on: date) -> None:
    if not order.is_open:
        raise Refuse(f"Order {order.label} is {order.get_status_display()}: nothing can be sent on it.")
    if shipped_on > timezone.localdate():
        raise Refuse(
            f"{shipped_on} has not come yet: give the day on which the load really leaves.", field="shipped_on"
        )
    waiting = order.pick.lines.filter(to_put_back__gt=0).select_related("part").first()
    if waiting is not None:
        raise Refuse(
            f"{waiting.to_put_back:,} of {waiting.part.name} are wanted no more and lie with the load: put them back first."
        )


def _keep_packages(shipment: Shipment, found: list[Load]) -> None:
    number = 0
    for load in found:
        for packed in load.packages:
            number += 1
            package = Package.objects.create(
                shipment=shipment, number=number, kind=packed.kind, title=packed.title, weight_lb=packed.weight_lb,
                longest_in=packed.longest_in, cautions=[dataclasses.asdict(caution) for caution in packed.cautions],
                leftovers=[dataclasses.asdict(leftover) for leftover in packed.leftovers],
            )
            PackageLine.objects.bulk_create([
                PackageLine(
                    package=package, pick_line_id=line.line, ordinal=n, part_id=load.parts[line.line], item=line.item,
                    length_in=line.length_in, count=line.count, lot=line.lot, goes=line.goes,
                )
                for n, line in enumerate(proposed_lines(load, packed), 1)
            ])


def _raise_structures(shipment: Shipment, found: list[Load], stands: Mapping[int, Stands]) -> None:
    """A structure for every structure line that something was sent of, once, with the day of its first load."""
    order = shipment.order
    there = set(order.sent_structures.values_list("ordinal", flat=True))
    for load in found:
        if load.design is None or load.ordinal in there:
            continue
        goes = stands.get(load.ordinal, Stands())
        structure = Structure.objects.create(
            tag=_tag(goes.tag), name=goes.name.strip()[:80] or _default_name(load), design=load.design,
            town=(goes.town.strip() or order.customer.town)[:80], place=(goes.place.strip() or order.customer.farm)[:160],
            order_number=order.label, left_on=shipment.shipped_on,
        )
        SentStructure.objects.create(order=order, ordinal=load.ordinal, structure=structure)
        record("structure sent", f"structure {structure.tag}", who=shipment.made_by, after={"order": order.label})


def _default_name(load: Load) -> str:
    feet = load.document.measures.length_in / 12 if load.document else 0
    return f"{load.document.family} × {feet:g} ft" if load.document else ""


def _tag(wanted: str) -> str:
    tag = wanted.strip().upper()
    if not tag:
        return next_tag()
    if not TAG.match(tag):
        raise Refuse(f"{wanted!r} can't be a tag: letters, figures and dashes would do, like {next_tag()}.", field="tag")
    if Structure.objects.filter(tag=tag).exists():
        raise Refuse(f"Tag {tag} is on another structure already: {next_tag()} is free.", field="tag")
    return tag


def next_tag() -> str:
    """The tag after the highest T-number in use."""
    tags = Structure.objects.filter(tag__regex=r"^T-[0-9]{4,8}$").values_list("tag", flat=True)
    return f"T-{max((int(tag[2:]) for tag in tags), default=0) + 1:04d}"


def _status_after(order: Order) -> str:
    """Shipped once every line is picked and sent in full; else part of it is still to come."""
    lines = PickLine.objects.filter(pick__order=order).annotate_sent()
    complete = all(line.picked == line.to_pick == line.sent for line in lines)
    return OrderStatus.SHIPPED if complete else OrderStatus.PART_SHIPPED
