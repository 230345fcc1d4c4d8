"""Where a lot lies and where it went: the question of the day on which a lot turns out soft."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from inventory.access import STOCK_READERS
from inventory.forms.stock_filters import LotsFilter
from inventory.queries.lots import lot_figures, sent_lines
from inventory.tables.lots import SentLotsTable
from structures.access import for_roles
from structures.lists import list_page


@for_roles(*STOCK_READERS)
@require_GET
def lot_list(request: HttpRequest) -> HttpResponse:
    lot, part = request.GET.get("lot", "").strip(), request.GET.get("part", "").strip()
    context = {"lot": lot, "part": part, "figures": lot_figures(lot, part) if lot else None}
    return list_page(
        request, table=SentLotsTable, filterset=LotsFilter, queryset=sent_lines(), template="inventory/lot_list.html",
        context=context, export_name="lot",
    )
