"""A request that changes something is answered once, however often it is sent.

A form carries a key (`{% request_key %}`). The first request with it runs in one transaction and its answer is kept
beside the key; the same key with the same body gets that answer again, the same key with another body is a conflict
(409). An answer that says no (400 and above) rolls everything back and is not kept, so that a mended form may be
sent again.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from functools import wraps
from typing import Any
from uuid import UUID

from django.db import IntegrityError, transaction
from django.http import HttpRequest, HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import render

from structures.models import KeyedRequest
from structures.refusals import Conflict, Refuse

FIELD = "request_key"
HEADER = "X-Request-Key"
_UNSIGNED = {FIELD, "csrfmiddlewaretoken"}
View = Callable[..., HttpResponseBase]


def changes(view: View) -> View:
    """Run a POST view once for each key, in one transaction; see the module's text for the answers."""

    @wraps(view)
    def once(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
        key = _key(request)
        if key is None:
            return refused_page(
                request,
                "This page was sent without its key, so nothing was changed: open the page again and send it once more.",
                status=400,
            )
        signature = _signature(request)
        try:
            with transaction.atomic():
                return _first(request, view, key, signature, args, kwargs)
        except _SeenBefore:
            return _again(request, key, signature)
        except Refuse as refusal:
            status = 409 if isinstance(refusal, Conflict) else 422
            return refused_page(request, refusal.sentence, status=status)

    return once


def refused_page(request: HttpRequest, sentence: str, *, status: int = 422) -> HttpResponse:
    """A page with the one sentence, for an act that has no form to show it at."""
    return render(request, "structures/refused.html", {"sentence": sentence}, status=status)


class _SeenBefore(Exception):
    pass


def _first(
    request: HttpRequest, view: View, key: UUID, signature: str, args: tuple[Any, ...], kwargs: dict[str, Any]
) -> HttpResponseBase:
    # The key is taken before the work: on PostgreSQL a second request with it waits here for the first one's end.
    try:
        with transaction.atomic():
            kept = KeyedRequest.objects.create(key=key, body_sha256=signature)
    except IntegrityError:
        raise _SeenBefore from None
    response = view(request, *args, **kwargs)
    if response.status_code >= 400:
        transaction.set_rollback(True)
        return response
    _keep(kept, response)
    return response


def _keep(kept: KeyedRequest, response: HttpResponseBase) -> None:
    kept.status = response.status_code
    kept.location = response.headers.get("Location", "")
    kept.content_type = response.headers.get("Content-Type", "")
    if isinstance(response, HttpResponse) and not isinstance(response, StreamingHttpResponse):
        # A form shown again may hold a NUL that somebody sent, which PostgreSQL takes in no text.
        kept.content = response.content.decode("utf-8", errors="replace").replace("\0", "\ufffd")
    kept.save(update_fields=["status", "location", "content_type", "content"])


def _again(request: HttpRequest, key: UUID, signature: str) -> HttpResponse:
    kept = KeyedRequest.objects.filter(key=key).first()
    if kept is None or kept.body_sha256 != signature:
        return refused_page(
            request,
            "This page was already sent with other words in it, so nothing was changed now: open it again and look "
            "at what stands there first.",
            status=409,
        )
    response = HttpResponse(kept.content, status=kept.status, content_type=kept.content_type or None)
    if kept.location:
        response.headers["Location"] = kept.location
    return response


def _key(request: HttpRequest) -> UUID | None:
    try:
        return UUID(request.POST.get(FIELD) or request.headers.get(HEADER, ""))
    except ValueError:
        return None


def _signature(request: HttpRequest) -> str:
    """What was asked, by whom and where, as one hash; files count by their bytes."""
    digest = hashlib.sha256()
    digest.update(f"{request.user.pk}\n{request.path}\n".encode())
    for name in sorted(set(request.POST) - _UNSIGNED):
        digest.update(f"{name}={request.POST.getlist(name)!r}\n".encode())
    for name in sorted(request.FILES):
        for upload in request.FILES.getlist(name):
            digest.update(f"{name}:{upload.name}\n".encode())
            for chunk in upload.chunks():
                digest.update(chunk)
            upload.seek(0)
    if not request.POST and not request.FILES:
        digest.update(request.body)
    return digest.hexdigest()
