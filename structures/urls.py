"""Addresses of the lowest app, grouped by what stands at their head."""

from __future__ import annotations

from django.urls import path

from structures.views import compare, designs, doors, drawings, families, people, retrofit, sizes, structures

app_name = "structures"

size_urls = [
    path("size/", sizes.size_and_options, name="size"),
    path("size/why/", sizes.size_why, name="size-why"),
    path("size/keep/", sizes.size_keep, name="size-keep"),
]

beside_urls = [
    path("side-by-side/", compare.side_by_side, name="side-by-side"),
]

family_urls = [
    path("families/", families.family_list, name="family-list"),
    path("families/new/", families.family_new, name="family-new"),
    path("families/load/", families.family_load, name="family-load"),
    path("families/<slug:code>/<slug:revision>/", families.family_detail, name="family-detail"),
]

design_urls = [
    path("designs/<int:pk>/", designs.design_detail, name="design-detail"),
    path("designs/<int:pk>/why/", designs.design_why, name="design-why"),
    path("designs/<int:pk>/drawings/", drawings.design_drawings, name="design-drawings"),
]

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
    path("structures/<str:tag>/made-of/", designs.structure_made_of, name="structure-made-of"),
    path("structures/<str:tag>/why/", designs.structure_why, name="structure-why"),
    path("structures/<str:tag>/drawings/", drawings.structure_drawings, name="structure-drawings"),
    path("structures/<str:tag>/add-on/", retrofit.structure_add_on, name="structure-add-on"),
    path("structures/<str:tag>/keep/", structures.structure_keep, name="structure-keep"),
    path("structures/<str:tag>/ends/", structures.structure_ends, name="structure-ends"),
    path("structures/<str:tag>/differs/", structures.structure_differs, name="structure-differs"),
    path("structures/<str:tag>/belongs/", structures.structure_belongs, name="structure-belongs"),
    path("structures/<str:tag>/belongs/<int:pk>/end/", structures.belonging_end, name="belonging-end"),
]

urlpatterns = [
    path("", doors.home, name="home"),
    path("favicon.ico", doors.icon, name="icon"),
    path("sign-in/", doors.sign_in, name="sign-in"),
    path("sign-out/", doors.sign_out, name="sign-out"),
    path("me/", people.own_settings, name="own-settings"),
    path("me/keep/", people.own_settings_keep, name="own-settings-keep"),
    *size_urls,
    *beside_urls,
    *family_urls,
    *design_urls,
    *people_urls,
    *structure_urls,
]
