"""Storms: the list, one storm, entering one."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from inspections.actions.weather import Entered, catch_up_storm, enter_storm, widen_storm
from inspections.forms.filters import StormFilter
from inspections.forms.weather import StormForm, TownsForm
from inspections.models import Visit
from inspections.queries.weather import storms, without_walk
from inspections.tables.visits import StormsTable
from structures.access import for_roles
from structures.lists import list_page
from structures.refusals import Refuse
from structures.requests import changes
from structures.sentences import counted


@for_roles("support")
@require_GET
def storm_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=StormsTable, filterset=StormFilter, queryset=storms(), template="inspections/storm_list.html", export_name="storms"
    )


@for_roles("owner")
@require_GET
def storm_new(request: HttpRequest) -> HttpResponse:
    return _new_response(request, StormForm(today=timezone.localdate(), initial={"on": timezone.localdate()}))


@for_roles("owner")
@require_POST
@changes
def storm_enter(request: HttpRequest) -> HttpResponse:
    """Keep a storm and tell whoever stands in its way to look."""
    form = StormForm(request.POST, today=timezone.localdate())
    if not form.is_valid():
        return _new_response(request, form, status=422)
    try:
        entered = enter_storm(form.values(), form.cleaned_data["towns"], by=request.user)
    except Refuse as refusal:
        form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        return _new_response(request, form, status=422)
    _say(request, entered)
    return redirect("inspections:storm-detail", pk=entered.storm.pk)


@for_roles("support")
@require_GET
def storm_detail(request: HttpRequest, pk: int) -> HttpResponse:
    return _storm_response(request, get_object_or_404(storms(), pk=pk))


@for_roles("owner")
@require_POST
@changes
def storm_widen(request: HttpRequest, pk: int) -> HttpResponse:
    storm = get_object_or_404(storms(), pk=pk)
    form = TownsForm(request.POST)
    if not form.is_valid():
        return _storm_response(request, storm, form=form, status=422)
    try:
        entered = widen_storm(storm, form.cleaned_data["towns"], by=request.user)
    except Refuse as refusal:
        form.add_error(refusal.field or None, refusal.sentence)
        return _storm_response(request, storm, form=form, status=422)
    _say(request, entered)
    return redirect("inspections:storm-detail", pk=pk)


@for_roles("owner")
@require_POST
@changes
def storm_catch_up(request: HttpRequest, pk: int) -> HttpResponse:
    _say_due(request, len(catch_up_storm(get_object_or_404(storms(), pk=pk), by=request.user)))
    return redirect("inspections:storm-detail", pk=pk)


def _say_due(request: HttpRequest, many: int) -> None:
    messages.success(request, f"{counted(many, 'structure')} {'has' if many == 1 else 'have'} a walk due after it.")


def _say(request: HttpRequest, entered: Entered) -> None:
    _say_due(request, len(entered.visits))
    if entered.left_out:
        messages.success(request, f"{counted(len(entered.left_out), 'structure')} got none; who and why is below.")
    for town, near in entered.nobody:
        hint = f" {near} is spelt much like it." if near else ""
        messages.error(request, f"Nothing of ours stands in {town}.{hint}")


def _new_response(request: HttpRequest, form: StormForm, *, status: int = 200) -> HttpResponse:
    return render(request, "inspections/storm_new.html", {"form": form}, status=status)


def _storm_response(request: HttpRequest, storm: Any, *, form: TownsForm | None = None, status: int = 200) -> HttpResponse:
    visits = Visit.objects.filter(storm=storm).select_related("structure", "who").overdue_first()
    others = without_walk(storm)
    context = {
        "storm": storm, "visits": visits, "form": form or TownsForm(), "may_enter": request.user.role == "owner",
        "left_out": [one for one in others if one.why], "late": [one.structure for one in others if not one.why],
    }
    return render(request, "inspections/storm_detail.html", context, status=status)
