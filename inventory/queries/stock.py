"""Questions about bins, lots, movements and receipts."""

from __future__ import annotations

from django.db.models import Count, F, IntegerField, OuterRef, QuerySet, Subquery, Sum, Value
from django.db.models.functions import Coalesce

from inventory.models import Bin, ExpectedReceipt, Holding, Part, Receipt, ReceiptLine


def bins() -> QuerySet[Bin]:
    """Every bin in walking order with `parts` and `pieces`, what lies in it; one query."""
    there = Holding.objects.there().filter(bin=OuterRef("pk")).order_by().values("bin")
    return Bin.objects.annotate(
        parts=_one(there.annotate(total=Count("part", distinct=True)).values("total")),
        pieces=_one(there.annotate(total=Sum("quantity")).values("total")),
    ).order_by("walk", "code")


def _one(rows: QuerySet) -> Coalesce:
    return Coalesce(Subquery(rows, output_field=IntegerField()), Value(0))


def contents_of(bin: Bin) -> QuerySet[Holding]:
    """What lies in a bin, by part and lot."""
    return Holding.objects.there().filter(bin=bin).select_related("part", "bin").order_by("part__number", "lot")


def lots_of_bin(bin: Bin) -> QuerySet[Holding]:
    """Everything that a bin ever held, so that an emptied lot can be counted too; the part is fetched with it."""
    return Holding.objects.filter(bin=bin).select_related("part").order_by("part__number", "lot")


def held_back_bins() -> QuerySet[Bin]:
    """The bins that hold what may not be sold."""
    return Bin.objects.filter(held_back=True)


def receipts() -> QuerySet[Receipt]:
    """Every receipt, newest first, with `count` and `pieces` of its lines."""
    return Receipt.objects.select_related("by").annotate(count=Count("lines"), pieces=Coalesce(Sum("lines__quantity"), 0))


def expected_receipts() -> QuerySet[ExpectedReceipt]:
    """What is on order and not closed, soonest first, with `rest`: the pieces still to come."""
    still = ExpectedReceipt.objects.filter(closed_on__isnull=True).annotate(rest=F("quantity") - F("came"))
    return still.select_related("part").order_by("due_on", "pk")


def next_walk() -> int:
    """The turn after the last bin's."""
    last = Bin.objects.order_by("-walk").values_list("walk", flat=True).first()
    return (last or 0) + 10




def lines_of(receipt: Receipt) -> QuerySet[ReceiptLine]:
    """The lines of a receipt with part, bin, what they answer and movement, and whether that was taken back since."""
    return receipt.lines.select_related("part", "bin", "answers", "movement", "movement__reversed_by").order_by("position")


def known_numbers() -> dict[str, list[str]]:
    """Part numbers and bin codes to choose from while typing; two queries."""
    return {
        "part_numbers": list(Part.objects.order_by("number").values_list("number", flat=True)),
        "bin_codes": list(Bin.objects.order_by("walk", "code").values_list("code", flat=True)),
    }
