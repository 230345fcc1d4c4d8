"""One visit as it was recorded, its corrections, its report and its photos; and the list of what is due."""

from __future__ import annotations

import re
from uuid import UUID

from django.contrib import messages
from django.db.models.fields.files import FieldFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from inspections.access import observation_for, photo_for, visit_for
from inspections.actions.observations import add_photo, correct
from inspections.actions.visits import plan_walks
from inspections.checklist import ITEMS
from inspections.forms.filters import DueFilter
from inspections.forms.walk import SeenForm
from inspections.models import Observation, Visit
from inspections.places import place_index
from inspections.queries.reports import report_of
from inspections.queries.visits import walk_at, zone_of
from inspections.tables.visits import VisitsTable
from inspections.views.report import report_pdf
from structures.access import for_roles
from structures.lists import list_page
from structures.models import Structure
from structures.refusals import Refuse
from structures.requests import changes, refused_page
from structures.sentences import counted


@for_roles("support")
@require_GET
def visit_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=VisitsTable, filterset=DueFilter, template="inspections/visit_list.html", export_name="visits",
        queryset=Visit.objects.select_related("structure", "storm", "who"),
    )


@for_roles("support")
@require_POST
@changes
def visits_plan(request: HttpRequest) -> HttpResponse:
    """Put down every walk that the rules ask for."""
    standing = Structure.objects.filter(finished_on__isnull=False)
    made = plan_walks(standing, today=timezone.localdate(), by=request.user)
    messages.success(request, f"{counted(made, 'walk')} put down." if made else "Every walk that the rules ask for stands here already.")
    return redirect("inspections:visit-list")


@for_roles("grower", "support")
@require_GET
def visit_detail(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Everything recorded on one visit; one not begun says what it is for."""
    visit = visit_for(request.user, pk)
    context = {"visit": visit, "report": report_of(visit), "zone": zone_of(visit.structure), "today": timezone.localdate()}
    return render(request, "inspections/visit_detail.html", context)


@for_roles("grower", "support")
@require_GET
def visit_report(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The report of a visit, as a PDF."""
    visit = visit_for(request.user, pk)
    try:
        data = report_pdf(report_of(visit), printed_at=timezone.now())
    except Refuse as refusal:
        return refused_page(request, refusal.sentence, status=503)
    response = HttpResponse(data, content_type="application/pdf")
    response.headers["Content-Disposition"] = f'inline; filename="walk-{visit.structure.tag}-{visit.pk}.pdf"'
    return response


@for_roles("grower", "support")
@require_GET
def observation_correct(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The form that corrects one answer, filled in with it."""
    return _correct_response(request, observation_for(request.user, pk))


@for_roles("grower", "support")
@require_POST
@changes
def correction_keep(request: HttpRequest, pk: UUID) -> HttpResponse:
    observation = observation_for(request.user, pk)
    place = place_index(walk_at(observation.visit.structure)).get(observation.place)
    form = SeenForm({**request.POST.dict(), "place": observation.place}, request.FILES, item=ITEMS[place.item] if place else None)
    if not form.is_valid():
        return _correct_response(request, observation, form=form, status=422)
    values = form.cleaned_data
    try:
        correct(observation, form.seen(), by=request.user, device_at=values["device_at"], observation_id=values["observation_id"])
        if upload := values["photo"]:
            add_photo(
                observation.visit, upload.read(), upload.name, by=request.user, device_at=values["device_at"], place=observation.place
            )
    except Refuse as refusal:
        form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        return _correct_response(request, observation, form=form, status=422)
    messages.success(request, f"The correction for {observation.code} is kept beside the older answer.")
    return redirect("inspections:visit-detail", pk=observation.visit_id)


def _correct_response(
    request: HttpRequest, observation: Observation, *, form: SeenForm | None = None, status: int = 200
) -> HttpResponse:
    place = place_index(walk_at(observation.visit.structure)).get(observation.place)
    item = ITEMS[place.item] if place else None
    if form is None:
        initial = {name: getattr(observation, name) for name in ("place", "state", "fault_class", "what", "note", "against")}
        form = SeenForm(item=item, initial=initial)
    context = {
        "observation": observation, "visit": observation.visit, "place": place, "item": item, "form": form,
        "zone": zone_of(observation.visit.structure),
    }
    return render(request, "inspections/observation_correct.html", context, status=status)


@for_roles("grower", "support")
@require_GET
def photo_shown(request: HttpRequest, pk: UUID) -> HttpResponse:
    return _copy(photo_for(request.user, pk).shown)


@for_roles("grower", "support")
@require_GET
def photo_small(request: HttpRequest, pk: UUID) -> HttpResponse:
    return _copy(photo_for(request.user, pk).small)


@for_roles("grower", "support")
@require_GET
def photo_original(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The bytes as they came, only to be saved: a browser must not run what a stranger's file claims to be."""
    photo = photo_for(request.user, pk)
    response = _bytes(photo.original, "application/octet-stream")
    name = re.sub(r"[^A-Za-z0-9-]", "-", photo.visit.structure.tag)
    response.headers["Content-Disposition"] = f'attachment; filename="{name}-{photo.pk}-original"'
    return response


def _copy(file: FieldFile) -> HttpResponse:
    response = _bytes(file, "image/jpeg")
    # A copy never changes, and only this person's own browser may keep it.
    response.headers["Cache-Control"] = "private, max-age=86400, immutable"
    return response


def _bytes(file: FieldFile, content_type: str) -> HttpResponse:
    with file.open("rb") as opened:
        response = HttpResponse(opened.read(), content_type=content_type)
    response.headers["X-Content-Type-Options"] = "nosniff"
    return response
