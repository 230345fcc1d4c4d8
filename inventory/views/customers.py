"""Somebody who ordered, and everything they ordered."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from inventory.access import customer_for
from inventory.actions.customers import FIELDS, change_customer
from inventory.forms.orders import CustomerForm
from inventory.models import Customer
from inventory.queries.orders import lines_by_order, said_of
from structures.access import for_roles
from structures.requests import changes

MOST_ORDERS = 200


@for_roles("support", "warehouse")
@require_GET
def customer_detail(request: HttpRequest, pk: int) -> HttpResponse:
    return _page(request, customer_for(request.user, pk))


@for_roles("support")
@require_POST
@changes
def customer_keep(request: HttpRequest, pk: int) -> HttpResponse:
    """Put right what is known about them."""
    customer = customer_for(request.user, pk)
    form = CustomerForm(request.POST)
    if not form.is_valid():
        return _page(request, customer, form, status=422)
    change_customer(customer, form.cleaned_data, by=request.user)
    messages.success(request, f"Kept what is known about {form.cleaned_data['name']}.")
    return redirect("inventory:customer-detail", pk=pk)


def _page(request: HttpRequest, customer: Customer, form: CustomerForm | None = None, status: int = 200) -> HttpResponse:
    orders = customer.orders.order_by("-taken_on", "-number").prefetch_related("sent_structures__structure")[:MOST_ORDERS]
    lines = lines_by_order(orders)
    context = {
        "customer": customer,
        "rows": [{"order": order, "what": said_of(lines[order.pk]), "sent": order.sent_structures.all()} for order in orders],
        "form": form or CustomerForm(initial={field: getattr(customer, field) for field in FIELDS}),
        "may_change": request.user.role in ("support", "owner"),
    }
    return render(request, "inventory/customer_detail.html", context, status=status)
