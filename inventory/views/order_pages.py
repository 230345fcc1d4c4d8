"""The page of one order, shown again by every act on it that was refused."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse

from inventory.forms.orders import DraftForm, LooseForm, PromiseForm, WhyForm
from inventory.models import Order, OrderLine
from inventory.queries.order_page import order_sheet
from structures.forms.sizes import ForOrder, written
from structures.frame.choose import read_configuration
from structures.views.pictures import picture


def order_page(
    request: HttpRequest, order: Order, *, draft: DraftForm | None = None, loose: LooseForm | None = None,
    promise: PromiseForm | None = None, cancel: WhyForm | None = None, refused: str = "", status: int = 200,
) -> HttpResponse:
    """One order with everything known about it; forms that were refused keep what was typed."""
    sheet = order_sheet(order)
    shown = next((row.document for row in sheet.lines if row.document), None)
    context: dict[str, Any] = {
        "order": order,
        "sheet": sheet,
        "picture": picture(shown, "frame", units=request.user.units) if shown else None,
        "refused": refused,
        "may_sell": request.user.role in ("support", "owner"),
        "draft": draft or DraftForm(initial={"promised_on": order.promised_on, "note": order.note}, auto_id="draft_%s"),
        "loose": loose or LooseForm(auto_id="loose_%s"),
        "promise": promise or PromiseForm(initial={"promised_on": order.promised_on}, auto_id="promise_%s"),
        "cancel": cancel or WhyForm(auto_id="cancel_%s"),
    }
    return render(request, "inventory/order_detail.html", context, status=status)


def size_address(order: Order, line: OrderLine | None, units: str) -> str:
    """The address of size and options for an order, filled with what a line has; None for one structure more."""
    address = reverse("structures:size")
    if line is None:
        return f"{address}?{ForOrder(order.label).text}"
    filled = written(line.family_revision, read_configuration(line.configuration), units=units).text
    return f"{address}?{filled}&{ForOrder(order.label, str(line.ordinal)).text}"
