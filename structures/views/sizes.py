"""Size and options, and what the choices are made of."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET

from structures.access import for_roles
from structures.forms.beside import prefixed
from structures.forms.sizing import Sizing, look
from structures.frame import drawing
from structures.frame.document import Document
from structures.making import kit_rows, weight_rows
from structures.queries.families import family_of, revision_choices
from structures.showing import LAID_FLAT
from structures.views.pictures import lit_words, picture

VIEWS = ("side-right", "side-left", "section")
BESIDE = {"frame": "Frame", "section": "One hoop", "unrolled": "Laid flat", "inside-tag-right": "A corner"}


@for_roles("support")
@require_GET
def size_and_options(request: HttpRequest) -> HttpResponse:
    sizing = look(request.GET, units=request.user.units)
    if sizing is None:
        return render(request, "structures/size_none.html")
    view = request.GET.get("view") if request.GET.get("view") in BESIDE else "frame"
    context = {
        "sizing": sizing,
        "beside": [(code, words, code == view) for code, words in BESIDE.items()],
        "view_carried": "" if view == "frame" else f"&view={view}",
        "revisions": revision_choices(),
        "family": family_of(sizing.standing.revision),
        "picture": picture(
            sizing.document, view, roomy="desk", lit=sizing.lit, caption=_caption(sizing, view), units=sizing.units
        ),
        "why_url": f"{reverse('structures:size-why')}?{sizing.query}{sizing.carried}",
        "beside_url": f"{reverse('structures:side-by-side')}?{prefixed(sizing.standing.typed, 'a')}",
        **made_of(sizing.document, units=sizing.units),
        "kit": sizing.kit,
    }
    return render(request, "structures/size.html", context)


@for_roles("support")
@require_GET
def size_why(request: HttpRequest) -> HttpResponse:
    """Why each count: every reason, down to the places."""
    sizing = look(request.GET, units=request.user.units)
    if sizing is None or sizing.refusals:
        return redirect(f"{reverse('structures:size')}?{request.GET.urlencode()}")
    context = {"document": sizing.document, "kit": sizing.kit, "back": f"{reverse('structures:size')}?{sizing.query}{sizing.carried}"}
    return render(request, "structures/why.html", context)


@for_roles("support")
@require_GET
def size_keep(request: HttpRequest) -> HttpResponse:
    """Carry choices that can be to a draft order; choices that can't go back to their page with the sentence."""
    sizing = look(request.GET, units=request.user.units)
    if sizing is None or sizing.refusals:
        return redirect(f"{reverse('structures:size')}?{request.GET.urlencode()}")
    return redirect(f"{reverse('inventory:order-new')}?{sizing.query}{sizing.carried}")


def made_of(document: Document, *, units: str) -> dict[str, object]:
    """What every page about a document shows below: kit, marks, weights, cuts and three views."""
    return {
        "document": document,
        "kit": kit_rows(document),
        "letters": drawing.letters(document),
        "weights": weight_rows(document),
        "views": [picture(document, view, units=units) for view in VIEWS],
    }


def _caption(sizing: Sizing, view: str) -> str:
    document = sizing.document
    size = f"{document.family} × {document.measures.length_in / 12:g} ft"
    seen = drawing.caption(document, view, "desk") or LAID_FLAT
    said = f"{size} from outside the tag end, right front." if view == "frame" else f"{size}. {seen}"
    marks = lit_words(document, sizing.lit)
    return f"{said} What was chosen last is lit: {marks}." if marks else said
