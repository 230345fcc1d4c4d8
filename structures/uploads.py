"""The ceiling over everything that one request may bring.

A form refuses a photo or a file that is too large in its own sentence, but only once all of it has arrived; without a
ceiling somebody could fill the disk before any form is asked.
"""

from __future__ import annotations

from typing import Any

from django.core.exceptions import RequestDataTooBig
from django.core.files.uploadedfile import UploadedFile
from django.core.files.uploadhandler import FileUploadHandler

from structures.photos import MOST_MEGABYTES

# One photo of the largest size that is taken, and room for the words around it.
MOST_BYTES = (MOST_MEGABYTES + 5) * 1_000_000


class Ceiling(FileUploadHandler):
    """Stands first among the handlers and keeps nothing: it looks at the announced length and passes all on."""

    def handle_raw_input(
        self, input_data: Any, META: dict[str, Any], content_length: int, boundary: str | bytes, encoding: str | None = None
    ) -> None:
        """Raise `RequestDataTooBig`, which is answered with a page of its own (400), before a byte is read."""
        if content_length > MOST_BYTES:
            raise RequestDataTooBig(f"The request has {content_length:,} bytes: {MOST_BYTES:,} at most are taken.")

    def receive_data_chunk(self, raw_data: bytes, start: int) -> bytes:
        """Pass it on to the next handler."""
        return raw_data

    def file_complete(self, file_size: int) -> UploadedFile | None:
        """Leave the file to the next handler."""
        return None
