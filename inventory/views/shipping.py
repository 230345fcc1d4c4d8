"""Sending a load, and the papers that went with it."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from inventory.access import order_for, paper_for, pick_for, sheet_for
from inventory.actions.pick_sheets import SheetRefused, enter_sheet, print_sheet
from inventory.actions.shipments import ship
from inventory.forms.pick_sheets import SheetForm
from inventory.forms.shipping import ShipForm
from inventory.models import Order, PickSheet, PutBack
from inventory.queries.packing import loads, package_rows, proposed_rows, still_to_come, structure_lines
from structures.access import for_roles
from structures.refusals import Refuse
from structures.requests import FIELD, changes


@for_roles("warehouse", "support")
@require_GET
def order_ship(request: HttpRequest, number: str) -> HttpResponse:
    order = order_for(request.user, number)
    return _ship_page(request, order, _ship_form(order))


@for_roles("warehouse")
@require_POST
@changes
def order_send(request: HttpRequest, number: str) -> HttpResponse:
    """Send what was picked."""
    order = order_for(request.user, number)
    form = _ship_form(order, request.POST)
    if form.is_valid():
        data = form.cleaned_data
        try:
            shipment = ship(
                order, by=request.user, shipped_on=data["shipped_on"], structures=form.stands(), carrier=data["carrier"],
                note=data["note"],
            )
        except Refuse as refusal:
            form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        else:
            packages = shipment.packages.count()
            messages.success(request, f"Sent: {packages} package{'' if packages == 1 else 's'}. The packing list is kept.")
            return redirect("inventory:order-packages", number=order.label)
    return _ship_page(request, order, form, status=422)


@for_roles("support", "warehouse")
@require_GET
def order_packages(request: HttpRequest, number: str) -> HttpResponse:
    """What was sent, package by package, with the papers as they went."""
    order = order_for(request.user, number)
    loads_ = [
        {
            "shipment": shipment, "packages": package_rows([shipment], request.user.units),
            "papers": list(shipment.papers.defer("content")),
        }
        for shipment in order.shipments.order_by("part")
    ]
    context = {"order": order, "loads": loads_, "to_come": still_to_come(order) if loads_ else []}
    return render(request, "inventory/order_packages.html", context)


@for_roles("support", "warehouse")
@require_GET
def paper_file(request: HttpRequest, pk: int) -> HttpResponse:
    """A paper exactly as it was kept."""
    paper = paper_for(request.user, pk)
    response = HttpResponse(bytes(paper.content), content_type=paper.media_type)
    response.headers["Content-Disposition"] = f'inline; filename="{paper.name}"'
    response.headers["X-Content-Type-Options"] = "nosniff"
    response.headers["X-Paper-SHA256"] = paper.sha256
    return response


@for_roles("warehouse")
@require_POST
@changes
def pick_print(request: HttpRequest, number: int) -> HttpResponse:
    """Print the whole pick as it stands now; the sheet is kept and entered once."""
    sheet = print_sheet(pick_for(request.user, number), by=request.user)
    return redirect("inventory:paper-file", pk=sheet.paper_id)


@for_roles("warehouse")
@require_GET
def sheet_entry(request: HttpRequest, number: int, sheet: int) -> HttpResponse:
    found = sheet_for(request.user, number, sheet)
    return _sheet_page(request, found, SheetForm(sheet=found, initial={"picked_by": request.user.called}))


@for_roles("warehouse")
@require_POST
@changes
def sheet_enter(request: HttpRequest, number: int, sheet: int) -> HttpResponse:
    """All as printed, except what was typed."""
    found = sheet_for(request.user, number, sheet)
    form = SheetForm(request.POST, sheet=found)
    if "more" in request.POST:
        return _sheet_page(request, found, form.with_another_line())
    if form.is_valid():
        try:
            enter_sheet(
                found, form.exceptions(), picked_by=form.cleaned_data["picked_by"], key=UUID(request.POST[FIELD]), by=request.user
            )
        except SheetRefused as refused:
            form.refuse(refused)
        except Refuse as refusal:
            form.add_error(None, refusal.sentence)
        else:
            messages.success(request, f"Sheet {found.label} is entered.")
            return redirect("inventory:pick-detail", number=number)
    return _sheet_page(request, found, form, status=422)


def _ship_form(order: Order, data: object = None) -> ShipForm:
    sent = set(order.sent_structures.values_list("ordinal", flat=True))
    lines = [line for line in structure_lines(order) if line.ordinal not in sent] if order.is_open else []
    return ShipForm(data, order=order, lines=lines, initial={"shipped_on": timezone.localdate()})


def _ship_page(request: HttpRequest, order: Order, form: ShipForm, status: int = 200) -> HttpResponse:
    rows = proposed_rows(loads(order), request.user.units) if order.is_open else []
    waiting = PutBack.objects.filter(line__pick__order=order, done_at__isnull=True).select_related("line__part", "bin")
    context = {
        "order": order, "form": form, "rows": rows, "waiting": list(waiting),
        "stays": sum(line.picked < line.to_pick for line in still_to_come(order)) if order.is_open else 0,
        "may_send": request.user.role in ("warehouse", "owner"),
    }
    return render(request, "inventory/order_ship.html", context, status=status)


def _sheet_page(request: HttpRequest, sheet: PickSheet, form: SheetForm, status: int = 200) -> HttpResponse:
    put_backs = PutBack.objects.filter(line__pick=sheet.pick).select_related("line__part", "bin", "version")
    context = {
        "sheet": sheet, "pick": sheet.pick, "order": sheet.pick.order, "form": form, "put_backs": put_backs,
        "pieces": sum(line["count"] for line in sheet.lines),
    }
    return render(request, "inventory/sheet_entry.html", context, status=status)
