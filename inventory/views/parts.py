"""Parts: the list, one part, and taking up what the families use."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_GET, require_POST

from inventory.access import STOCK, STOCK_READERS, part_for
from inventory.actions.parts import keep_part, sync_parts
from inventory.forms.parts import PartForm
from inventory.forms.stock_filters import PartsFilter
from inventory.models import Part
from inventory.queries import parts as asked
from inventory.tables.parts import PartsTable
from inventory.tables.stock import PartMovementsTable
from structures.access import for_roles
from structures.lists import list_page
from structures.queries.families import value_of
from structures.requests import changes


@for_roles(*STOCK_READERS)
@require_GET
def part_list(request: HttpRequest) -> HttpResponse:
    context = {"short": asked.parts_with_stock().filter(free__lt=0).count(), "parts": Part.objects.count(), "new": asked.not_taken_up()}
    return list_page(
        request, table=PartsTable, filterset=PartsFilter, queryset=asked.parts_with_stock(),
        template="inventory/part_list.html", context=context, export_name="parts",
    )


@for_roles(*STOCK)
@require_POST
@changes
def part_take_up(request: HttpRequest) -> HttpResponse:
    revisions = asked.not_taken_up()
    made = [part for revision in revisions for part in sync_parts(revision, by=request.user)]
    named = ", ".join(value_of(revision) for revision in revisions)
    words = f"Taken up from {named}: {len(made):,} new part numbers." if revisions else "Every family’s parts are here already."
    messages.success(request, words)
    return redirect("inventory:part-list")


@for_roles(*STOCK_READERS)
@require_GET
def part_detail(request: HttpRequest, number: str) -> HttpResponse:
    part = part_for(number)
    return _part_page(request, part, PartForm(part=part))


@for_roles(*STOCK)
@require_POST
@changes
def part_keep(request: HttpRequest, number: str) -> HttpResponse:
    part = part_for(number)
    form = PartForm(request.POST, part=part)
    if not form.is_valid():
        response = _part_page(request, part, form)
        response.status_code = 422
        return response
    keep_part(part, form.cleaned_data, by=request.user)
    messages.success(request, f"Kept: when to make or buy more of {part.number}.")
    return redirect("inventory:part-detail", number=part.number)


def _part_page(request: HttpRequest, part: Part, form: PartForm) -> HttpResponse:
    part = asked.parts_with_stock().get(pk=part.pk)
    context = {
        "part": part, "form": form, "words": asked.stock_words(part), "holdings": asked.holdings_of(part),
        "promises": asked.promises_of(part), "twins": asked.twins_of(part), "families": asked.families_using(part),
        "supplies": asked.supplies_of(part),
    }
    return list_page(
        request, table=PartMovementsTable, filterset=None, queryset=asked.movements_of(part),
        template="inventory/part_detail.html", context=context, export_name=f"movements-{part.number}",
    )
