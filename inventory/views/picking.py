"""Picking: the list of picks, all lines of one, and one line a screen. Everything works without script.

No page of a pick is kept by the browser: the way back must show what was accepted since, and not what stood there before.
"""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_GET, require_POST

from inventory.access import pick_for, pick_line_for
from inventory.actions.picking import put_back, record_code, record_pick, say_short, undo_pick
from inventory.forms.order_filters import PicksFilter
from inventory.forms.picking import CodeForm, TakeForm
from inventory.models import OPEN, PickLine, PutBack
from inventory.queries.orders import orders_listed
from inventory.queries.pick_lines import next_open, stand_of, stands
from inventory.queries.pick_screen import pick_screen
from inventory.tables.orders import PicksTable
from structures.access import for_roles
from structures.lists import list_page
from structures.refusals import Refuse
from structures.requests import FIELD, changes


@for_roles("warehouse")
@require_GET
def pick_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=PicksTable, filterset=PicksFilter, queryset=orders_listed().filter(status__in=OPEN),
        template="inventory/pick_list.html", export_name="picks",
    )


@for_roles("warehouse", "support")
@require_GET
@never_cache
def pick_detail(request: HttpRequest, number: int) -> HttpResponse:
    """All lines of a pick in bin order, with every accepted count on them."""
    pick = pick_for(request.user, number)
    rows = stands(pick)
    context = {
        "pick": pick, "order": pick.order, "rows": rows, "next": next_open(pick),
        "put_backs": PutBack.objects.filter(line__pick=pick).select_related("line__part", "bin", "done_by", "version"),
        "sheets": pick.sheets.select_related("printed_by", "entered_by"),
        "may_pick": request.user.role in ("warehouse", "owner"),
        "done": sum(1 for row in rows if row.state in ("taken", "put back")),
        "short": sum(row.line.still_to_pick for row in rows if row.state == "short"),
    }
    return render(request, "inventory/pick_detail.html", context)


@for_roles("warehouse")
@require_GET
def pick_next(request: HttpRequest, number: int) -> HttpResponse:
    """To the next line that somebody has to go to; to all lines when there is none."""
    pick = pick_for(request.user, number)
    after = request.GET.get("after", "0")
    found = next_open(pick, int(after) if after.isascii() and after.isdigit() and len(after) < 6 else 0)
    if found is None:
        messages.success(request, "Every line is taken or said short.")
        return redirect("inventory:pick-detail", number=pick.number)
    return redirect("inventory:pick-line", number=pick.number, pk=found.line.pk)


@for_roles("warehouse")
@require_GET
@never_cache
def pick_line(request: HttpRequest, number: int, pk: int) -> HttpResponse:
    return _line_page(request, pick_line_for(request.user, number, pk))


@for_roles("warehouse")
@require_POST
@changes
def pick_take(request: HttpRequest, number: int, pk: int) -> HttpResponse:
    """So many pieces by count."""
    line = pick_line_for(request.user, number, pk)
    form = TakeForm(request.POST)
    if not form.is_valid():
        return _line_page(request, line, take=form, status=422)
    try:
        record_pick(line, form.cleaned_data["count"], key=_key(request), by=request.user, taken_from=form.taken_from())
    except Refuse as refusal:
        form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        return _line_page(request, line, take=form, status=422)
    return _onward(request, line)


@for_roles("warehouse")
@require_POST
@changes
def pick_code(request: HttpRequest, number: int, pk: int) -> HttpResponse:
    """One piece (or so many) by the code on its label."""
    line = pick_line_for(request.user, number, pk)
    form = CodeForm(request.POST)
    if not form.is_valid():
        return _line_page(request, line, code=form, status=422)
    data = form.cleaned_data
    try:
        record_code(
            line, data["code"], key=_key(request), by=request.user, count=data["count"] or 1, taken_from=form.taken_from()
        )
    except Refuse as refusal:
        form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        return _line_page(request, line, code=form, status=422)
    return _onward(request, line)


@for_roles("warehouse")
@require_POST
@changes
def pick_undo(request: HttpRequest, number: int, pk: int) -> HttpResponse:
    line = pick_line_for(request.user, number, pk)
    try:
        entry = undo_pick(line, key=_key(request), by=request.user)
    except Refuse as refusal:
        return _line_page(request, line, refused=refusal.sentence, status=422)
    messages.success(request, f"Undone: {-entry.count:,} lie in {entry.bin.code} again.")
    return redirect("inventory:pick-line", number=number, pk=pk)


@for_roles("warehouse")
@require_POST
@changes
def pick_short(request: HttpRequest, number: int, pk: int) -> HttpResponse:
    """The bins have no more; the line stays open."""
    line = pick_line_for(request.user, number, pk)
    try:
        line = say_short(line, by=request.user)
    except Refuse as refusal:
        return _line_page(request, line, refused=refusal.sentence, status=422)
    messages.success(request, f"{line.still_to_pick:,} short. The line stays open.")
    return _to_next(line)


@for_roles("warehouse")
@require_POST
@changes
def pick_put_back(request: HttpRequest, number: int, pk: int) -> HttpResponse:
    """Pieces that a change made too many lie in their bin again."""
    pick = pick_for(request.user, number)
    row = PutBack.objects.select_related("line__pick", "bin").filter(line__pick=pick, pk=pk).first()
    if row is None:
        raise Http404
    row = put_back(row, key=_key(request), by=request.user)
    messages.success(request, f"{row.count:,} lie in {row.bin.code} again.")
    return redirect("inventory:pick-detail", number=number)


def _key(request: HttpRequest) -> UUID:
    return UUID(request.POST[FIELD])


def _onward(request: HttpRequest, line: PickLine) -> HttpResponse:
    """The same line while pieces are missing, else the next one."""
    line.refresh_from_db(fields=["picked", "to_pick"])
    if line.still_to_pick:
        return redirect("inventory:pick-line", number=line.pick.number, pk=line.pk)
    return _to_next(line)


def _to_next(line: PickLine) -> HttpResponse:
    here = stand_of(line)
    found = next_open(line.pick, here.n if here else 0)
    if found is None:
        return redirect("inventory:pick-detail", number=line.pick.number)
    return redirect("inventory:pick-line", number=line.pick.number, pk=found.line.pk)


def _line_page(
    request: HttpRequest, line: PickLine, *, take: TakeForm | None = None, code: CodeForm | None = None, refused: str = "",
    status: int = 200,
) -> HttpResponse:
    screen = pick_screen(line, request.user.units)
    if screen is None:
        messages.info(request, "Nothing is to be done on that line any more.")
        return redirect("inventory:pick-detail", number=line.pick.number)
    context = {
        "screen": screen, "pick": line.pick, "refused": refused, "forms": [form for form in (take, code) if form],
        "take": take or TakeForm(initial={"count": screen.proposed}), "code": code or CodeForm(auto_id="code_%s"),
    }
    return render(request, "inventory/pick_line.html", context, status=status)
