"""Every address of the product: each app brings its own, the lowest first."""

from django.contrib import admin
from django.urls import include, path

from structures.project.favicon import favicon

urlpatterns = [
    path("admin/", admin.site.urls),
    path("favicon.ico", favicon, name="favicon"),
    path("", include("structures.urls")),
    path("", include("inventory.urls")),
    path("", include("inspections.urls")),
]
