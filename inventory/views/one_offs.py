"""The maker's one-off changes: choosing one from the order's own pieces and places, and signing it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from inventory.access import order_for
from inventory.actions.orders import one_off
from inventory.forms.one_offs import LEAVE_OUT, ChoosingForm, OneOffForm, chosen_in, signed_with
from inventory.models import Order
from inventory.one_offs import pieces_of, target_words
from inventory.queries.one_offs import Effect, effect_of
from inventory.queries.orders import document_of
from inventory.queries.packing import structure_lines
from structures.access import for_roles
from structures.frame.document import Document
from structures.frame.family import OneOff
from structures.frame.refusal import Refused
from structures.queries.families import family_of
from structures.refusals import Refuse
from structures.requests import changes
from structures.sentences import say
from structures.views.pictures import CAPTIONS, Picture, close_picture, picture


@for_roles("owner")
@require_GET
def order_one_off(request: HttpRequest, number: str) -> HttpResponse:
    """Choose a piece or a place: the address holds the choice, the drawing lights it."""
    order = order_for(request.user, number)
    return _page(request, order, request.GET.dict())


@for_roles("owner")
@require_POST
@changes
def order_one_off_sign(request: HttpRequest, number: str) -> HttpResponse:
    """Sign the maker's own change to one structure of this order."""
    order = order_for(request.user, number)
    form = OneOffForm(request.POST, lines=structure_lines(order))
    if form.is_valid():
        try:
            one_off(order, form.cleaned_data["line"], form.change(), by=request.user)
        except Refuse as refusal:
            form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        else:
            messages.success(request, "Signed. Kit, marks and drawing of this order have the change.")
            return redirect("inventory:order-detail", number=order.label)
    return _page(request, order, chosen_in(request.POST), form, status=422)


def _page(
    request: HttpRequest, order: Order, typed: Mapping[str, str], signing: OneOffForm | None = None, *, status: int = 200
) -> HttpResponse:
    lines = structure_lines(order)
    line = next((line for line in lines if str(line.ordinal) == typed.get("line")), lines[0] if lines else None)
    document = document_of(line) if line else None
    context: dict[str, Any] = {"order": order, "signing": signing, "document": document}
    if line and document:
        typed = {**typed, "line": typed.get("line") or str(line.ordinal), "act": typed.get("act") or LEAVE_OUT}
        choosing = ChoosingForm(typed, lines=lines, document=document, family=family_of(line.family_revision), units=request.user.units)
        change, effect, refused = choosing.change(), None, ""
        if change:
            try:
                effect = effect_of(line, document, change)
            except Refused as found:
                refused = say(found, request.user.units)
        if signing is None and effect and change:
            initial = {"who": request.user.called, "on": timezone.localdate(), **signed_with(change, line, typed)}
            context["signing"] = OneOffForm(initial=initial, lines=lines)
        context |= {
            "choosing": choosing, "change": change, "effect": effect, "refused": "" if signing else refused,
            "words": target_words(document, choosing.piece) if choosing.piece else "",
            "picture": _drawn(document, choosing.piece, change, effect, request.user.units),
        }
    return render(request, "inventory/order_one_off.html", context, status=status)


def _drawn(document: Document, chosen: str, change: OneOff | None, effect: Effect | None, units: str) -> Picture:
    """The piece that is meant: where it will lie when it is new or moved, else where it lies. Of a fitting, what it holds."""
    stays = effect is None or change is None or change.act == LEAVE_OUT
    shown, new = (document, None) if stays or effect is None else (effect.document, effect.new)
    joint = next((joint for joint in document.joints if joint.id == chosen), None)
    meant = {chosen, *(joint.holds if joint else ())}
    piece = new or next((one for one in pieces_of(shown) if one.id in meant), None)
    if piece:
        return close_picture(shown, piece, roomy="desk", units=units)
    if joint is None or not joint.holds:
        return picture(document, "frame", roomy="desk", units=units)
    view = f"side-{joint.side or 'right'}"
    caption = f"{CAPTIONS[view]} It lies where the lit pieces meet."
    return picture(document, view, roomy="desk", lit=joint.holds, caption=caption, units=units)
