"""Things wrong: the list, one of them, and its next step."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from inspections.access import request_for
from inspections.actions.requests import take_step
from inspections.forms.filters import WrongFilter
from inspections.forms.requests import StepForm
from inspections.mending import FITTED, next_steps
from inspections.models import FaultRequest
from inspections.places import place_index
from inspections.queries.requests import parts_at, photos_at, wrong_list
from inspections.queries.visits import walk_at, zone_of
from inspections.tables.requests import WrongTable
from structures.access import for_roles
from structures.lists import list_page
from structures.models import User
from structures.refusals import Refuse
from structures.requests import changes

# A grower says what they did; asking, and sending parts, are recorded where they happen.
GROWERS_STEPS = (FITTED,)


@for_roles("support")
@require_GET
def wrong_list_page(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=WrongTable, filterset=WrongFilter, queryset=wrong_list(), template="inspections/wrong_list.html",
        export_name="things-wrong",
    )


@for_roles("grower", "support")
@require_GET
def wrong_detail(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One thing wrong: what was seen, which parts stand there, and every step since."""
    return _response(request, request_for(request.user, pk))


@for_roles("grower", "support")
@require_POST
@changes
def wrong_step(request: HttpRequest, pk: UUID) -> HttpResponse:
    asked = request_for(request.user, pk)
    form = StepForm(request.POST)
    if not form.is_valid():
        return _response(request, asked, form=form, status=422)
    step = form.cleaned_data["step"]
    try:
        if step not in steps_for(request.user, asked.last_step):
            raise Refuse(_not_now(request.user, asked, step))
        take_step(asked, step, by=request.user, note=form.cleaned_data["note"].strip())
    except Refuse as refusal:
        form.add_error(None, refusal.sentence)
        return _response(request, asked, form=form, status=422)
    messages.success(request, f"Kept: {step}.")
    return redirect("inspections:wrong-detail", pk=pk)


def _not_now(user: User, asked: FaultRequest, step: str) -> str:
    """Why a step can't be taken: somebody was first with it, or it is another's to take."""
    possible = " or ".join(steps_for(user, asked.last_step)) or "nothing"
    if step == asked.last_step:
        last = asked.steps.select_related("who").last()
        return f"{asked.code} is {step} already, as {last.who.called} said: {possible} would be next."
    return f"“{step}” is not yours to say here: {possible} is."


def steps_for(user: User, last: str) -> tuple[str, ...]:
    """The steps that this person may take now. Looking again is done on a walk, where it is seen."""
    possible = tuple(step for step in next_steps(last) if step not in ("looked at again", "asked"))
    return possible if user.is_staff_role else tuple(step for step in possible if step in GROWERS_STEPS)


def _response(request: HttpRequest, asked: FaultRequest, *, form: StepForm | None = None, status: int = 200) -> HttpResponse:
    structure = asked.structure
    document = structure.design.read() if structure.design else None
    context = {
        "asked": asked, "structure": structure, "place": place_index(walk_at(structure)).get(asked.place),
        "steps": asked.steps.select_related("who"), "parts": parts_at(document, asked.place), "photos": photos_at(asked),
        "possible": steps_for(request.user, asked.last_step), "form": form or StepForm(), "zone": zone_of(structure),
    }
    return render(request, "inspections/wrong_detail.html", context, status=status)
