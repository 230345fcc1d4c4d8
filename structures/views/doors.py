"""Signing in and out, and everybody's own first page."""

from __future__ import annotations

from django.contrib.auth.views import LoginView, LogoutView
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.templatetags.static import static

from structures.access import everyone, signed_in
from structures.forms.people import SignInForm
from structures.rooms import first_room, news_for, rooms_of

sign_in = everyone(
    LoginView.as_view(
        template_name="registration/sign_in.html", authentication_form=SignInForm, redirect_authenticated_user=True
    )
)
sign_out = everyone(LogoutView.as_view())


@everyone
def icon(request: HttpRequest) -> HttpResponse:
    """Where browsers look for an icon on pages that name none, such as the admin's."""
    return redirect(static("structures/hoop.svg"))


@signed_in
def home(request: HttpRequest) -> HttpResponse:
    """What waits for this person, and where things are; who has but one room goes straight there."""
    if room := first_room(request.user):
        return redirect(room.url_name)
    context = {"news": news_for(request.user), "rooms": rooms_of(request.user)}
    return render(request, "structures/home.html", context)
