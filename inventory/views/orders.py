"""Orders: the list, one order, taking one down."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from inventory.access import order_for
from inventory.actions.customers import keep_customer
from inventory.actions.orders import LineSpec, change_order, confirm_order, in_place_of, new_draft, set_draft, specs_of
from inventory.forms.order_filters import OrdersFilter
from inventory.forms.orders import DraftForm, LooseForm, PromiseForm, WhereToForm, WhoForm, WhyForm
from inventory.models import Order
from inventory.queries.orders import list_figures, orders_listed
from inventory.tables.orders import OrdersTable
from inventory.views.order_pages import order_page, size_address
from structures.access import for_roles
from structures.forms.sizes import ForOrder, Standing, Typed, stand
from structures.frame.refusal import Refused
from structures.lists import list_page
from structures.queries.designs import document_for
from structures.refusals import Refuse
from structures.requests import changes
from structures.sentences import say


@for_roles("support", "warehouse")
@require_GET
def order_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=OrdersTable, filterset=OrdersFilter, queryset=orders_listed(),
        template="inventory/order_list.html", context={"figures": list_figures(timezone.localdate())}, export_name="orders",
    )


@for_roles("support")
@require_GET
def order_new(request: HttpRequest) -> HttpResponse:
    """Where the size and options that were chosen come to: a new order, or a line of one that is there."""
    return _new_page(request, _standing(request, request.GET))


@for_roles("support")
@require_POST
@changes
def order_take(request: HttpRequest) -> HttpResponse:
    """A new draft of the chosen size."""
    standing = _standing(request, request.POST)
    form = WhoForm(request.POST)
    if isinstance(standing, str) or not form.is_valid():
        return _new_page(request, standing, who=form, status=422)
    data = form.cleaned_data
    customer = keep_customer(
        name=data["name"], farm=data["farm"], town=data["town"], phone=data["phone"], by=request.user
    )
    order = new_draft(customer, [_spec(standing)], by=request.user, promised_on=data["promised_on"])
    messages.success(request, f"Order {order.label} is taken down as a draft for {customer.name}.")
    return redirect("inventory:order-detail", number=order.label)


@for_roles("support")
@require_POST
@changes
def order_put(request: HttpRequest) -> HttpResponse:
    """The chosen size onto an order that is there: one structure more, or in the place of a line."""
    standing = _standing(request, request.POST)
    form = WhereToForm(request.POST)
    if isinstance(standing, str) or not form.is_valid():
        return _new_page(request, standing, where=form, status=422)
    data = form.cleaned_data
    try:
        order = _put(data["order"], _spec(standing, data["line"]), data["why"], request)
    except Refuse as refusal:
        form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        return _new_page(request, standing, where=form, status=422)
    messages.success(request, f"Order {order.label} has it now.")
    return redirect("inventory:order-detail", number=order.label)


@for_roles("support", "warehouse")
@require_GET
def order_detail(request: HttpRequest, number: str) -> HttpResponse:
    return order_page(request, order_for(request.user, number))


@for_roles("support")
@require_GET
def order_size(request: HttpRequest, number: str, ordinal: int = 0) -> HttpResponse:
    """To size and options, from a line of this order (or for one more structure); they come back to it."""
    order = order_for(request.user, number)
    line = order.version.lines.select_related("family_revision").filter(ordinal=ordinal, family_revision__isnull=False).first()
    return redirect(size_address(order, line, request.user.units))


@for_roles("support")
@require_POST
@changes
def order_keep(request: HttpRequest, number: str) -> HttpResponse:
    """Keep a draft's promised day and note."""
    order = order_for(request.user, number)
    form = DraftForm(request.POST)
    if not form.is_valid():
        return order_page(request, order, draft=form, status=422)
    set_draft(order, specs_of(order.version), by=request.user, **form.cleaned_data)
    messages.success(request, "Kept.")
    return redirect("inventory:order-detail", number=order.label)


