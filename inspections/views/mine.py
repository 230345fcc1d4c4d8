"""A grower's own pages: what stands and is due, signs to leave, what was wrong, and beginning a walk."""

from __future__ import annotations

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from inspections.access import visit_for
from inspections.actions.visits import begin_look, start_visit
from inspections.forms.walk import MomentForm
from inspections.queries.requests import my_wrong
from inspections.queries.visits import due_of, my_structures, not_planned, rules_in_force, visits_of, walked_days, zone_of
from structures.access import everyone, for_roles, structure_for
from structures.refusals import Refuse
from structures.requests import changes


@for_roles("grower")
@require_GET
def home(request: HttpRequest) -> HttpResponse:
    """Everything that this person looks after, with what is due on top."""
    today = timezone.localdate()
    return render(request, "inspections/home.html", {"mine": my_structures(request.user, today), "today": today})


@everyone
@require_GET
def leave_now(request: HttpRequest) -> HttpResponse:
    """The signs to leave at once. Open to all: nobody signs in while something creaks."""
    return render(request, "inspections/leave_now.html")


@for_roles("grower")
@require_GET
def my_wrong_list(request: HttpRequest) -> HttpResponse:
    """What was wrong at one's own structures and what became of it."""
    return render(request, "inspections/my_wrong.html", {"requests": my_wrong(request.user)})


@for_roles("grower", "support")
@require_GET
def structure_visits(request: HttpRequest, tag: str) -> HttpResponse:
    """The walks of one structure: what is due, and every visit made."""
    structure = structure_for(request.user, tag)
    visits = list(visits_of(structure))
    today = timezone.localdate()
    waiting = [visit for visit in visits if not visit.is_finished]
    context = {
        "structure": structure,
        "waiting": waiting,
        "made": [visit for visit in visits if visit.is_finished],
        "due": not_planned(due_of(structure, rules_in_force(), walked_days(structure), today), waiting),
        "zone": zone_of(structure),
        "today": today,
    }
    return render(request, "inspections/structure_visits.html", context)


@for_roles("grower", "support")
@require_POST
@changes
def look_begin(request: HttpRequest, tag: str) -> HttpResponse:
    structure = structure_for(request.user, tag)
    visit = begin_look(structure, by=request.user, device_at=_device_time(request))
    return redirect("inspections:visit-before", pk=visit.pk)


@for_roles("grower", "support")
@require_POST
@changes
def visit_start(request: HttpRequest, pk: UUID) -> HttpResponse:
    visit = start_visit(visit_for(request.user, pk), by=request.user, device_at=_device_time(request))
    return redirect("inspections:visit-before", pk=visit.pk)


@for_roles("grower", "support")
@require_GET
def visit_before(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The signs to leave, before the first question of every walk."""
    return render(request, "inspections/leave_now.html", {"visit": visit_for(request.user, pk)})


def _device_time(request: HttpRequest) -> object:
    form = MomentForm(request.POST)
    if not form.is_valid():
        raise Refuse("The page was sent with something in it that can't be read: open it again and send it once more.")
    return form.cleaned_data["device_at"]
