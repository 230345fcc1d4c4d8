"""The secret key of a local installation, made once and kept in a file that only its owner can read."""

import os
import secrets
from pathlib import Path


def local_secret_key(path: Path) -> str:
    """Return the key in `path`, drawing and keeping a new one when there is none yet."""
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        # O_EXCL: of two processes starting at once one writes the key and the other reads it.
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        kept = path.read_text().strip()
        if kept:
            return kept
        handle = os.open(path, os.O_WRONLY | os.O_TRUNC)
    key = secrets.token_urlsafe(48)
    with os.fdopen(handle, "w") as stream:
        stream.write(key + "\n")
    return key
