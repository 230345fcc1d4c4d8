"""What people do with stock: move, hold back, release, count again, look at movements and take one back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from inventory.access import STOCK, STOCK_READERS, movement_for
from inventory.actions import stock as acts
from inventory.forms.stock import CountForm, MoveForm, ReverseForm, ShiftForm
from inventory.forms.stock_filters import MovementsFilter
from inventory.models import Movement
from inventory.queries import stock as asked
from inventory.queries.parts import movements
from inventory.tables.stock import MovementsTable
from structures.access import for_roles
from structures.lists import list_page
from structures.refusals import Conflict, Refuse
from structures.requests import FIELD, changes


@for_roles(*STOCK)
@require_GET
def stock_move(request: HttpRequest) -> HttpResponse:
    return _asking(request, MoveForm, "inventory/stock_move.html")


@for_roles(*STOCK)
@require_POST
@changes
def stock_moved(request: HttpRequest) -> HttpResponse:
    return _doing(
        request, MoveForm(request.POST), "inventory/stock_move.html", acts.move_stock,
        "{quantity:,} of {part}, lot {lot}, lie in {to_bin} now.",
    )


@for_roles(*STOCK)
@require_GET
def stock_hold_back(request: HttpRequest) -> HttpResponse:
    return _asking(request, ShiftForm, "inventory/stock_hold_back.html")


@for_roles(*STOCK)
@require_POST
@changes
def stock_held_back(request: HttpRequest) -> HttpResponse:
    return _doing(
        request, ShiftForm(request.POST), "inventory/stock_hold_back.html", acts.hold_back,
        "All of {part}, lot {lot}, is held back in {to_bin}.",
    )


@for_roles(*STOCK)
@require_GET
def stock_release(request: HttpRequest) -> HttpResponse:
    return _asking(request, ShiftForm, "inventory/stock_release.html")


@for_roles(*STOCK)
@require_POST
@changes
def stock_released(request: HttpRequest) -> HttpResponse:
    return _doing(
        request, ShiftForm(request.POST), "inventory/stock_release.html", acts.release,
        "All of {part}, lot {lot}, that was held back is free to sell in {to_bin}.",
    )


@for_roles(*STOCK)
@require_GET
def stock_count(request: HttpRequest) -> HttpResponse:
    return _asking(request, CountForm, "inventory/stock_count.html")


@for_roles(*STOCK)
@require_POST
@changes
def stock_counted(request: HttpRequest) -> HttpResponse:
    return _doing(
        request, CountForm(request.POST), "inventory/stock_count.html", acts.count_again,
        "{counted:,} of {part}, lot {lot}, are counted in {bin}.",
    )


@for_roles(*STOCK_READERS)
@require_GET
def movement_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=MovementsTable, filterset=MovementsFilter, queryset=movements(), template="inventory/movement_list.html",
        export_name="movements",
    )


@for_roles(*STOCK_READERS)
@require_GET
def movement_detail(request: HttpRequest, pk: int) -> HttpResponse:
    return _movement_page(request, movement_for(pk), ReverseForm())


@for_roles(*STOCK)
@require_POST
@changes
def movement_reverse(request: HttpRequest, pk: int) -> HttpResponse:
    movement = movement_for(pk)
    form = ReverseForm(request.POST)
    if form.is_valid():
        try:
            back = acts.reverse_movement(movement, cause=form.cleaned_data["cause"], key=request.POST[FIELD], by=request.user)
        except Conflict:
            raise
        except Refuse as refusal:
            form.add_error("cause", refusal.sentence)
        else:
            messages.success(request, f"Movement {movement.pk} is taken back by movement {back.pk}.")
            return redirect("inventory:movement-detail", pk=movement.pk)
    return _movement_page(request, movement, form, status=422)


def _asking(request: HttpRequest, form: type[forms.Form], template: str) -> HttpResponse:
    """An empty form, filled with what the link that led here named."""
    filled = {name: request.GET[name] for name in form.base_fields if name in request.GET}
    return render(request, template, {"form": form(initial=filled), **asked.known_numbers()})


def _doing(request: HttpRequest, form: forms.Form, template: str, act: Callable[..., Any], done: str) -> HttpResponse:
    """Carry out an act whose keywords are the form's fields; a refusal stands at its field, with all that was typed."""
    if form.is_valid():
        values = form.cleaned_data
        try:
            act(**values, key=request.POST[FIELD], by=request.user)
        except Conflict:
            raise
        except Refuse as refusal:
            form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        else:
            messages.success(request, done.format(**values))
            return redirect("inventory:part-detail", number=values["part"].number)
    return render(request, template, {"form": form, **asked.known_numbers()}, status=422)


def _movement_page(request: HttpRequest, movement: Movement, form: ReverseForm, status: int = 200) -> HttpResponse:
    return render(request, "inventory/movement_detail.html", {"movement": movement, "form": form}, status=status)
