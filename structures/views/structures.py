"""Structures: the list, one structure, who belongs to it and what differs on it."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from structures.access import for_roles, structure_for, structures_of
from structures.actions.people import end_belonging, let_belong
from structures.actions.structures import append_change, change_structure, name_ends
from structures.forms.filters import StructuresFilter
from structures.forms.structures import AsBuiltChangeForm, BelongingForm, EndBelongingForm, EndNamesForm, StructureForm
from structures.lists import list_page
from structures.models import Structure
from structures.queries.people import people_at
from structures.queries.structures import changes_of, events_about
from structures.refusals import Refuse
from structures.requests import changes
from structures.tables.structures import StructuresTable


@for_roles("support")
@require_GET
def structure_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=StructuresTable, filterset=StructuresFilter,
        queryset=structures_of(request.user).select_related("design__family"),
        template="structures/structure_list.html", export_name="structures",
    )


@for_roles("support", "grower")
@require_GET
def structure_detail(request: HttpRequest, tag: str) -> HttpResponse:
    return _structure_page(request, structure_for(request.user, tag))


@for_roles("support")
@require_POST
@changes
def structure_keep(request: HttpRequest, tag: str) -> HttpResponse:
    structure = structure_for(request.user, tag)
    form = StructureForm(request.POST, instance=structure_for(request.user, tag))
    if not form.is_valid():
        return _structure_page(request, structure, facts=form, status=422)
    change_structure(structure, form.cleaned_data, by=request.user)
    messages.success(request, f"Kept what is known about {structure.tag}.")
    return redirect("structures:structure-detail", tag=structure.tag)


@for_roles("support", "grower")
@require_POST
@changes
def structure_ends(request: HttpRequest, tag: str) -> HttpResponse:
    """Keep what people call its ends: whoever belongs to it knows best."""
    structure = structure_for(request.user, tag)
    form = EndNamesForm(request.POST, instance=structure_for(request.user, tag))
    if not form.is_valid():
        return _structure_page(request, structure, ends=form, status=422)
    name_ends(structure, tag_end=form.cleaned_data["tag_end_name"], far_end=form.cleaned_data["far_end_name"], by=request.user)
    messages.success(request, f"Kept what the ends of {structure.tag} are called.")
    return redirect("structures:structure-detail", tag=structure.tag)


@for_roles("support", "grower")
@require_POST
@changes
def structure_differs(request: HttpRequest, tag: str) -> HttpResponse:
    structure = structure_for(request.user, tag)
    form = _change_form(structure, request.POST)
    if not form.is_valid():
        return _structure_page(request, structure, differs=form, status=422)
    append_change(structure, **form.cleaned_data, by=request.user)
    messages.success(request, "Kept. It stands with the structure from now on and is looked at on the next walk.")
    return redirect("structures:structure-detail", tag=structure.tag)


@for_roles("support")
@require_POST
@changes
def structure_belongs(request: HttpRequest, tag: str) -> HttpResponse:
    structure = structure_for(request.user, tag)
    form = BelongingForm(request.POST)
    if not form.is_valid():
        return _structure_page(request, structure, belongs=form, status=422)
    person = form.cleaned_data["person"]
    let_belong(person, structure, since=form.cleaned_data["since"], by=request.user)
    messages.success(request, f"{person.called} sees {structure.tag} now.")
    return redirect("structures:structure-detail", tag=structure.tag)


@for_roles("support")
@require_POST
@changes
def belonging_end(request: HttpRequest, tag: str, pk: int) -> HttpResponse:
    structure = structure_for(request.user, tag)
    belonging = people_at(structure).filter(pk=pk).first()
    if belonging is None:
        raise Http404
    form = EndBelongingForm(request.POST)
    if not form.is_valid():
        raise Refuse("The last day is missing or is no day: give it like 2026-04-30.")
    end_belonging(belonging, until=form.cleaned_data["until"], by=request.user)
    messages.success(request, f"{belonging.user.called} no longer sees {structure.tag}.")
    return redirect("structures:structure-detail", tag=structure.tag)


def _change_form(structure: Structure, data: Any = None) -> AsBuiltChangeForm:
    document = structure.design.read() if structure.design else None
    today = timezone.localdate()
    return AsBuiltChangeForm(data, document=document, today=today, initial={"seen_on": today})


def _structure_page(
    request: HttpRequest, structure: Structure, *, facts: StructureForm | None = None,
    differs: AsBuiltChangeForm | None = None, belongs: BelongingForm | None = None, ends: EndNamesForm | None = None,
    status: int = 200,
) -> HttpResponse:
    today = timezone.localdate()
    context = {
        "structure": structure,
        "document": structure.design.read() if structure.design else None,
        "people": people_at(structure),
        "changes": changes_of(structure),
        "events": events_about(f"structure {structure.tag}") if request.user.is_staff_role else [],
        "facts": facts or StructureForm(instance=structure, auto_id="facts_%s"),
        "ends": ends or EndNamesForm(instance=structure, auto_id="ends_%s"),
        "differs": differs or _change_form(structure),
        "belongs": belongs or BelongingForm(initial={"since": today}, auto_id="belongs_%s"),
        "today": today,
    }
    return render(request, "structures/structure_detail.html", context, status=status)
