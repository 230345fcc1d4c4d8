"""The admin, which is the owner's alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.contrib.admin import AdminSite
from django.http import HttpRequest, HttpResponseBase, HttpResponseRedirect
from django.urls import reverse
from django.utils.http import urlencode

from structures.access import everyone, for_roles
from structures.models import User


class OwnersSite(AdminSite):
    """Every page carries the same rule as the rest of the product, and signing in happens at the one door."""

    site_header = "Hoopledger"
    site_title = "Hoopledger"
    index_title = "Rows as they are kept"
    site_url = "/"

    def has_permission(self, request: HttpRequest) -> bool:
        return bool(request.user.is_active and getattr(request.user, "role", "") == User.Role.OWNER)

    def admin_view(self, view: Callable[..., HttpResponseBase], cacheable: bool = False) -> Callable[..., HttpResponseBase]:
        return for_roles("owner")(super().admin_view(view, cacheable))

    @property
    def login(self) -> Callable[..., HttpResponseBase]:
        return everyone(_to_the_door)


def _to_the_door(request: HttpRequest, extra_context: dict[str, Any] | None = None) -> HttpResponseRedirect:
    back = request.GET.get("next") or reverse("admin:index")
    return HttpResponseRedirect(f"{reverse('structures:sign-in')}?{urlencode({'next': back})}")
