"""Addresses of parts, bins, stock and supply."""

from __future__ import annotations

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
