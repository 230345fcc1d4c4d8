"""Rarer acts on an order: cancelling it, typing in an old one from paper."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from inventory.access import order_for, photo_for
from inventory.actions.orders import cancel_order
from inventory.actions.paper_orders import enter_paper_order
from inventory.forms.orders import WhyForm
from inventory.forms.paper_orders import PaperOrderForm
from inventory.views.order_pages import order_page
from structures.access import for_roles
from structures.refusals import Refuse
from structures.requests import changes


@for_roles("support")
@require_POST
@changes
def order_cancel(request: HttpRequest, number: str) -> HttpResponse:
    order = order_for(request.user, number)
    form = WhyForm(request.POST)
    if not form.is_valid():
        return order_page(request, order, cancel=form, status=422)
    try:
        cancel_order(order, by=request.user, why=form.cleaned_data["why"])
    except Refuse as refusal:
        return order_page(request, order, refused=refusal.sentence, status=422)
    messages.success(request, f"Order {order.label} is cancelled.")
    return redirect("inventory:order-detail", number=order.label)


@for_roles("support")
@require_GET
def paper_order_new(request: HttpRequest) -> HttpResponse:
    return _paper_page(request, PaperOrderForm())


@for_roles("support")
@require_POST
@changes
def paper_order_enter(request: HttpRequest) -> HttpResponse:
    """Type in an order that is known only from paper."""
    form = PaperOrderForm(request.POST, request.FILES)
    if form.is_valid():
        try:
            order = enter_paper_order(form.paper(), by=request.user)
        except Refuse as refusal:
            form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        else:
            messages.success(request, f"Kept as {order.label}, from paper, not checked.")
            return redirect("inventory:order-answer", number=order.label)
    return _paper_page(request, form, status=422)


@for_roles("support")
@require_GET
def invoice_photo(request: HttpRequest, pk: int, size: str) -> HttpResponse:
    """A photo of a paper: the shown or small copy on the page, the original only to be saved."""
    photo = photo_for(request.user, pk)
    kept = {"shown": photo.shown, "small": photo.thumbnail, "original": photo.original}.get(size)
    if kept is None:
        raise Http404
    with kept.open("rb") as file:
        content = file.read()
    if size != "original":
        return HttpResponse(content, content_type="image/jpeg")
    response = HttpResponse(content, content_type="application/octet-stream")
    response.headers["Content-Disposition"] = f'attachment; filename="invoice-{photo.order.label}-original"'
    return response


def _paper_page(request: HttpRequest, form: PaperOrderForm, status: int = 200) -> HttpResponse:
    return render(request, "inventory/paper_order_new.html", {"form": form}, status=status)
