"""Bins: the list in walking order, one bin, and making or changing one."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from inventory.access import STOCK, STOCK_READERS, bin_for
from inventory.actions.stock import change_bin, make_bin
from inventory.forms.stock import BinForm
from inventory.forms.stock_filters import BinsFilter
from inventory.models import Bin
from inventory.queries import stock as asked
from inventory.tables.stock import BinsTable, ContentsTable
from structures.access import for_roles
from structures.lists import list_page
from structures.requests import changes


@for_roles(*STOCK_READERS)
@require_GET
def bin_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=BinsTable, filterset=BinsFilter, queryset=asked.bins(), template="inventory/bin_list.html", export_name="bins"
    )


@for_roles(*STOCK)
@require_GET
def bin_new(request: HttpRequest) -> HttpResponse:
    return render(request, "inventory/bin_new.html", {"form": BinForm(initial={"walk": asked.next_walk()})})


@for_roles(*STOCK)
@require_POST
@changes
def bin_make(request: HttpRequest) -> HttpResponse:
    form = BinForm(request.POST)
    if not form.is_valid():
        return render(request, "inventory/bin_new.html", {"form": form}, status=422)
    made = make_bin(form.cleaned_data, by=request.user)
    messages.success(request, f"Bin {made.code} is made.")
    return redirect("inventory:bin-detail", code=made.code)


@for_roles(*STOCK_READERS)
@require_GET
def bin_detail(request: HttpRequest, code: str) -> HttpResponse:
    bin = bin_for(code)
    return _bin_page(request, bin, BinForm(bin=bin))


@for_roles(*STOCK)
@require_POST
@changes
def bin_keep(request: HttpRequest, code: str) -> HttpResponse:
    bin = bin_for(code)
    form = BinForm(request.POST, bin=bin)
    if not form.is_valid():
        response = _bin_page(request, bin, form)
        response.status_code = 422
        return response
    change_bin(bin, form.cleaned_data, by=request.user)
    messages.success(request, f"Kept: bin {bin.code}.")
    return redirect("inventory:bin-detail", code=bin.code)


def _bin_page(request: HttpRequest, bin: Bin, form: BinForm) -> HttpResponse:
    return list_page(
        request, table=ContentsTable, filterset=None, queryset=asked.contents_of(bin), template="inventory/bin_detail.html",
        context={"bin": bin, "form": form}, export_name=f"bin-{bin.code}",
    )
