"""Addresses of the lowest app, grouped by what stands at their head."""

from __future__ import annotations

from django.urls import path

from structures.views import doors

app_name = "structures"

urlpatterns = [
    path("", doors.home, name="home"),
    path("sign-in/", doors.sign_in, name="sign-in"),
    path("sign-out/", doors.sign_out, name="sign-out"),
]
