"""People: who may sign in, as what, and what they belong to. The owner's pages, and one page for everybody."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_POST

from structures.access import for_roles, signed_in
from structures.actions.people import change_own, change_person, let_in
from structures.forms.filters import PeopleFilter
from structures.forms.people import OwnSettingsForm, PersonForm
from structures.lists import list_page
from structures.models import User
from structures.queries.people import belongings_of
from structures.refusals import Refuse
from structures.requests import changes
from structures.tables.people import PeopleTable


@for_roles("owner")
@require_GET
def person_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=PeopleTable, filterset=PeopleFilter, queryset=User.objects.all(),
        template="structures/person_list.html", export_name="people",
    )


@for_roles("owner")
@require_GET
def person_new(request: HttpRequest) -> HttpResponse:
    return render(request, "structures/person_new.html", {"form": PersonForm(initial={"role": "grower", "is_active": True})})


@for_roles("owner")
@require_POST
@changes
def person_let_in(request: HttpRequest) -> HttpResponse:
    form = PersonForm(request.POST)
    if not form.is_valid():
        return render(request, "structures/person_new.html", {"form": form}, status=422)
    person = let_in(form.values(), password=form.cleaned_data["password"], by=request.user)
    messages.success(request, f"{person.called} can sign in as {person.username}.")
    return redirect("structures:person-change", username=person.username)


@for_roles("owner")
@require_GET
def person_change(request: HttpRequest, username: str) -> HttpResponse:
    person = get_object_or_404(User, username=username)
    return _person_page(request, person, PersonForm(instance=person))


@for_roles("owner")
@require_POST
@changes
def person_keep(request: HttpRequest, username: str) -> HttpResponse:
    person = get_object_or_404(User, username=username)
    form = PersonForm(request.POST, instance=get_object_or_404(User, username=username))
    if form.is_valid():
        try:
            kept = change_person(person, form.values(), password=form.cleaned_data["password"], by=request.user)
        except Refuse as refusal:
            form.add_error(refusal.field, refusal.sentence)
        else:
            messages.success(request, f"Kept: {kept.called}, {kept.get_role_display()}.")
            return redirect("structures:person-change", username=kept.username)
    return _person_page(request, person, form, status=422)


def _person_page(request: HttpRequest, person: User, form: PersonForm, status: int = 200) -> HttpResponse:
    context = {"person": person, "form": form, "belongings": belongings_of(person)}
    return render(request, "structures/person_change.html", context, status=status)


@signed_in
@require_GET
def own_settings(request: HttpRequest) -> HttpResponse:
    form = OwnSettingsForm(initial={"units": request.user.units}, user=request.user)
    return render(request, "structures/own_settings.html", {"form": form})


@signed_in
@require_POST
@changes
def own_settings_keep(request: HttpRequest) -> HttpResponse:
    form = OwnSettingsForm(request.POST, user=request.user)
    if not form.is_valid():
        return render(request, "structures/own_settings.html", {"form": form}, status=422)
    password = form.cleaned_data["new_password"]
    person = change_own(request.user, units=form.cleaned_data["units"], password=password)
    if password:
        update_session_auth_hash(request, person)
    messages.success(request, "Your settings are kept.")
    return redirect("structures:own-settings")
