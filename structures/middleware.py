"""What is looked at before any view."""

from __future__ import annotations

from collections.abc import Callable

from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponseBase


def plain_addresses(get_response: Callable[[HttpRequest], HttpResponseBase]) -> Callable[[HttpRequest], HttpResponseBase]:
    """Answer 400 to an address with a NUL in it: no key and no link has one, and PostgreSQL takes none in a text.

    Forms refuse it in their own sentence; a view that looks something up by its address has no form.
    """

    def look(request: HttpRequest) -> HttpResponseBase:
        if "\0" in request.path_info or "%00" in request.META.get("QUERY_STRING", ""):
            raise BadRequest("The address has a NUL in it.")
        return get_response(request)

    return look
