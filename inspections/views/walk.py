"""The walk itself: bay by bay, the corners, and its end."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.http import require_GET, require_POST

from inspections.access import visit_for
from inspections.actions.observations import add_photo, all_the_rest, observe
from inspections.actions.visits import finish_visit
from inspections.checklist import ITEMS
from inspections.forms.walk import CornerForm, MomentForm, SeenForm
from inspections.models import Visit
from inspections.places import CORNERS, place_index
from inspections.queries.stretch import StretchPage, stretch_page
from inspections.queries.visits import last_corner_photos, others_on, sheet_of, walk_at, wrong_in, zone_of
from inspections.views.pictures import bay_picture
from structures.access import for_roles
from structures.refusals import Refuse
from structures.requests import changes
from structures.sentences import counted


@for_roles("grower", "support")
@require_GET
def visit_walk(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The way round: every stretch with what was answered, the corners, and the end."""
    visit = visit_for(request.user, pk)
    if visit.is_finished or not visit.is_started:
        return redirect("inspections:visit-detail", pk=pk)
    sheet = sheet_of(visit)
    context = {"visit": visit, "sheet": sheet, "others": others_on(visit, request.user), "zone": zone_of(visit.structure)}
    return render(request, "inspections/visit_walk.html", context)


@for_roles("grower", "support")
@require_GET
def walk_stretch(request: HttpRequest, pk: UUID, stretch: str) -> HttpResponse:
    """One bay's side or one end wall."""
    visit = visit_for(request.user, pk)
    if visit.is_finished or not visit.is_started:
        return redirect("inspections:visit-detail", pk=pk)
    page = _page(visit, stretch, request.GET.get("place", ""))
    return _stretch_response(request, visit, page)


@for_roles("grower", "support")
@require_POST
@changes
def walk_keep(request: HttpRequest, pk: UUID, stretch: str) -> HttpResponse:
    """Keep what was seen at one place, with its photo."""
    visit = visit_for(request.user, pk)
    place_id = request.POST.get("place", "")
    place = place_index(walk_at(visit.structure)).get(place_id)
    form = SeenForm(request.POST, request.FILES, item=ITEMS[place.item] if place else None)
    if not form.is_valid():
        return _stretch_response(request, visit, _page(visit, stretch, place_id), form=form, status=422)
    try:
        _keep(request, visit, form)
    except Refuse as refusal:
        _say_at(form, refusal)
        return _stretch_response(request, visit, _page(visit, stretch, place_id), form=form, status=422)
    return redirect(_after(visit, stretch))


@transaction.atomic
def _keep(request: HttpRequest, visit: Visit, form: SeenForm) -> None:
    """What was seen and its photo, both or neither: the page that refuses a photo must not show what it did not keep."""
    values, by = form.cleaned_data, request.user
    observe(visit, form.seen(), by=by, device_at=values["device_at"], observation_id=values["observation_id"])
    if upload := values["photo"]:
        add_photo(visit, upload.read(), upload.name, by=by, device_at=values["device_at"], place=values["place"])


@for_roles("grower", "support")
@require_POST
@changes
def walk_rest(request: HttpRequest, pk: UUID, stretch: str) -> HttpResponse:
    """All the rest of this stretch looks as built."""
    visit = visit_for(request.user, pk)
    made = all_the_rest(visit, stretch, by=request.user, device_at=_moment(request))
    messages.success(request, f"{counted(len(made), 'place')} kept as “looks as built”.")
    return redirect(_after(visit, stretch))


@for_roles("grower", "support")
@require_GET
def visit_corners(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The four corners, each with last time's photo beside today's."""
    visit = visit_for(request.user, pk)
    return _corners_response(request, visit)


@for_roles("grower", "support")
@require_POST
@changes
def corner_keep(request: HttpRequest, pk: UUID) -> HttpResponse:
    visit = visit_for(request.user, pk)
    form = CornerForm(request.POST, request.FILES)
    if not form.is_valid():
        return _corners_response(request, visit, form=form, status=422)
    values = form.cleaned_data
    try:
        add_photo(
            visit, values["photo"].read(), values["photo"].name, by=request.user, device_at=values["device_at"],
            corner=values["corner"],
        )
    except Refuse as refusal:
        _say_at(form, refusal)
        return _corners_response(request, visit, form=form, status=422)
    messages.success(request, f"The photo of the {values['corner']} corner is kept.")
    return redirect("inspections:visit-corners", pk=pk)


@for_roles("grower", "support")
@require_GET
def visit_end(request: HttpRequest, pk: UUID) -> HttpResponse:
    """What is still missing, before the walk is ended."""
    visit = visit_for(request.user, pk)
    if visit.is_finished or not visit.is_started:
        return redirect("inspections:visit-detail", pk=pk)
    sheet = sheet_of(visit)
    return render(request, "inspections/visit_end.html", {"visit": visit, "sheet": sheet, "wrong": wrong_in(sheet)})


@for_roles("grower", "support")
@require_POST
@changes
def visit_finish(request: HttpRequest, pk: UUID) -> HttpResponse:
    visit = finish_visit(visit_for(request.user, pk), by=request.user, device_at=_moment(request))
    messages.success(request, "The walk is ended and kept.")
    return redirect("inspections:visit-detail", pk=visit.pk)


def _page(visit: Visit, stretch: str, place_id: str) -> StretchPage:
    page = stretch_page(visit, stretch, place_id)
    if page is None:
        raise Http404
    return page


def _stretch_response(
    request: HttpRequest, visit: Visit, page: StretchPage, *, form: SeenForm | None = None, status: int = 200
) -> HttpResponse:
    if form is None and page.chosen:
        form = SeenForm(item=page.chosen.item, initial={"place": page.chosen.place.id})
    context: dict[str, Any] = {
        "visit": visit, "page": page, "form": form, "zone": zone_of(visit.structure),
        "picture": bay_picture(visit, page), "others": others_on(visit, request.user),
    }
    return render(request, "inspections/walk_stretch.html", context, status=status)


def _corners_response(
    request: HttpRequest, visit: Visit, *, form: CornerForm | None = None, status: int = 200
) -> HttpResponse:
    sheet, before = sheet_of(visit), last_corner_photos(visit)
    names = visit.structure.end_names
    corners = [{"name": corner, "called": names.get(1 if corner.startswith("tag") else 2, ""), "today": sheet.corner_photo(corner),
                "before": before.get(corner)} for corner in CORNERS]
    context = {"visit": visit, "corners": corners, "missing": sheet.corners_missing, "form": form, "zone": zone_of(visit.structure)}
    return render(request, "inspections/visit_corners.html", context, status=status)


def _after(visit: Visit, stretch: str) -> str:
    """Where to go once an answer is kept: on, when this stretch has nothing open; else here, for what is left."""
    page = _page(visit, stretch, "")
    here = reverse("inspections:walk-stretch", kwargs={"pk": visit.pk, "stretch": stretch})
    apart = [row.place.id for row in page.rows if row.apart and not row.answered]
    if page.leg.count.not_looked and page.rest_count:
        return here
    if apart:
        return f"{here}?{urlencode({'place': apart[0]})}#in-hand"
    if page.on:
        return reverse("inspections:walk-stretch", kwargs={"pk": visit.pk, "stretch": page.on.stretch.key})
    return reverse("inspections:visit-corners", kwargs={"pk": visit.pk})


def _say_at(form: Any, refusal: Refuse) -> None:
    form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)


def _moment(request: HttpRequest) -> Any:
    form = MomentForm(request.POST)
    return form.cleaned_data["device_at"] if form.is_valid() else None
