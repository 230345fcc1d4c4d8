"""Typed readers of the environment: an odd value stops the start and names itself.

Standard library only, so that the chooser of the interpreter may use it too.
"""

import os
from collections.abc import Mapping


class BadSetting(Exception):
    """A variable of the environment holds something that cannot be meant; the message is one sentence."""


def read_bool(name: str, default: bool, environ: Mapping[str, str] = os.environ) -> bool:
    """Read `1`/`0`, `true`/`false`, `yes`/`no`, `on`/`off` in any case; unset or empty gives `default`."""
    given = environ.get(name, "").strip()
    if not given:
        return default
    if given.lower() in ("1", "true", "yes", "on"):
        return True
    if given.lower() in ("0", "false", "no", "off"):
        return False
    raise BadSetting(f"{name} is {given!r}, which is neither yes nor no: set it to 1 or 0, or leave it out.")


def read_list(name: str, environ: Mapping[str, str] = os.environ) -> list[str]:
    """Read a list separated by commas; unset or empty gives an empty list."""
    return [item.strip() for item in environ.get(name, "").split(",") if item.strip()]


def read_text(name: str, default: str = "", environ: Mapping[str, str] = os.environ) -> str:
    """Read a text without the blanks around it."""
    return environ.get(name, "").strip() or default


def read_secret(name: str, least: int, environ: Mapping[str, str] = os.environ) -> str:
    """Read a secret of at least `least` characters; unset or empty gives an empty text."""
    given = environ.get(name, "").strip()
    if given and len(given) < least:
        raise BadSetting(f"{name} has {len(given)} characters: give it at least {least}, drawn at random.")
    return given
