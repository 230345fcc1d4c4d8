"""Addresses of the third app, grouped by what stands at their head."""

from __future__ import annotations

from django.urls import path

from inspections.views import mine, requests, visits, walk, weather

app_name = "inspections"

mine_urls = [
    path("mine/", mine.home, name="home"),
    path("mine/wrong/", mine.my_wrong_list, name="my-wrong"),
    path("leave-now/", mine.leave_now, name="leave-now"),
]

structure_urls = [
    path("structures/<str:tag>/visits/", mine.structure_visits, name="structure-visits"),
    path("structures/<str:tag>/visits/begin/", mine.look_begin, name="look-begin"),
]

visit_urls = [
    path("visits/", visits.visit_list, name="visit-list"),
    path("visits/plan/", visits.visits_plan, name="visits-plan"),
    path("visits/<uuid:pk>/", visits.visit_detail, name="visit-detail"),
    path("visits/<uuid:pk>/report.pdf", visits.visit_report, name="visit-report"),
    path("visits/<uuid:pk>/start/", mine.visit_start, name="visit-start"),
    path("visits/<uuid:pk>/before/", mine.visit_before, name="visit-before"),
    path("visits/<uuid:pk>/walk/", walk.visit_walk, name="visit-walk"),
    path("visits/<uuid:pk>/walk/<str:stretch>/", walk.walk_stretch, name="walk-stretch"),
    path("visits/<uuid:pk>/walk/<str:stretch>/keep/", walk.walk_keep, name="walk-keep"),
    path("visits/<uuid:pk>/walk/<str:stretch>/rest/", walk.walk_rest, name="walk-rest"),
    path("visits/<uuid:pk>/corners/", walk.visit_corners, name="visit-corners"),
    path("visits/<uuid:pk>/corners/keep/", walk.corner_keep, name="corner-keep"),
    path("visits/<uuid:pk>/end/", walk.visit_end, name="visit-end"),
    path("visits/<uuid:pk>/finish/", walk.visit_finish, name="visit-finish"),
]

record_urls = [
    path("observations/<uuid:pk>/", visits.observation_correct, name="observation-correct"),
    path("observations/<uuid:pk>/keep/", visits.correction_keep, name="correction-keep"),
    path("photos/<uuid:pk>/", visits.photo_shown, name="photo-shown"),
    path("photos/<uuid:pk>/small/", visits.photo_small, name="photo-small"),
    path("photos/<uuid:pk>/original/", visits.photo_original, name="photo-original"),
]

storm_urls = [
    path("storms/", weather.storm_list, name="storm-list"),
    path("storms/new/", weather.storm_new, name="storm-new"),
    path("storms/enter/", weather.storm_enter, name="storm-enter"),
    path("storms/<int:pk>/", weather.storm_detail, name="storm-detail"),
    path("storms/<int:pk>/widen/", weather.storm_widen, name="storm-widen"),
    path("storms/<int:pk>/catch-up/", weather.storm_catch_up, name="storm-catch-up"),
]

wrong_urls = [
    path("wrong/", requests.wrong_list_page, name="wrong-list"),
    path("wrong/<uuid:pk>/", requests.wrong_detail, name="wrong-detail"),
    path("wrong/<uuid:pk>/step/", requests.wrong_step, name="wrong-step"),
]

urlpatterns = [*mine_urls, *structure_urls, *visit_urls, *record_urls, *storm_urls, *wrong_urls]
