"""What comes in: receipts, and what is on order."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from inventory.access import STOCK, STOCK_READERS, expected_for, receipt_for
from inventory.actions.supply import close_expected, expect, take_in
from inventory.forms.stock_filters import ExpectedFilter, ReceiptsFilter
from inventory.forms.supply import LINES, MOST_RECEIPT_LINES, ExpectedForm, ReceiptForm, ReceiptLines
from inventory.queries import stock as asked
from inventory.tables.supply import ExpectedTable, ReceiptsTable
from structures.access import for_roles
from structures.lists import list_page, whole_number
from structures.refusals import Conflict, Refuse
from structures.requests import FIELD, changes


@for_roles(*STOCK_READERS)
@require_GET
def receipt_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=ReceiptsTable, filterset=ReceiptsFilter, queryset=asked.receipts(), template="inventory/receipt_list.html",
        export_name="receipts",
    )


@for_roles(*STOCK)
@require_GET
def receipt_new(request: HttpRequest) -> HttpResponse:
    """An empty receipt, or one begun from what is on order: `?answers=` its number."""
    expected = list(asked.expected_receipts())
    first = next((one for one in expected if str(one.pk) == request.GET.get("answers")), None)
    form = ReceiptForm(initial={"received_on": timezone.localdate(), "supplier": first.supplier if first else ""})
    return _receipt_page(request, form, ReceiptLines(lines=_lines(request.GET), expected=expected, first=first))


@for_roles(*STOCK)
@require_POST
@changes
def receipt_take_in(request: HttpRequest) -> HttpResponse:
    form = ReceiptForm(request.POST)
    lines = ReceiptLines(request.POST, lines=_lines(request.POST), expected=list(asked.expected_receipts()))
    if form.is_valid() & lines.is_valid():
        try:
            receipt = take_in(lines.arrived(), **form.cleaned_data, key=request.POST[FIELD], by=request.user)
        except Conflict:
            raise
        except Refuse as refusal:
            form.add_error(None, refusal.sentence)
        else:
            messages.success(request, f"Receipt {receipt.pk} is taken in.")
            return redirect("inventory:receipt-detail", pk=receipt.pk)
    return _receipt_page(request, form, lines, status=422)


@for_roles(*STOCK_READERS)
@require_GET
def receipt_detail(request: HttpRequest, pk: int) -> HttpResponse:
    receipt = receipt_for(pk)
    return render(request, "inventory/receipt_detail.html", {"receipt": receipt, "lines": asked.lines_of(receipt)})


@for_roles(*STOCK_READERS)
@require_GET
def expected_list(request: HttpRequest) -> HttpResponse:
    return _expected_page(request, ExpectedForm())


@for_roles(*STOCK)
@require_POST
@changes
def expected_add(request: HttpRequest) -> HttpResponse:
    form = ExpectedForm(request.POST)
    if not form.is_valid():
        response = _expected_page(request, form)
        response.status_code = 422
        return response
    made = expect(form.cleaned_data, by=request.user)
    messages.success(request, f"{made.quantity:,} of {made.part.number} are expected on {made.due_on:%-d %b %Y}.")
    return redirect("inventory:expected-list")


@for_roles(*STOCK)
@require_POST
@changes
def expected_close(request: HttpRequest, pk: int) -> HttpResponse:
    closed = close_expected(expected_for(pk), on=timezone.localdate(), by=request.user)
    messages.success(request, f"Nothing more of {closed.part.number} is expected from {closed.supplier}.")
    return redirect("inventory:expected-list")


def _lines(given: Any) -> int:
    return whole_number(given.get("lines"), LINES, 1, MOST_RECEIPT_LINES)


def _receipt_page(request: HttpRequest, form: ReceiptForm, lines: ReceiptLines, status: int = 200) -> HttpResponse:
    context = {"form": form, "lines": lines, "more": min(len(lines.forms) + 10, MOST_RECEIPT_LINES), **asked.known_numbers()}
    return render(request, "inventory/receipt_new.html", context, status=status)


def _expected_page(request: HttpRequest, form: ExpectedForm) -> HttpResponse:
    return list_page(
        request, table=ExpectedTable, filterset=ExpectedFilter, queryset=asked.expected_receipts(),
        template="inventory/expected_list.html", context={"form": form, **asked.known_numbers()}, export_name="on-order",
    )