@for_roles("support")
@require_POST
@changes
def order_loose(request: HttpRequest, number: str) -> HttpResponse:
    """Loose parts onto an order."""
    order = order_for(request.user, number)
    form = LooseForm(request.POST)
    if form.is_valid():
        data = form.cleaned_data
        try:
            _put(order, LineSpec(part=data["part"], quantity=data["quantity"]), data["why"], request)
        except Refuse as refusal:
            form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        else:
            messages.success(request, f"{data['quantity']:,} of {data['part'].number} stand on the order.")
            return redirect("inventory:order-detail", number=order.label)
    return order_page(request, order, loose=form, status=422)


@for_roles("support")
@require_POST
@changes
def order_drop_line(request: HttpRequest, number: str, ordinal: int) -> HttpResponse:
    """Take a line off an order."""
    order = order_for(request.user, number)
    specs = specs_of(order.version)
    left = [spec for spec in specs if spec.ordinal != ordinal]
    if len(left) == len(specs):
        raise Refuse(f"Order {order.label} has no line {ordinal} any more: look at the order again.")
    if order.is_draft:
        set_draft(order, left, by=request.user, promised_on=order.promised_on, note=order.note)
    else:
        form = WhyForm(request.POST)
        if not form.is_valid():
            return order_page(request, order, refused=form.errors["why"][0], status=422)
        change_order(order, left, by=request.user, why=form.cleaned_data["why"])
    messages.success(request, f"Line {ordinal} is off the order.")
    return redirect("inventory:order-detail", number=order.label)


@for_roles("support")
@require_POST
@changes
def order_confirm(request: HttpRequest, number: str) -> HttpResponse:
    order = order_for(request.user, number)
    try:
        confirm_order(order, by=request.user)
    except Refuse as refusal:
        return order_page(request, order, refused=refusal.sentence, status=422)
    messages.success(request, f"Order {order.label} is confirmed: what was sold stands still from now on.")
    return redirect("inventory:order-detail", number=order.label)


@for_roles("support")
@require_POST
@changes
def order_promise(request: HttpRequest, number: str) -> HttpResponse:
    """Another promised day for an open order."""
    order = order_for(request.user, number)
    form = PromiseForm(request.POST)
    if not form.is_valid():
        return order_page(request, order, promise=form, status=422)
    data = form.cleaned_data
    change_order(order, specs_of(order.version), by=request.user, why=data["why"], promised_on=data["promised_on"])
    messages.success(request, f"Promised for {data['promised_on']:%-d %b %Y} now.")
    return redirect("inventory:order-detail", number=order.label)


def _put(order: Order, spec: LineSpec, why: str, request: HttpRequest) -> Order:
    """A line onto an order: a draft is written anew, an open order gets a version."""
    specs = in_place_of(spec, specs_of(order.version))
    if order.is_draft:
        return set_draft(order, specs, by=request.user, promised_on=order.promised_on, note=order.note)
    change_order(order, specs, by=request.user, why=why)
    return order


def _spec(standing: Standing, ordinal: int | None = None) -> LineSpec:
    return LineSpec(standing.revision, standing.configuration, ordinal=ordinal)


def _standing(request: HttpRequest, query: Any) -> Standing | str:
    """The size and options in an address; a sentence when they can't be."""
    try:
        standing = stand(Typed.read(query), units=request.user.units)
        document_for(standing.revision, standing.configuration)
    except Refused as refused:
        return say(refused, request.user.units)
    return standing


def _new_page(
    request: HttpRequest, standing: Standing | str, *, who: WhoForm | None = None, where: WhereToForm | None = None,
    status: int = 200,
) -> HttpResponse:
    refused = standing if isinstance(standing, str) else ""
    chosen = None if refused else standing
    wanted = ForOrder.read(request.GET)
    context = {
        "refused": refused, "chosen": chosen,
        "document": document_for(chosen.revision, chosen.configuration) if chosen else None,
        "who": who or WhoForm(),
        "where": where or WhereToForm(initial=asdict(wanted) if wanted else {}, auto_id="where_%s"),
        "wanted": wanted,
    }
    return render(request, "inventory/order_new.html", context, status=422 if refused else status)
