"""Two sizes, revisions or frozen designs side by side: what differs, lit and listed."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from structures.access import for_roles
from structures.forms.beside import Side, read_sides
from structures.frame import drawing
from structures.frame.compare import Comparison, compare
from structures.frame.names import listed
from structures.queries.families import family_of, revision_choices
from structures.sentences import counted
from structures.showing import grouped, views_among
from structures.views.pictures import Picture


@for_roles("support")
@require_GET
def side_by_side(request: HttpRequest) -> HttpResponse:
    units = request.user.units
    sides = read_sides(request.GET, units=units)
    if sides is None:
        return render(request, "structures/size_none.html")
    shared = [code for code in drawing.views_of(sides[0].document) if code in drawing.views_of(sides[1].document)]
    views = views_among(shared)
    view = next((view for view in views if view.code == request.GET.get("view")), views[0])
    found = compare(sides[0].document, sides[1].document)
    context = {
        "sides": [_told(side, lit, view.code, units) for side, lit in zip(sides, (found.lit_first, found.lit_second), strict=True)],
        "first": sides[0], "second": sides[1], "found": found, "summary": _summary(found),
        "groups": grouped(views), "view": view, "revisions": revision_choices(),
    }
    return render(request, "structures/side_by_side.html", context)


def _told(side: Side, lit: frozenset[str], view: str, units: str) -> dict[str, object]:
    """One column of the page: what it is, its fields, and its drawing with what differs lit."""
    drawn = drawing.render(side.document, view, "narrow", lit=lit, units=units, layers=("marks", "names"), name=f"side-{side.key}")
    revision = side.sizing.standing.revision if side.sizing else None
    return {
        "side": side, "family": family_of(revision) if revision else None, "lit": bool(lit),
        "picture": Picture(view, drawn, drawn, ""),
    }


def _summary(found: Comparison) -> str:
    """What kinds of thing differ, and how many of each: "4 sizes, 12 parts and 1 option"."""
    counts = (
        (len(found.measures) + len(found.words), "measure"), (len(found.options), "option"), (len(found.lines), "part"),
        (len(found.marks), "mark"), (len(found.landings), "landing"),
    )
    return listed([counted(count, word) for count, word in counts if count])
