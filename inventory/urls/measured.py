"""Addresses of what a crew measured back."""

from __future__ import annotations

from django.urls import path

from inventory.views import measured

urlpatterns = [
    path("structures/<str:tag>/measured/", measured.measured_back, name="measured-back"),
    path("structures/<str:tag>/measured/keep/", measured.measured_keep, name="measured-keep"),
]
