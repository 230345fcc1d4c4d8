"""What is done to an order: taken, changed while a draft, confirmed, changed afterwards, cancelled, given a one-off.

Every action locks the order's row first, then its pick lines, then (through the ledger) holdings.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from inventory.actions.parts import sync_parts
from inventory.actions.pick_lines import Change, cancel_lines, lay_out_lines
from inventory.models import Customer, OneOff, Order, OrderLine, OrderStatus, OrderVersion, Part
from structures.actions.designs import freeze_design
from structures.events import record
from structures.frame.choose import configuration_json, read_configuration
from structures.frame.document import Document
from structures.frame.family import Configuration
from structures.frame.family import OneOff as FrameOneOff
from structures.frame.refusal import Refused
from structures.models import Design, FamilyRevision, User
from structures.queries.designs import document_for
from structures.refusals import Refuse
from structures.sentences import say

FIRST_NUMBER = 1001


@dataclass(frozen=True, slots=True)
class LineSpec:
    """One wanted line: a structure (`family_revision` and `configuration`) or `quantity` of a loose `part`.

    `ordinal` names the line of the version before that it continues, None for a new one.
    """

    family_revision: FamilyRevision | None = None
    configuration: Configuration | None = None
    part: Part | None = None
    quantity: int = 1
    ordinal: int | None = None


def new_draft(
    customer: Customer, lines: Sequence[LineSpec], *, by: User | None, taken_on: date | None = None,
    promised_on: date | None = None, number: int | None = None, note: str = "",
) -> Order:
    """Take an order down as a draft. It has no number of pieces and speaks for no stock before it is confirmed."""
    with transaction.atomic():
        order = Order.objects.create(
            number=_next_number() if number is None else number, customer=customer, promised_on=promised_on,
            taken_on=taken_on or timezone.localdate(), note=note,
        )
        version = OrderVersion.objects.create(order=order, number=1, made_at=timezone.now(), made_by=by)
        _write_lines(version, lines)
        record("order taken", f"order {order.label}", who=by, after={"customer": customer.said, "lines": _said(version)})
        return order


def set_draft(
    order: Order, lines: Sequence[LineSpec], *, by: User | None, promised_on: date | None, note: str = ""
) -> Order:
    """Write a draft anew: its lines, promised date and note. Raises `Refuse` once it is confirmed."""
    with transaction.atomic():
        order = _locked(order)
        _refuse_unless_draft(order)
        version = order.version
        before = _said(version)
        kept = {line.ordinal for line in version.one_offs.all()}
        if gone := kept - {spec.ordinal for spec in lines}:
            raise Refuse(f"Line {min(gone)} has a one-off change with a name under it: cancel the draft and begin a new one.")
        version.lines.all().delete()
        _write_lines(version, lines)
        order.promised_on, order.note = promised_on, note
        order.save(update_fields=["promised_on", "note"])
        record("draft changed", f"order {order.label}", who=by, before=before, after=_said(version))
        return order


def confirm_order(order: Order, *, by: User | None) -> Order:
    """Freeze every structure of the draft as a design and speak for its parts by the promised date.

    Raises `Refuse` when it is no draft, has no line, or names a part that is not in the parts list.
    """
    with transaction.atomic():
        order = _locked(order)
        _refuse_unless_draft(order)
        version = order.version
        lines = list(version.lines.select_related("family_revision", "part"))
        if not lines:
            raise Refuse(f"Order {order.label} has no line yet: give it a structure or loose parts first.")
        if order.promised_on is None:
            raise Refuse("No date is promised: give the day on which it is to leave here.", field="promised_on")
        _freeze(lines, by)
        lay_out_lines(order, version, lines, by=by)
        _seal(version)
        order.status = OrderStatus.CONFIRMED
        order.save(update_fields=["status"])
        record("order confirmed", f"order {order.label}", who=by, after={"version": 1, "lines": _said(version)})
        return order


def change_order(
    order: Order, lines: Sequence[LineSpec], *, by: User | None, why: str, promised_on: date | None = None
) -> OrderVersion:
    """Make a new version with these lines; what was picked and is wanted no more goes on the put-back list.

    The difference in parts to the version before is stored with the new version. Raises `Refuse` when the order is not
    open, nothing differs, or less is asked than was shipped.
    """
    with transaction.atomic():
        order = _locked(order)
        _refuse_unless_open(order)
        if not why.strip():
            raise Refuse("Say why the order is changed: a few words are enough.", field="why")
        before = order.version
        version = OrderVersion.objects.create(
            order=order, number=before.number + 1, made_at=timezone.now(), made_by=by, why=why.strip()
        )
        written = _write_lines(version, lines)
        if not written:
            raise Refuse("Nothing would be left of the order: cancel it instead.")
        _freeze(written, by)
        if promised_on is not None:
            order.promised_on = promised_on
            order.save(update_fields=["promised_on"])
        change = lay_out_lines(order, version, written, by=by)
        said = {"was": _said(before), "now": _said(version)}
        if not change.parts and said["was"] == said["now"] and promised_on is None:
            raise Refuse(f"Nothing differs from version {before.number}: change a size, an option or a count first.")
        version.changes = _changes(change, said)
        _seal(version)
        record("order changed", f"order {order.label}", who=by, before=said["was"], after=version.changes)
        return version


def cancel_order(order: Order, *, by: User | None, why: str) -> Order:
    """Cancel an order that nothing was shipped of; what was picked goes on the put-back list."""
    with transaction.atomic():
        order = _locked(order)
        if order.status == OrderStatus.CANCELLED:
            raise Refuse(f"Order {order.label} is cancelled already.")
        if not (order.is_draft or order.is_open):
            raise Refuse(f"Order {order.label} is {order.get_status_display()}: it can't be cancelled any more.")
        if order.shipments.exists():
            raise Refuse(f"Part of order {order.label} was shipped: change it to what was sent instead of cancelling it.")
        if not why.strip():
            raise Refuse("Say why the order is cancelled: a few words are enough.", field="why")
        before = order.status
        change = cancel_lines(order, by=by) if order.is_open else Change()
        order.status = OrderStatus.CANCELLED
        order.save(update_fields=["status"])
        record(
            "order cancelled", f"order {order.label}", who=by, before={"status": before},
            after={"why": why.strip(), "put_back": change.put_back},
        )
        return order


def one_off(
    order: Order, ordinal: int, change: FrameOneOff, *, by: User | None
) -> OrderVersion:
    """The maker's own change to one structure of this order: it flows into its kit, marks and drawing.

    On a draft it is written into the line; on an open order it makes a new version. Raises `Refuse` when the frame can't
    be with it, or when name, reason or date is missing.
    """
    with transaction.atomic():
        order = _locked(order)
        _refuse_unsigned(change)
        if not order.is_draft:
            _refuse_unless_open(order)
        version = order.version
        specs = [_spec(line) for line in version.lines.select_related("family_revision", "part")]
        wanted = next((spec for spec in specs if spec.ordinal == ordinal), None)
        if wanted is None or wanted.configuration is None:
            raise Refuse(f"Line {ordinal} of order {order.label} is no structure: choose one of its structures.")
        if order.is_draft:
            # The version may still be written, so the one-off is its own; the frame is asked whether it can be.
            document_or_refuse(wanted.family_revision, _with(wanted.configuration, change), by)
            line = version.lines.get(ordinal=ordinal)
            line.configuration = configuration_json(_with(wanted.configuration, change))
            line.save(update_fields=["configuration"])
        else:
            changed = replace(wanted, configuration=_with(wanted.configuration, change))
            version = change_order(
                order, [changed if spec.ordinal == ordinal else spec for spec in specs], by=by, why=_said_one_off(change)
            )
        OneOff.objects.create(
            version=version, ordinal=ordinal, act=change.act, target=change.target, target_2=change.target_2,
            part=change.part, by_in=change.by_in, who=change.who, why=change.why, on=date.fromisoformat(change.on),
            recorded_by=by, recorded_at=timezone.now(),
        )
        record("one-off change", f"order {order.label}", who=by, after={"line": ordinal, "what": _said_one_off(change)})
        return version


def document_or_refuse(revision: FamilyRevision, configuration: Configuration, by: User | None) -> Document:
    """The document of a configuration that is not frozen; what the frame refuses becomes one sentence to a person."""
    try:
        return document_for(revision, configuration)
    except Refused as refused:
        raise Refuse(say(refused, by.units if by else "us"), field=refused.refusals[0].field) from None


def freeze_design_or_refuse(revision: FamilyRevision, configuration: Configuration, by: User | None) -> Design:
    """Freeze a design; what the frame refuses becomes one sentence to a person."""
    try:
        return freeze_design(revision, configuration, by=by)
    except Refused as refused:
        raise Refuse(say(refused, by.units if by else "us"), field=refused.refusals[0].field) from None


def specs_of(version: OrderVersion) -> list[LineSpec]:
    """The lines of a version as wanted lines, to be changed and handed back (queries once)."""
    return [_spec(line) for line in version.lines.select_related("family_revision", "part")]


def in_place_of(spec: LineSpec, specs: Sequence[LineSpec]) -> list[LineSpec]:
    """The lines with this one in the place of the line of its number, or after them. One-off changes stay with their line."""
    if spec.ordinal is None:
        return [*specs, spec]
    was = next((other for other in specs if other.ordinal == spec.ordinal), None)
    if was is not None and was.configuration and spec.configuration:
        spec = replace(spec, configuration=replace(spec.configuration, one_offs=was.configuration.one_offs))
    return [spec if other.ordinal == spec.ordinal else other for other in specs]


def _spec(line: OrderLine) -> LineSpec:
    configuration = read_configuration(line.configuration) if line.is_structure else None
    return LineSpec(line.family_revision, configuration, line.part, line.quantity, line.ordinal)


def _with(configuration: Configuration, change: FrameOneOff) -> Configuration:
    return replace(configuration, one_offs=(*configuration.one_offs, change))


def _said_one_off(change: FrameOneOff) -> str:
    to = f" to {change.target_2}" if change.target_2 else ""
    return f"{change.act} {change.target}{to}: {change.why} ({change.who}, {change.on})"[:200]


def _refuse_unsigned(change: FrameOneOff) -> None:
    for field, words in (("who", "name"), ("why", "reason"), ("on", "date")):
        if not getattr(change, field).strip():
            raise Refuse(f"A one-off change is signed and dated: its {words} is missing.", field=field)
    try:
        date.fromisoformat(change.on)
    except ValueError:
        raise Refuse(f"{change.on!r} is no date: write it like 2026-03-14.", field="on") from None


def _next_number() -> int:
    last = Order.objects.filter(unchecked=False).aggregate(last=Max("number"))["last"]
    return max(last or 0, FIRST_NUMBER - 1) + 1


def _locked(order: Order) -> Order:
    return Order.objects.select_for_update().get(pk=order.pk)


def _refuse_unless_draft(order: Order) -> None:
    if not order.is_draft:
        raise Refuse(f"Order {order.label} is {order.get_status_display()} and no draft any more: change it instead.")


def _refuse_unless_open(order: Order) -> None:
    if order.is_draft:
        raise Refuse(f"Order {order.label} is still a draft: confirm it first.")
    if not order.is_open:
        raise Refuse(f"Order {order.label} is {order.get_status_display()}: it can't be changed any more.")


def _write_lines(version: OrderVersion, specs: Iterable[LineSpec]) -> list[OrderLine]:
    specs = list(specs)
    written = OrderLine.objects.filter(version__order=version.order).aggregate(last=Max("ordinal"))["last"] or 0
    # A draft's lines were just taken away to be written anew: what is kept has its number still.
    last = max([written, *(spec.ordinal for spec in specs if spec.ordinal)])
    lines = []
    for spec in specs:
        _refuse_quantity(spec)
        last = last if spec.ordinal else last + 1
        lines.append(OrderLine(
            version=version, ordinal=spec.ordinal or last, family_revision=spec.family_revision, part=spec.part,
            configuration=configuration_json(spec.configuration) if spec.configuration else {}, quantity=spec.quantity,
        ))
    OrderLine.objects.bulk_create(lines)
    return list(version.lines.select_related("family_revision", "part"))


def _refuse_quantity(spec: LineSpec) -> None:
    if spec.part is not None and not 1 <= spec.quantity <= 100_000:
        raise Refuse(f"{spec.quantity} of {spec.part.number} can't be ordered: 1 to 100,000 would do.", field="quantity")


def _freeze(lines: Iterable[OrderLine], by: User | None) -> None:
    """Freeze each structure's design; its family's parts are taken up first, so that they can be picked."""
    taken_up: set[int] = set()
    for line in lines:
        if line.is_structure:
            if line.family_revision_id not in taken_up:
                sync_parts(line.family_revision, by=by)
                taken_up.add(line.family_revision_id)
            line.design = freeze_design_or_refuse(line.family_revision, read_configuration(line.configuration), by)
            line.save(update_fields=["design"])


def _seal(version: OrderVersion) -> None:
    version.confirmed_at = timezone.now()
    version.save(update_fields=["confirmed_at", "changes"])


def _said(version: OrderVersion) -> list[dict[str, Any]]:
    """The lines as data for events and differences."""
    return [
        {"line": line.ordinal, "what": line.size, "revision": line.family_revision.revision,
         "configuration": line.configuration}
        if line.is_structure
        else {"line": line.ordinal, "what": line.size, "part": line.part.number, "quantity": line.quantity}
        for line in version.lines.select_related("family_revision", "part")
    ]


def _changes(change: Change, said: dict[str, Any]) -> dict[str, Any]:
    return {"parts": change.parts, "put_back": change.put_back, "lines": said}
