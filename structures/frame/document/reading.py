"""Documents read from JSON and written to it."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Mapping
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

from structures.frame.document.whole import Document


def read_document(text: str | Mapping[str, Any]) -> Document:
    """Read a document of any schema from JSON text or parsed JSON. Raises `ValueError` for a schema of the future."""
    data = json.loads(text) if isinstance(text, str) else text
    if data.get("schema") not in _READERS:
        raise ValueError(f"Schema {data.get('schema')!r} is not known here: this program reads {sorted(_READERS)}.")
    return _READERS[data["schema"]](data)


def write_document(document: Document) -> dict[str, Any]:
    """The document as plain JSON values, rounded to a millionth so that equal input gives equal text everywhere."""
    plain: dict[str, Any] = _plain(document)
    return plain


def _plain(value: Any) -> Any:
    # Most of what a document holds, and slow to find out by asking what it is not.
    if value is None or type(value) in (str, int, bool):
        return value
    if isinstance(value, float):
        return round(value, 6) + 0.0
    if dataclasses.is_dataclass(value):
        names = _fields(type(value))
        return {json_name: _plain(getattr(value, name)) for name, json_name in names}
    if isinstance(value, Mapping):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    return value


_FIELDS: dict[type, tuple[tuple[str, str], ...]] = {}


def _fields(kind: type) -> tuple[tuple[str, str], ...]:
    if kind not in _FIELDS:
        _FIELDS[kind] = tuple((f.name, f.name.rstrip("_")) for f in dataclasses.fields(kind))
    return _FIELDS[kind]


def _build(kind: Any, value: Any, older: bool) -> Any:
    """Make a value of the annotated type from plain JSON. An older document leaves out the fields that came later."""
    if isinstance(kind, type) and dataclasses.is_dataclass(kind):
        hints = _hints(kind)
        return kind(**{name: _build(hints[name], value[json_name], older) for name, json_name in _fields(kind)
                       if not older or json_name in value})
    origin = get_origin(kind)
    if origin is UnionType:
        inner = next(one for one in get_args(kind) if one is not NoneType)
        return None if value is None else _build(inner, value, older)
    if origin is tuple:
        inner = get_args(kind)
        if len(inner) == 2 and inner[1] is Ellipsis:
            return tuple(_build(inner[0], item, older) for item in value)
        return tuple(value)
    return value


_HINTS: dict[type, dict[str, Any]] = {}


def _hints(kind: type) -> dict[str, Any]:
    if kind not in _HINTS:
        _HINTS[kind] = get_type_hints(kind)
    return _HINTS[kind]


def _read_1(data: Mapping[str, Any]) -> Document:
    """Before the order of work, the tight gaps and the tails: those fields stay at their defaults."""
    document: Document = _build(Document, data, older=True)
    return document


def _read_2(data: Mapping[str, Any]) -> Document:
    document: Document = _build(Document, data, older=False)
    return document


_READERS = {1: _read_1, 2: _read_2}
