"""Stock as a file: take all of it away as CSV, look at what a file would change, and store it."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from inventory.access import STOCK, STOCK_READERS
from inventory.actions.stock_file import import_stock
from inventory.forms.stock import StockFileAgainForm, StockFileForm
from inventory.queries.stock_file import plan_stock_file, stock_as_file
from inventory.stock_file import StockFileError, decode
from structures.access import for_roles
from structures.refusals import Conflict, Refuse
from structures.requests import FIELD, changes


@for_roles(*STOCK_READERS)
@require_GET
def stock_export(request: HttpRequest) -> HttpResponse:
    response = HttpResponse(stock_as_file(), content_type="text/csv; charset=utf-8")
    response.headers["Content-Disposition"] = 'attachment; filename="stock.csv"'
    return response


@for_roles(*STOCK)
@require_GET
def stock_import(request: HttpRequest) -> HttpResponse:
    return render(request, "inventory/stock_import.html", {"form": StockFileForm()})


@for_roles(*STOCK)
@require_POST
def stock_import_look(request: HttpRequest) -> HttpResponse:
    """The dry run: it stores nothing, so it needs no key."""
    form = StockFileForm(request.POST, request.FILES)
    if form.is_valid():
        upload = form.cleaned_data["file"]
        try:
            return _look(request, decode(upload.read()), upload.name[:80])
        except StockFileError as error:
            form.add_error("file", str(error))
    return render(request, "inventory/stock_import.html", {"form": form}, status=422)


@for_roles(*STOCK)
@require_POST
@changes
def stock_imported(request: HttpRequest) -> HttpResponse:
    form = StockFileAgainForm(request.POST)
    if not form.is_valid():
        return _from_the_start(request, "The file did not come back whole, so nothing was stored: choose it again.")
    values = form.cleaned_data
    try:
        done = import_stock(values["text"], name=values["name"], shown=values["shown"], key=request.POST[FIELD], by=request.user)
    except StockFileError as error:
        return _from_the_start(request, str(error))
    except Conflict:
        raise
    except Refuse as refusal:
        return _look(request, values["text"], values["name"], refused=refusal.sentence)
    messages.success(request, f"{values['name']}: {len(done.movements):,} lines changed the stock, {done.agreed:,} agreed with it.")
    return redirect("inventory:movement-list")


def _look(request: HttpRequest, text: str, name: str, refused: str = "") -> HttpResponse:
    plan = plan_stock_file(text)
    status = 422 if refused or plan.wrong else 200
    context = {"plan": plan, "text": text, "name": name, "refused": refused}
    return render(request, "inventory/stock_import_look.html", context, status=status)


def _from_the_start(request: HttpRequest, sentence: str) -> HttpResponse:
    form = StockFileForm(data={}, files={})
    form.errors.clear()
    form.add_error("file", sentence)
    return render(request, "inventory/stock_import.html", {"form": form}, status=422)
