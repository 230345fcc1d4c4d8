"""What an add-on pack would need for one structure, option by option."""

from __future__ import annotations

from collections.abc import Mapping

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from structures.access import for_roles, structure_for
from structures.forms.beside import address_of
from structures.frame import drawing
from structures.frame.names import listed
from structures.frame.retrofit import AddOn
from structures.models import Design
from structures.queries.retrofit import Pack, options_to_add, pack_for
from structures.sentences import counted
from structures.showing import end_rows
from structures.views.pictures import picture

MOST_TYPED = 40


@for_roles("support", "warehouse", "grower")
@require_GET
def structure_add_on(request: HttpRequest, tag: str) -> HttpResponse:
    structure = structure_for(request.user, tag)
    if structure.design is None:
        raise Http404
    differs = list(structure.changes.all())
    asked = request.GET.get("option", "")[:MOST_TYPED]
    pack = pack_for(structure.design, asked, changed=[change.place for change in differs]) if asked else None
    document = structure.design.read()
    context = {
        "structure": structure, "document": document, "pack": pack, "options": options_to_add(document), "differs": differs,
        "can_compare": request.user.role in ("support", "owner"),
        "beside": _beside(structure.design, pack), **_of_found(pack, request.user.units, structure.end_names),
    }
    return render(request, "structures/add_on.html", context)


def _of_found(pack: Pack | None, units: str, names: Mapping[int, str]) -> dict[str, object]:
    """What the page shows of a pack that could be worked out."""
    if pack is None or pack.found is None or pack.document is None:
        return {}
    new = [piece.id for piece in pack.found.pieces]
    lit = [*new, pack.option.code]
    return {
        "held": _held(pack.found), "off": _off(pack.found), "letters": drawing.letters(pack.document),
        "ends": end_rows(pack.found.pieces),
        "picture": picture(pack.document, "frame", lit=lit, units=units, names=names,
                           caption="As it would stand, from outside the tag end, right front. What is new is lit."),
    }


def _held(found: AddOn) -> str:
    """ "8 pieces and 16 bands, with what bolts them", or the lines themselves when no piece is among them."""
    words = [counted(count, word) for count, word in ((len(found.pieces), "piece"), (found.bands, "band")) if count]
    if words:
        return listed(words) + (", with their bolts and nuts" if found.bands else "")
    return listed([f"{line.count:,} of {line.name}" for line in found.lines])


def _off(found: AddOn) -> str:
    parts, moved = sum(line.count for line in found.comes_off), len(found.shifted)
    said = []
    if parts:
        said.append(f"{counted(parts, 'part')} {'comes' if parts == 1 else 'come'} off.")
    if moved:
        said.append(f"{counted(moved, 'fitting')} {'moves' if moved == 1 else 'move'} along the tube.")
    return " ".join(said)


def _beside(design: Design, pack: Pack | None) -> dict[int, str]:
    """For each revision that offers what this one does not: the address that lays the two side by side."""
    others = pack.others if pack else ()
    return {other.pk: address_of(design, other) for other in others}
