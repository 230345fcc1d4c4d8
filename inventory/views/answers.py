"""The answer page: which braces an order included, and where each one goes; and the box that finds it."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET

from inventory.access import order_for
from inventory.queries.answers import Answer, answer
from inventory.queries.found import find
from structures.access import for_roles
from structures.frame import drawing
from structures.views.pictures import Picture

CAPTION = "Left and right are as you stand outside the tag end, looking in. A right twist turns like a screw thread."


@for_roles("support", "warehouse")
@require_GET
def order_answer(request: HttpRequest, number: str, ordinal: int | None = None) -> HttpResponse:
    order = order_for(request.user, number)
    found = answer(order, ordinal, lit=request.GET.get("lit", "")[:40], offer=request.GET.get("offer", "")[:40])
    if found is None:
        if ordinal is not None:
            raise Http404
        return redirect("inventory:order-detail", number=order.label)
    units = request.user.units
    shipped = "As shipped." if found.shipped_on else "From paper, not checked." if order.unchecked else "As ordered."
    side = "side-left" if request.GET.get("side") == "left" else "side-right"
    context = {
        "answer": found, "order": order, "document": found.document,
        "frame": _picture(found, "frame", f"{shipped} {CAPTION}", units),
        "section": _picture(found, "section", "Marks run along the tube from each foot, both sides alike.", units),
        "side": _picture(found, side, "", units), "side_is_left": side == "side-left",
        "marks": drawing.section_marks(found.document, lit=found.lit, offered=found.offered, units=units),
    }
    return render(request, "inventory/order_answer.html", context)


def _picture(found: Answer, view: str, caption: str, units: str) -> Picture:
    wide, narrow = (
        drawing.render(found.document, view, size, lit=found.lit, offered=found.offered, units=units)
        for size in ("wide", "narrow")
    )
    return Picture(view, wide, narrow, caption)


@for_roles("support", "warehouse")
@require_GET
def find_page(request: HttpRequest) -> HttpResponse:
    """One box over name, phone, order number, town, tag and part."""
    asked = request.GET.get("q", "")[:200]
    return render(request, "inventory/found.html", {"found": find(asked), "asked": asked.strip()})
