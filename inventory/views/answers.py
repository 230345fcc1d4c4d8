"""The answer page: which braces an order included, and where each one goes; and the box that finds it."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET

from inventory.access import order_for
from inventory.answering import corner_shown, joint_shown
from inventory.models import Order
from inventory.queries.answers import Answer, answer
from inventory.queries.found import find
from structures.access import for_roles
from structures.frame import drawing
from structures.frame.document import Document
from structures.showing import CORNERS, LAID_FLAT, places_said
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
    context = {"answer": found, "order": order, "document": found.document, **_drawn(request, found, order)}
    return render(request, "inventory/order_answer.html", context)


def _drawn(request: HttpRequest, found: Answer, order: Order) -> dict[str, object]:
    """The drawings of the page, whole frame first, and the tables that say the same in words."""
    asked, units, document = request.GET, request.user.units, found.document
    shipped = "As shipped." if found.shipped_on else "From paper, not checked." if order.unchecked else "As ordered."
    side = "side-left" if asked.get("side") == "left" else "side-right"
    corner, corners = corner_shown(document, found.lit, asked.get("corner", ""))
    joint, joints = joint_shown(document, found.lit, asked.get("joint", ""))
    return {
        "frame": _picture(found, "frame", f"{shipped} {CAPTION}", units),
        "corner": _corner(found, corner, units), "corner_words": CORNERS.get(corner, ""),
        "corners": [(code, CORNERS[code], code == corner) for code in corners],
        "rows": drawing.corner_rows(document, corner, lit=found.lit, units=units) if corner else (),
        "section": _picture(found, "section", "Marks run along the tube from each foot, both sides alike.", units),
        "marks": drawing.section_marks(document, lit=found.lit, offered=found.offered, units=units),
        "joint": joint, "joints": joints, "joint_picture": _joint(document, joint, units),
        "joint_key": drawing.joint_key(document, joint.fitting, role=joint.role, units=units) if joint else (),
        "side": _picture(found, side, "", units), "side_is_left": side == "side-left",
        "flat": _picture(found, "unrolled", LAID_FLAT, units),
    }


def _picture(found: Answer, view: str, caption: str, units: str) -> Picture:
    names = found.structure.end_names if found.structure else None
    wide, narrow = (
        drawing.render(found.document, view, size, lit=found.lit, offered=found.offered, units=units, names=names)
        for size in ("wide", "narrow")
    )
    return Picture(view, wide, narrow, caption)


def _corner(found: Answer, corner: str, units: str) -> Picture | None:
    """One corner as seen from inside it; None for a frame without braces."""
    if not corner:
        return None
    names = found.structure.end_names if found.structure else None
    return _picture(found, f"inside-{corner}", drawing.caption(found.document, f"inside-{corner}", names=names), units)


def _joint(document: Document, kind: drawing.JointKind | None, units: str) -> Picture | None:
    """One joint of a brace or tie, face and section; None for a document that knows no hardware."""
    if kind is None:
        return None
    wide, narrow = (
        drawing.render_joint(document, kind.fitting, size, role=kind.role, units=units) for size in ("wide", "narrow")
    )
    return Picture("joint", wide, narrow, f"At {places_said(kind.joints)}.")


@for_roles("support", "warehouse")
@require_GET
def find_page(request: HttpRequest) -> HttpResponse:
    """One box over name, phone, order number, town, tag and part."""
    asked = request.GET.get("q", "")[:200]
    return render(request, "inventory/found.html", {"found": find(asked), "asked": asked.strip()})
