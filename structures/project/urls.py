"""Every address of the product: each app brings its own, the lowest first."""

from importlib.util import find_spec

from django.contrib import admin
from django.urls import include, path

urlpatterns = [path("admin/", admin.site.urls)]
urlpatterns += [path("", include(f"{app}.urls")) for app in ("structures", "inventory", "inspections") if find_spec(f"{app}.urls")]
