"""What somebody's first page says about walks and things wrong."""

from __future__ import annotations

from collections.abc import Iterable

from django.db.models import Count, Q
from django.urls import reverse
from django.utils import timezone

from inspections.mending import ASKED
from inspections.models import FaultRequest, Visit
from inspections.states import ANNUAL, STOP, STORM
from structures.models import User
from structures.rooms import News
from structures.sentences import counted


def staff_news(user: User) -> Iterable[News]:
    """Walks that are due or overdue, and things wrong to which nothing was sent yet. Two queries."""
    today = timezone.localdate()
    due = Visit.objects.waiting().aggregate(
        storm=Count("pk", filter=Q(kind=STORM, started_server_at__isnull=True)),
        late=Count("pk", filter=Q(kind=ANNUAL, due_on__lt=today, started_server_at__isnull=True)),
    )
    asked = FaultRequest.objects.with_last_step().filter(last_step=ASKED).aggregate(
        all=Count("pk"), stop=Count("pk", filter=Q(class_now=STOP))
    )
    visits, wrong = reverse("inspections:visit-list"), reverse("inspections:wrong-list")
    if asked["stop"]:
        yield News(f"{counted(asked['stop'], 'thing')} wrong of the class “stop and ask”, and nothing sent yet.", wrong, late=True)
    if asked["all"] > asked["stop"]:
        what = "other thing" if asked["stop"] else "thing"
        yield News(f"{counted(asked['all'] - asked['stop'], what)} wrong, and nothing sent yet.", wrong)
    if due["storm"]:
        yield News(f"{counted(due['storm'], 'structure')} not looked at since a storm.", visits, late=True)
    if due["late"]:
        yield News(f"{counted(due['late'], 'yearly walk')} overdue.", visits)
