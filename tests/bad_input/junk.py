"""What nobody should send, which names a view asks for, and what stands in the tables before and after."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256

from django.apps import apps
from django.contrib.sessions.models import Session
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.http import QueryDict

from structures.models import SignInTry

HUGE = "9" * 30
JUNK = (
    "", " ", "a\0b", "x" * 5000, HUGE, str(2**63), str(2**31), "-1", "-" + HUGE, "0", "nan", "-inf", "1e309", "1,5", "1/0",
    "²", "٣", "9999-99-99", "9999-12-31", "0001-01-01", "2026-02-30", "12:99", "00000000-0000-0000-0000-000000000000",
    "<b onclick=x>&amp;</b>", "{0.__class__}%(x)s%d", "'\";--", "= 1+1", "../../etc/passwd", "file:///etc/passwd", "🌧️\u202eא",
    "H999-R-foot", "B1-R-side:brace:999", "8-11 99/0", "48ft 99in", "[]", "null", "all", "\n\r\n", "-", "--__", ".", "place__x",
)
# One at a time, with all the rest as it should be: what gets past the first look breaks deeper down.
DEEP = ("a\0b", HUGE, "-1", "9999-12-31", "x" * 3000)
# Names that lists and their library know, whether the page says so or not.
LIST_NAMES = ("page", "per_page", "sort", "export", "_export", "q", "next")


def upload(name: str = "junk.bin", data: bytes = b"\x00\xff\xfe\x89junk") -> SimpleUploadedFile:
    """A file that is nothing."""
    return SimpleUploadedFile(name, data, "application/octet-stream")


@contextmanager
def asked_names() -> Iterator[set[str]]:
    """The names that are looked for in an address or a body, while this lasts."""
    names: set[str] = set()
    read, read_all = QueryDict.__getitem__, QueryDict.getlist

    def getitem(self, key):
        names.add(key)
        return read(self, key)

    def getlist(self, key, default=None):
        names.add(key)
        return read_all(self, key, default)

    def contains(self, key):
        names.add(key)
        return dict.__contains__(self, key)

    # Its parent answers for these otherwise; the resolver keeps its names in another child of the same parent.
    QueryDict.__getitem__, QueryDict.getlist, QueryDict.__contains__ = getitem, getlist, contains
    try:
        yield names
    finally:
        del QueryDict.__getitem__, QueryDict.getlist, QueryDict.__contains__


def _tables() -> list[str]:
    # A failed try to sign in is counted, and a session is kept: both are meant.
    return [model._meta.db_table for model in apps.get_models(include_auto_created=True) if model not in (SignInTry, Session)]


def counted_rows() -> dict[str, int]:
    """How many rows each table has, asked in one query."""
    parts = [f"SELECT '{table}', COUNT(*) FROM {connection.ops.quote_name(table)}" for table in _tables()]
    with connection.cursor() as cursor:
        cursor.execute(" UNION ALL ".join(parts))
        return dict(cursor.fetchall())


def contents() -> dict[str, str]:
    """A hash of everything that stands in each table."""
    found = {}
    with connection.cursor() as cursor:
        for table in _tables():
            cursor.execute(f"SELECT * FROM {connection.ops.quote_name(table)} ORDER BY 1")
            found[table] = sha256(repr([[bytes(cell) if isinstance(cell, memoryview) else cell for cell in row]
                                        for row in cursor.fetchall()]).encode("utf-8", "replace")).hexdigest()
    return found
