"""Measured back: what a crew's tape says of a structure, and keeping it."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from inventory.forms.measured import MeasuredForm
from inventory.queries.measured import kept_of, look_alikes
from structures.access import for_roles, structure_for
from structures.actions.structures import keep_measured
from structures.frame.document import Document
from structures.frame.measured import Cause, LookAlike, causes_of, read_back
from structures.models import Structure
from structures.requests import changes
from structures.views.pictures import close_picture


@for_roles("support", "grower")
@require_GET
def measured_back(request: HttpRequest, tag: str) -> HttpResponse:
    """The form, and what it means once something was typed."""
    structure, document = _of(request, tag)
    typed = request.GET if "read" in request.GET else None
    return _page(request, structure, document, MeasuredForm(typed, document=document, units=request.user.units))


@for_roles("support", "grower")
@require_POST
@changes
def measured_keep(request: HttpRequest, tag: str) -> HttpResponse:
    structure, document = _of(request, tag)
    form = MeasuredForm(request.POST, document=document, units=request.user.units)
    if not form.is_valid():
        return _page(request, structure, document, form, status=422)
    keep_measured(structure, form.measured, by=request.user)
    messages.success(request, f"Kept what was measured with {structure.tag}.")
    return redirect("inventory:measured-back", tag=structure.tag)


def _of(request: HttpRequest, tag: str) -> tuple[Structure, Document]:
    """A structure known from nothing but a tag has no frame to hold a tape against."""
    structure = structure_for(request.user, tag)
    if structure.design is None:
        raise Http404
    return structure, structure.design.read()


def _page(
    request: HttpRequest, structure: Structure, document: Document, form: MeasuredForm, *, status: int = 200
) -> HttpResponse:
    more = look_alikes(document)
    context: dict[str, Any] = {
        "structure": structure, "document": document, "form": form, "kept": kept_of(structure, document, more),
    }
    if form.is_bound and form.is_valid():
        measured, causes = form.measured, _causes(document, form, more)
        context |= {"findings": read_back(document, measured, more), "may_keep": bool(measured), "asked": form.asked,
                    "fitting": [cause for cause in causes if cause.fits], "other": [cause for cause in causes if not cause.fits]}
        if form.asked:
            context["picture"] = close_picture(document, form.asked[0], units=request.user.units, names=structure.end_names)
    return render(request, "inventory/measured_back.html", context, status=status)


def _causes(document: Document, form: MeasuredForm, more: list[LookAlike]) -> tuple[Cause, ...]:
    if form.asked is None:
        return ()
    piece, end, gap = form.asked
    return causes_of(document, piece, end, gap, measured=form.measured, more=more)
