"""Papers: HTML of our own templates made into a PDF.

The PDF library may read our own static files and data: addresses, and nothing else: its default would read any file of
this machine and any address on the network.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from io import BytesIO
from pathlib import Path, PurePosixPath
from typing import Any
from urllib.parse import urlsplit

from django.contrib.staticfiles import finders
from django.template.loader import render_to_string

from structures.refusals import Refuse

# No such host exists; an address that begins so is answered from the static files, so that a style sheet can name its
# fonts by a relative path.
BASE = "http://static.invalid/"
_TYPES = {".css": "text/css", ".woff2": "font/woff2", ".svg": "image/svg+xml", ".png": "image/png", ".jpg": "image/jpeg"}
MISSING = (
    "The PDF can't be made here, since the libraries that draw text (Pango) are not installed: "
    "run `python3 manage.py demo` once as an administrator, or install Pango, and try again."
)


def make_paper(template: str, context: dict[str, Any]) -> bytes:
    """Render a template and make a PDF of it. Raises `Refuse` when the machine lacks the PDF library's own libraries."""
    return make_pdf(render_to_string(template, context))


def make_pdf(html: str) -> bytes:
    """A PDF of this HTML. Raises `Refuse` when the machine lacks the PDF library's own libraries."""
    try:
        # Slow to load, and an OSError on a machine without Pango: nobody else should have to wait or fall for it.
        from weasyprint import HTML
    except OSError:
        raise Refuse(MISSING) from None
    with _nothing_thrown_away():
        return HTML(string=html, base_url=BASE, url_fetcher=_fetcher()).write_pdf()


@contextmanager
def _nothing_thrown_away() -> Iterator[None]:
    """Keep Python from looking for garbage: a paper's boxes are all in use till it is done, and to walk them takes a fifth of the time."""
    gc.disable()
    try:
        yield
    finally:
        # Even if another thread still makes a paper: that one only takes longer.
        gc.enable()


def _read(path: str) -> bytes:
    return _unpacked_font(path) if path.endswith(".woff2") else Path(path).read_bytes()


@lru_cache(maxsize=16)
def _unpacked_font(path: str) -> bytes:
    """A font as the PDF library wants it in the end, kept for the process: unpacking takes a second, for each paper anew."""
    from fontTools.ttLib import TTFont  # comes with the PDF library, and is as slow to load

    plain = BytesIO()
    with TTFont(path) as font:
        font.flavor = None
        font.save(plain)
    return plain.getvalue()


def _fetcher() -> Any:
    from weasyprint.urls import URLFetcher, URLFetcherResponse  # for the same reason

    class OwnFilesOnly(URLFetcher):
        def fetch(self, url: str, headers: Any = None) -> Any:
            if not url.startswith(BASE):
                return super().fetch(url, headers)
            name = urlsplit(url).path.lstrip("/")
            kind = _TYPES.get(PurePosixPath(name).suffix)
            found = finders.find(name) if kind and ".." not in PurePosixPath(name).parts else None
            if not found:
                raise ValueError(f"No static file is called {name}.")
            return URLFetcherResponse(url, _read(found), {"Content-Type": kind})

    return OwnFilesOnly(allowed_protocols={"data"})
