"""The sheet that a crew builds from, as a page and as papers: of an order's line, and of a structure for its grower."""

from __future__ import annotations

from functools import lru_cache

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_GET

from inventory.access import order_for
from inventory.queries.build_sheets import SheetOf, sheet_of_order, sheet_of_structure
from structures.access import for_roles, structure_for
from structures.frame.drawing import GREY
from structures.frame.sheet import OVERALL, BuildSheet, card_parts, corner_drawing, joint_drawings, make_card, overall, rain_corners
from structures.papers import make_pdf
from structures.refusals import Refuse
from structures.requests import refused_page
from structures.views.pictures import picture

NOT_FROZEN = "Order {label} has no build sheet yet: it is made from what is frozen when the order is confirmed."


@for_roles("support", "warehouse")
@require_GET
def order_build_sheet(request: HttpRequest, number: str, ordinal: int | None = None) -> HttpResponse:
    order = order_for(request.user, number)
    found = sheet_of_order(order, ordinal, timezone.localdate())
    if found is None:
        if ordinal is not None:
            raise Http404
        messages.info(request, NOT_FROZEN.format(label=order.label))
        return redirect("inventory:order-detail", number=order.label)
    return _page(request, found)


@for_roles("support", "warehouse")
@require_GET
def order_build_sheet_pdf(request: HttpRequest, number: str, ordinal: int | None = None) -> HttpResponse:
    """The whole sheet on paper."""
    return _sheet_paper(request, _of_order(request, number, ordinal))


@for_roles("support", "warehouse")
@require_GET
def order_rain_sheet(request: HttpRequest, number: str, ordinal: int) -> HttpResponse:
    """The corners alone, for the ladder in the rain."""
    return _rain_paper(request, _of_order(request, number, ordinal))


@for_roles("support", "warehouse")
@require_GET
def order_card(request: HttpRequest, number: str, ordinal: int, part: str) -> HttpResponse:
    """The flattened ends of one part at their own size."""
    return _card_paper(request, _of_order(request, number, ordinal), part)


@for_roles("support", "grower")
@require_GET
def structure_build_sheet(request: HttpRequest, tag: str) -> HttpResponse:
    return _page(request, _of_structure(request, tag))


@for_roles("support", "grower")
@require_GET
def structure_build_sheet_pdf(request: HttpRequest, tag: str) -> HttpResponse:
    """The whole sheet on paper, for whoever belongs to the structure."""
    return _sheet_paper(request, _of_structure(request, tag))


@for_roles("support", "grower")
@require_GET
def structure_rain_sheet(request: HttpRequest, tag: str) -> HttpResponse:
    """The corners alone, for whoever belongs to the structure."""
    return _rain_paper(request, _of_structure(request, tag))


@for_roles("support", "grower")
@require_GET
def structure_card(request: HttpRequest, tag: str, part: str) -> HttpResponse:
    """The flattened ends of one part at their own size, for whoever belongs to the structure."""
    return _card_paper(request, _of_structure(request, tag), part)


def _of_order(request: HttpRequest, number: str, ordinal: int | None) -> SheetOf:
    return _found(sheet_of_order(order_for(request.user, number), ordinal, timezone.localdate()))


def _of_structure(request: HttpRequest, tag: str) -> SheetOf:
    return _found(sheet_of_structure(structure_for(request.user, tag), timezone.localdate()))


def _found(sheet: SheetOf | None) -> SheetOf:
    if sheet is None:
        raise Http404
    return sheet


def _page(request: HttpRequest, found: SheetOf) -> HttpResponse:
    units = request.user.units
    sheet = found.sheet(units)
    lit = [piece.id for piece in (*found.document.braces, *found.document.ties)]
    context = {
        "sheet": sheet, "found": found, "on_screen": True, "pdf": _address(found, "build-sheet-pdf"),
        "rain": _address(found, "rain-sheet") if sheet.braces else "",
        "cards": [(part, _address(found, "card", part)) for part in card_parts(sheet)],
        "pictures": [picture(found.document, view, lit=lit, caption=words, units=units, names=found.heading.names)
                     for view, (_, words) in OVERALL.items()],
        "corners": [(page, corner_drawing(sheet, page, None)) for page in sheet.corners],
        "joints": joint_drawings(sheet, None),
    }
    return render(request, "inventory/build_sheet.html", context)


def _sheet_paper(request: HttpRequest, found: SheetOf) -> HttpResponse:
    context = sheet_context(found.sheet(request.user.units))
    return _paper(request, "pdf/build_sheet.html", context, f"build-sheet-{found.file_word}.pdf")


def sheet_context(sheet: BuildSheet) -> dict[str, object]:
    """What the paper's template needs: the sheet and its drawings in pencils of their own."""
    return {
        "sheet": sheet, "overall": overall(sheet, GREY),
        "corners": [(page, corner_drawing(sheet, page, GREY)) for page in sheet.corners],
        "joints": joint_drawings(sheet, GREY),
    }


def _rain_paper(request: HttpRequest, found: SheetOf) -> HttpResponse:
    return _paper(request, "pdf/rain_sheet.html", rain_context(found.sheet(request.user.units)), f"rain-sheet-{found.file_word}.pdf")


def rain_context(sheet: BuildSheet) -> dict[str, object]:
    """What the template of the sheet for the rain needs."""
    return {"sheet": sheet, "corners": [(corner, corner_drawing(sheet, corner.page, GREY)) for corner in rain_corners(sheet)]}


def _card_paper(request: HttpRequest, found: SheetOf, part: str) -> HttpResponse:
    sheet = found.sheet(request.user.units)
    card = make_card(sheet, part, GREY)
    if card is None:
        raise Http404
    return _paper(request, "pdf/life_card.html", {"sheet": sheet, "card": card}, f"card-{card.part.lower()}-{found.file_word}.pdf")


def _address(found: SheetOf, paper: str, *more: str) -> str:
    """The address of one of its papers."""
    if found.order is not None:
        return reverse(f"inventory:order-{paper}", args=[found.order.label, found.ordinal, *more])
    return reverse(f"inventory:structure-{paper}", args=[found.tag, *more])


@lru_cache(maxsize=16)
def _pdf_of(html: str) -> bytes:
    """The paper of this text, kept for the process: a crew prints the same sheet again, and each takes seconds to make."""
    return make_pdf(html)


def _paper(request: HttpRequest, template: str, context: dict[str, object], name: str) -> HttpResponse:
    try:
        content = _pdf_of(render_to_string(template, context))
    except Refuse as refusal:
        return refused_page(request, refusal.sentence, status=503)
    response = HttpResponse(content, content_type="application/pdf")
    response.headers["Content-Disposition"] = content_disposition_header(False, name) or ""
    response.headers["X-Content-Type-Options"] = "nosniff"
    return response
