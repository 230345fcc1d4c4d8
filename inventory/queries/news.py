"""What everybody's first page says of orders and picks."""

from __future__ import annotations

from collections.abc import Iterable

from django.urls import reverse
from django.utils import timezone

from inventory.models import PickLine
from inventory.queries.orders import list_figures
from structures.models import User
from structures.rooms import News
from structures.sentences import counted


def order_news(user: User) -> Iterable[News]:
    """Late promises first, then what is open and promised next."""
    figures = list_figures(timezone.localdate())
    page = reverse("inventory:order-list")
    if figures.late:
        yield News(f"{counted(figures.late, 'promise')} {'is' if figures.late == 1 else 'are'} late.", page, late=True)
    if figures.open:
        following = f"; the next is promised for {figures.next_promise:%-d %B}" if figures.next_promise else ""
        yield News(f"{counted(figures.open, 'order')} {'is' if figures.open == 1 else 'are'} open{following}.", page)


def pick_news(user: User) -> Iterable[News]:
    """How many orders still want something from the bins."""
    waiting = PickLine.objects.still_wanted().values("pick").distinct().count()
    if waiting:
        want = "wants" if waiting == 1 else "want"
        yield News(f"{counted(waiting, 'order')} still {want} parts from the bins.", reverse("inventory:pick-list"))
