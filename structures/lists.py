"""The one list: paging, sorting, filtering and export, with every figure from the address clamped first.

A table may say `noun = ("order", "orders")`, `sorted_words = "Soonest promise first."` and, in its Meta, `empty_text`
and `order_by`. A filter that can't be read shows nothing and the sentence at its field, never everything.
"""

from __future__ import annotations

import csv
from typing import Any

import django_tables2 as tables
from django.core.paginator import Paginator
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django_filters import FilterSet

PER_PAGE = 25
MOST_PER_PAGE = 100
EXPORT = "csv"
# A cell that begins with one of these is run as a formula by spreadsheet programs.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def list_page(
    request: HttpRequest,
    *,
    table: type[tables.Table],
    filterset: type[FilterSet] | None,
    queryset: QuerySet[Any],
    template: str,
    context: dict[str, Any] | None = None,
    export_name: str,
) -> HttpResponse:
    """Answer a list page, or its CSV when the address says `export=csv`.

    The template includes `structures/_list.html`; it gets `table`, `filter`, `counted`, `export_query` and `context`.
    """
    chosen = filterset(request.GET, queryset=queryset, request=request) if filterset else None
    rows = queryset if chosen is None else (chosen.qs if chosen.is_valid() else queryset.none())
    # Given to its constructor, the request would set page and size from the address unclamped.
    shown = table(rows)
    shown.request = request
    if "sort" in request.GET:
        shown.order_by = [name for name in request.GET.getlist("sort") if name.removeprefix("-") in shown.columns.names()]
    if request.GET.get("export") == EXPORT:
        return _csv(shown, export_name)
    _paginate(shown, request)
    shown.template_name = "structures/_table.html"
    return render(
        request,
        template,
        {
            "table": shown,
            "filter": chosen,
            "counted": _counted(shown),
            "export_query": _query(request, export=EXPORT),
            **(context or {}),
        },
    )


def whole_number(text: str | None, default: int, least: int, most: int) -> int:
    """A figure from an address: what is no whole number gives the default, the rest is clamped."""
    try:
        return max(least, min(most, int(str(text))))
    except ValueError:
        return default


def _paginate(shown: tables.Table, request: HttpRequest) -> None:
    per_page = whole_number(request.GET.get("per_page"), PER_PAGE, 1, MOST_PER_PAGE)
    # Set before anything is counted: a table without a paginator counts its rows by fetching every one of them.
    shown.paginator = Paginator(shown.rows, per_page)
    page = whole_number(request.GET.get("page"), 1, 1, max(shown.paginator.num_pages, 1))
    shown.page = shown.paginator.page(page)


def _counted(shown: tables.Table) -> str:
    one, many = getattr(shown, "noun", ("row", "rows"))
    total = shown.paginator.count
    if not total:
        return f"No {many}."
    first, last = shown.page.start_index(), shown.page.end_index()
    words = f"{total:,} {one if total == 1 else many}"
    return f"{words}." if last - first + 1 == total else f"{words}, {first:,} to {last:,}."


def _query(request: HttpRequest, **changed: str) -> str:
    query = request.GET.copy()
    query.pop("page", None)
    for name, value in changed.items():
        query[name] = value
    return query.urlencode()


def _csv(shown: tables.Table, name: str) -> HttpResponse:
    response = HttpResponse(content_type="text/csv; charset=utf-8")
    response.headers["Content-Disposition"] = f'attachment; filename="{name}.csv"'
    writer = csv.writer(response)
    for row in shown.as_values():
        writer.writerow([_plain(cell) for cell in row])
    return response


def _plain(cell: Any) -> str:
    text = "" if cell is None else str(cell)
    return f"'{text}" if text.startswith(_FORMULA) and not _is_number(text) else text


def _is_number(text: str) -> bool:
    try:
        float(text.replace(",", ""))
    except ValueError:
        return False
    return True
