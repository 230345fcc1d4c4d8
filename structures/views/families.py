"""Families: the list with years, one revision, and loading a file."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from structures.access import for_roles
from structures.actions.families import load_family
from structures.forms.families import FamilyFileForm
from structures.forms.filters import FamiliesFilter
from structures.forms.sizes import Typed, stand
from structures.frame.refusal import Refused
from structures.lists import list_page
from structures.queries.designs import document_for
from structures.queries.families import family_of, revisions, value_of
from structures.refusals import Refuse
from structures.requests import changes
from structures.sentences import say_each
from structures.tables.families import FamiliesTable
from structures.views.pictures import picture


@for_roles("support")
@require_GET
def family_list(request: HttpRequest) -> HttpResponse:
    return list_page(
        request, table=FamiliesTable, filterset=FamiliesFilter, queryset=revisions(),
        template="structures/family_list.html", export_name="families",
    )


@for_roles("support")
@require_GET
def family_detail(request: HttpRequest, code: str, revision: str) -> HttpResponse:
    found = get_object_or_404(revisions(), code=code, revision=revision)
    typed = Typed(family=value_of(found))
    standing = stand(typed, units=request.user.units)
    document = document_for(found, standing.configuration)
    units = request.user.units
    context = {
        "revision": found,
        "others": [one for one in revisions() if one.code == found.code],
        "family": family_of(found),
        "document": document,
        "views": [picture(document, view, units=units) for view in ("section", "frame")],
        "size_url": f"{reverse('structures:size')}?{typed.text}",
    }
    return render(request, "structures/family_detail.html", context)


@for_roles("owner")
@require_GET
def family_new(request: HttpRequest) -> HttpResponse:
    return render(request, "structures/family_new.html", {"form": FamilyFileForm()})


@for_roles("owner")
@require_POST
@changes
def family_load(request: HttpRequest) -> HttpResponse:
    form = FamilyFileForm(request.POST, request.FILES)
    refusals: list[str] = []
    if form.is_valid():
        try:
            kept = load_family(form.cleaned_data["text"], source=form.cleaned_data["source"], by=request.user)
        except Refused as refused:
            refusals = say_each(refused, request.user.units)
        except Refuse as refusal:
            refusals = [refusal.sentence]
        else:
            messages.success(request, f"{kept.code} revision {kept.revision} is loaded.")
            return redirect("structures:family-detail", code=kept.code, revision=kept.revision)
        form.keep_text(form.cleaned_data["text"])
    return render(request, "structures/family_new.html", {"form": form, "refusals": refusals}, status=422)
