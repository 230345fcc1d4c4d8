"""What a frozen design is made of: by its number for the staff, by the tag for whoever belongs to the structure."""

from __future__ import annotations

from collections.abc import Mapping

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.views.decorators.http import require_GET

from structures.access import for_roles, structure_for
from structures.frame.document import Document
from structures.making import kit_rows
from structures.models import Design, Structure
from structures.views.pictures import picture
from structures.views.sizes import made_of


@for_roles("support", "warehouse")
@require_GET
def design_detail(request: HttpRequest, pk: int) -> HttpResponse:
    design = get_object_or_404(Design.objects.select_related("family"), pk=pk)
    why, drawings = (reverse(f"structures:{name}", args=[pk]) for name in ("design-why", "design-drawings"))
    return _made_of_page(request, design, about=f"Design {pk}, as it was frozen", why=why, drawings=drawings)


@for_roles("support", "warehouse")
@require_GET
def design_why(request: HttpRequest, pk: int) -> HttpResponse:
    design = get_object_or_404(Design, pk=pk)
    return _why_page(request, design.read(), back=reverse("structures:design-detail", args=[design.pk]))


@for_roles("support", "grower")
@require_GET
def structure_made_of(request: HttpRequest, tag: str) -> HttpResponse:
    why, drawings = (reverse(f"structures:{name}", args=[tag]) for name in ("structure-why", "structure-drawings"))
    structure = _structure_of(request, tag)
    return _made_of_page(request, structure.design, about=f"Structure {tag}, as it was shipped", why=why, drawings=drawings,
                         names=structure.end_names)


@for_roles("support", "grower")
@require_GET
def structure_why(request: HttpRequest, tag: str) -> HttpResponse:
    return _why_page(request, _structure_of(request, tag).design.read(), back=reverse("structures:structure-made-of", args=[tag]))


def _structure_of(request: HttpRequest, tag: str) -> Structure:
    """A structure known from nothing but a tag has no design, so there is nothing to show."""
    structure = structure_for(request.user, tag)
    if structure.design is None:
        raise Http404
    return structure


def _made_of_page(request: HttpRequest, design: Design, *, about: str, why: str, drawings: str,
                  names: Mapping[int, str] | None = None) -> HttpResponse:
    units = request.user.units
    document = design.read()
    context = {
        **made_of(document, units=units), "about": about, "why_url": why, "drawings_url": drawings,
        "picture": picture(document, "frame", units=units, names=names),
    }
    if request.user.role in ("support", "owner"):
        context["beside_url"] = f"{reverse('structures:side-by-side')}?a-design={design.pk}"
    return render(request, "structures/made_of.html", context)


def _why_page(request: HttpRequest, document: Document, *, back: str) -> HttpResponse:
    return render(request, "structures/why.html", {"document": document, "kit": kit_rows(document), "back": back})
