"""Where a lot lies and where it went."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import Prefetch, Q, QuerySet, Sum

from inventory.models import Holding, PackageLine, SentStructure


def sent_lines() -> QuerySet[PackageLine]:
    """Every line of every package that was sent, latest first, with order, customer, part and the structures it became."""
    structures = SentStructure.objects.select_related("structure").order_by("ordinal")
    return (
        PackageLine.objects.select_related("part", "package__shipment__order__customer")
        .prefetch_related(Prefetch("package__shipment__order__sent_structures", structures))
        .order_by("-package__shipment__shipped_on", "-package__shipment__pk", "package__number", "ordinal")
    )


@dataclass(frozen=True, slots=True)
class LotFigures:
    """Pieces of a lot that are on hand, held back and sent, and how many orders they went to."""

    on_hand: int
    held_back: int
    sent: int
    orders: int


def lot_figures(lot: str, part: str = "") -> LotFigures:
    """Add a lot up, of every part or of one; two queries."""
    held = Holding.objects.filter(lot__iexact=lot)
    sent = PackageLine.objects.filter(lot__iexact=lot)
    if part:
        held, sent = held.filter(part__number__iexact=part), sent.filter(part__number__iexact=part)
    lying = held.aggregate(
        on_hand=Sum("quantity", filter=Q(bin__held_back=False)), held_back=Sum("quantity", filter=Q(bin__held_back=True))
    )
    rows = sent.values_list("count", "package__shipment__order")
    return LotFigures(
        lying["on_hand"] or 0, lying["held_back"] or 0, sum(count for count, _ in rows), len({order for _, order in rows})
    )


def tags_of(line: PackageLine) -> list[str]:
    """The tags of the structures that a line's order became, for a line of `sent_lines`."""
    return [sent.structure.tag for sent in line.package.shipment.order.sent_structures.all()]
