"""Reading a page as a person does, and sending a form as a browser does."""

from __future__ import annotations

import re
from html import unescape
from uuid import uuid4

from django.test.utils import CaptureQueriesContext


def words(response) -> str:
    """The words of a page, one blank between them, drawings and scripts left out."""
    html = re.sub(r"<(svg|script|style)\b.*?</\1>", " ", response.content.decode(), flags=re.S)
    html = re.sub(r"</?(?:b|i|span|a|em|strong)\b[^>]*>", "", html)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def keyed(**values) -> dict:
    """The body of a form with a fresh request key."""
    return {"request_key": str(uuid4()), **values}


def queries(client, url: str) -> int:
    """How many queries a page takes."""
    from django.db import connection  # only once the database is there

    with CaptureQueriesContext(connection) as caught:
        response = client.get(url)
    assert response.status_code == 200
    return len(caught)


def value_of(response, name: str) -> str:
    """What stands in a field of a page."""
    html = response.content.decode()
    found = re.search(rf'<input[^>]*\bname="{name}"[^>]*>', html)
    if found:
        value = re.search(r'\bvalue="([^"]*)"', found[0])
        return unescape(value[1]) if value else ""
    found = re.search(rf'<textarea[^>]*\bname="{name}"[^>]*>(.*?)</textarea>', html, re.S)
    return unescape(found[1]) if found else ""
