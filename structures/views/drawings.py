"""The drawings of a frozen design: one of them large, the kit beside it, and everything about the look in the address."""

from __future__ import annotations

from collections.abc import Mapping

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.views.decorators.http import require_GET

from structures.access import for_roles, structure_for
from structures.forms.looking import Looking
from structures.frame import drawing
from structures.frame.document import Document
from structures.frame.names import ends_named
from structures.models import Design
from structures.showing import (
    LAID_FLAT,
    KitLine,
    View,
    ends_in,
    grouped,
    joint_views,
    kit_lines,
    lit_ids,
    not_kept,
    places_said,
    views_among,
)
from structures.views.pictures import Picture


@for_roles("support", "warehouse")
@require_GET
def design_drawings(request: HttpRequest, pk: int) -> HttpResponse:
    design = get_object_or_404(Design.objects.select_related("family"), pk=pk)
    back = reverse("structures:design-detail", args=[pk])
    return _drawings_page(request, design.read(), about=f"Design {pk}, as it was frozen", back=back)


@for_roles("support", "warehouse", "grower")
@require_GET
def structure_drawings(request: HttpRequest, tag: str) -> HttpResponse:
    structure = structure_for(request.user, tag)
    if structure.design is None:
        raise Http404
    return _drawings_page(
        request, structure.design.read(), about=f"Structure {tag}, as it was shipped", differs=structure.changes.all(),
        names=structure.end_names,
        back="" if request.user.role == "warehouse" else reverse("structures:structure-made-of", args=[tag]),
    )


def _drawings_page(request: HttpRequest, document: Document, *, about: str, back: str, differs: object = (),
                   names: Mapping[int, str] | None = None) -> HttpResponse:
    units = request.user.units
    views, joints = views_among(drawing.views_of(document)), joint_views(drawing.joint_kinds(document))
    places = drawing.standing(document, names)
    look = Looking.read(request.GET, document, (*views, *joints), places)
    marks = drawing.letters(document)
    lines = kit_lines(document, marks)
    context = {
        "document": document, "about": about, "back": back, "differs": differs, "not_kept": not_kept(document),
        "look": look, "view": look.view, "groups": grouped((*views, *joints)),
        "before_and_after": _neighbours(joints if look.view.joint else views, look.view),
        "places": [(place.code, ends_named(place.code, names or {}), place.code == look.standing) for place in places],
        "turning": _turning(places, look), "lines": lines, "lit_line": _lit_line(lines, look.lit),
        "letters": marks, **_drawn(document, look, lines, units, names),
    }
    return render(request, "structures/drawings.html", context)


def _drawn(document: Document, look: Looking, lines: tuple[KitLine, ...], units: str,
           names: Mapping[int, str] | None) -> dict[str, object]:
    """The drawing for both widths and the table that says the same in words. Every layer is in it: the page hides what was
    not ticked."""
    if look.view.joint:
        return _joint(document, look.view, units)
    code, lit = look.view.code, lit_ids(lines, look.lit)
    standing = look.standing or drawing.standing(document)[0].code
    roomy, narrow = (
        drawing.render(document, code, size, lit=lit, units=units, layers=drawing.LAYERS, standing=standing, names=names)
        for size in ("desk", "narrow")
    )
    corner = code.partition("-")[2] if code in drawing.CORNER_VIEWS else ""
    return {
        "picture": Picture(code, roomy, narrow, drawing.caption(document, code, "desk", standing=standing, names=names) or LAID_FLAT),
        "marks": drawing.section_marks(document, lit=lit, units=units, standing=standing) if code == "section" else (),
        "rows": drawing.corner_rows(document, corner, lit=lit, units=units) if corner else (),
        "ends": () if corner else ends_in(document, code),
    }


def _joint(document: Document, view: View, units: str) -> dict[str, object]:
    """One kind of joint, what its letters name, and where it stands."""
    kind = next(kind for kind in drawing.joint_kinds(document) if (kind.fitting, kind.role) == (view.joint, view.role))
    roomy, narrow = (
        drawing.render_joint(document, kind.fitting, size, role=kind.role, units=units) for size in ("desk", "narrow")
    )
    where = f"At {places_said(kind.joints)}." if kind.joints else "Wherever its board runs."
    return {
        "picture": Picture("joint", roomy, narrow, where),
        "key": drawing.joint_key(document, kind.fitting, role=kind.role, units=units),
    }


def _lit_line(lines: tuple[KitLine, ...], lit: str) -> KitLine | None:
    """The line of the kit that is lit, itself or by one of its pieces."""
    return next((line for line in lines if lit and (lit == line.part or lit in line.places)), None)


def _neighbours(views: tuple[View, ...], view: View) -> tuple[View, View]:
    """The views before and after this one, round and round."""
    place = views.index(view)
    return views[place - 1], views[(place + 1) % len(views)]


def _turning(places: tuple[drawing.Standing, ...], look: Looking) -> tuple[str, ...]:
    """The views that are seen from here too, so that a link to one of them keeps where one stands."""
    return next((place.views for place in places if place.code == look.standing), ())
