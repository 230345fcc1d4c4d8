"""Questions about parts: how many lie where, how many are spoken for, and what could be taken for what."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import F, IntegerField, OuterRef, QuerySet, Subquery, Sum, Value
from django.db.models.functions import Coalesce
from django.utils import timezone

from inventory import twins
from inventory.models import ExpectedReceipt, Holding, Movement, Part, PartUse, PickLine
from structures.models import FamilyRevision


def parts_with_stock() -> QuerySet[Part]:
    """Every part with `on_hand`, `held_back`, `spoken_for`, `free` and `on_order` pieces; one query.

    `free` is what is on hand in bins that are not held back, less what open orders have promised and not yet taken; it
    is below zero when more is promised than there is.
    """
    here = Holding.objects.filter(part=OuterRef("pk"))
    wanted = PickLine.objects.spoken_for().filter(part=OuterRef("pk"))
    due = ExpectedReceipt.objects.filter(part=OuterRef("pk"), closed_on__isnull=True).annotate(rest=F("quantity") - F("came"))
    return Part.objects.annotate(
        on_hand=_total(here.filter(bin__held_back=False), "quantity"),
        held_back=_total(here.filter(bin__held_back=True), "quantity"),
        spoken_for=_total(wanted, "wanted"),
        on_order=_total(due, "rest"),
    ).annotate(free=F("on_hand") - F("spoken_for"))


def _total(rows: QuerySet, field: str) -> Coalesce:
    # A subquery for each sum: joining two of them would count every row of one for each row of the other.
    summed = rows.order_by().values("part").annotate(total=Sum(field)).values("total")
    return Coalesce(Subquery(summed, output_field=IntegerField()), Value(0))


def stock_words(part: Part) -> str:
    """What a person must know about a part of `parts_with_stock`, in one sentence; "" when nothing stands out."""
    if part.free < 0:
        return f"{-part.free:,} short: {part.spoken_for:,} are spoken for and {part.on_hand:,} lie in the bins{_due(part)}."
    if part.reorder_point is not None and part.free < part.reorder_point:
        return f"{part.free:,} are free to sell, under the reorder point of {part.reorder_point:,}{_due(part)}."
    return ""


def _due(part: Part) -> str:
    return f"; {part.on_order:,} more are on order" if part.on_order else ""


def twins_of(part: Part) -> list[twins.Twin]:
    """The look-alikes of a part, nearest first; one query."""
    return twins.twins(piece_of(part), [piece_of(other) for other in Part.objects.with_ends_of(part)])


def piece_of(part: Part) -> twins.Piece:
    """What the pure twin finder needs to know of a part."""
    return twins.Piece(part.number, part.tube, part.ends, part.hand, part.length_in, part.role, part.name)


def holdings_of(part: Part) -> QuerySet[Holding]:
    """Where a part lies, by bin as one walks, then by lot."""
    return Holding.objects.there().filter(part=part).select_related("bin", "part").in_walking_order()


def movements_of(part: Part) -> QuerySet[Movement]:
    """Every movement of a part, newest first."""
    return movements().filter(part=part)


def movements() -> QuerySet[Movement]:
    """Every movement with what its row shows, newest first."""
    return Movement.objects.select_related("part", "bin", "who", "reversed_by").order_by("-pk")


def families_using(part: Part) -> list[FamilyRevision]:
    """The family revisions that use a part, by code and date."""
    uses = part.uses.select_related("family").order_by("family__code", "family__effective")
    return [use.family for use in uses]


def expected_of(part: Part) -> QuerySet[ExpectedReceipt]:
    """What is still expected of a part, soonest first."""
    return part.expected.filter(closed_on__isnull=True).select_related("part").order_by("due_on")


def not_taken_up() -> list[FamilyRevision]:
    """Loaded revisions whose parts were never taken up."""
    return list(FamilyRevision.objects.filter(part_uses__isnull=True).order_by("code", "effective"))


def roles() -> list[str]:
    """Every role that a part has, for choosing one."""
    return list(Part.objects.order_by("role").values_list("role", flat=True).distinct())


ROLE_WORDS = {
    "section": "hoop section", "post": "ground post", "stick": "purlin stick", "end": "purlin end", "raw": "raw tube",
    "roof-lower": "roof brace, lower", "roof-upper": "roof brace, upper",
}


def role_words(role: str) -> str:
    """A role as one says it: "side-brace" is "side brace"."""
    return ROLE_WORDS.get(role, role.replace("-", " "))


def family_codes() -> list[str]:
    """Every family that uses a part, for choosing one."""
    return list(PartUse.objects.order_by("family__code").values_list("family__code", flat=True).distinct())


@dataclass(frozen=True, slots=True)
class Promise:
    """Pieces of a part that an open order has promised: `wanted` are not taken yet, `short` of them have none left in the
    bins once everything promised before is taken."""

    line: PickLine
    wanted: int
    short: int


def promises_of(part: Part) -> list[Promise]:
    """Who a part of `parts_with_stock` is spoken for by, soonest promise first; an order without a day comes last."""
    lines = PickLine.objects.spoken_for().filter(part=part).select_related("pick__order__customer")
    left, found = part.on_hand, []
    for line in lines.order_by(F("promised_on").asc(nulls_last=True), "pk"):
        short = min(line.wanted, max(line.wanted - max(left, 0), 0))
        left -= line.wanted
        found.append(Promise(line, line.wanted, short))
    return found


@dataclass(frozen=True, slots=True)
class Supply:
    """One thing on order and whether its day has passed."""

    expected: ExpectedReceipt
    late: bool


def supplies_of(part: Part) -> list[Supply]:
    """What is expected of a part, and what of it is late today."""
    today = timezone.localdate()
    return [Supply(expected, expected.due_on < today) for expected in expected_of(part)]


