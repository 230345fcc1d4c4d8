"""What the first page says of stock: what is short, and what was due and has not come."""

from __future__ import annotations

from collections.abc import Iterable

from django.urls import reverse
from django.utils import timezone

from inventory.models import ExpectedReceipt
from inventory.queries.parts import parts_with_stock
from structures.models import User
from structures.rooms import News
from structures.sentences import counted

NAMED = 3  # more than a line of numbers is a list, and the list is one link away


def stock_news(user: User) -> Iterable[News]:
    """Parts that more are promised of than lie in the bins, and parts on order whose day has passed. Two queries."""
    short = list(parts_with_stock().filter(free__lt=0).order_by("free", "number"))
    if short:
        worst = ", ".join(f"{part.number} by {-part.free:,}" for part in short[:NAMED])
        more = f" and {len(short) - NAMED} more" if len(short) > NAMED else ""
        are = "is" if len(short) == 1 else "are"
        yield News(f"{counted(len(short), 'part')} {are} short: {worst}{more}.", f"{reverse('inventory:part-list')}?stock=short&sort=free")
    overdue = ExpectedReceipt.objects.filter(closed_on__isnull=True, due_on__lt=timezone.localdate())
    late = list(overdue.select_related("part").order_by("due_on", "pk"))
    if late:
        have = "has" if len(late) == 1 else "have"
        first = late[0]
        yield News(
            f"{counted(len(late), 'delivery', 'deliveries')} {have} not come: {first.still:,} of {first.part.number} from "
            f"{first.supplier}, due {first.due_on:%-d %B}{', first' if len(late) > 1 else ''}.",
            reverse("inventory:expected-list"), late=True,
        )
