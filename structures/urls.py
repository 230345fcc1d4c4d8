"""Addresses of the lowest app, grouped by what stands at their head."""

from __future__ import annotations

from django.urls import path

from structures.views import doors, people, structures

app_name = "structures"

people_urls = [
    path("people/", people.person_list, name="person-list"),
    path("people/new/", people.person_new, name="person-new"),
    path("people/let-in/", people.person_let_in, name="person-let-in"),
    path("people/<str:username>/", people.person_change, name="person-change"),
    path("people/<str:username>/keep/", people.person_keep, name="person-keep"),
]

structure_urls = [
    path("structures/", structures.structure_list, name="structure-list"),
    path("structures/<str:tag>/", structures.structure_detail, name="structure-detail"),
    path("structures/<str:tag>/keep/", structures.structure_keep, name="structure-keep"),
    path("structures/<str:tag>/differs/", structures.structure_differs, name="structure-differs"),
    path("structures/<str:tag>/belongs/", structures.structure_belongs, name="structure-belongs"),
    path("structures/<str:tag>/belongs/<int:pk>/end/", structures.belonging_end, name="belonging-end"),
]

urlpatterns = [
    path("", doors.home, name="home"),
    path("sign-in/", doors.sign_in, name="sign-in"),
    path("sign-out/", doors.sign_out, name="sign-out"),
    path("me/", people.own_settings, name="own-settings"),
    path("me/keep/", people.own_settings_keep, name="own-settings-keep"),
    *people_urls,
    *structure_urls,
]
