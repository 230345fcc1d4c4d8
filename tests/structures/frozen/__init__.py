"""Build output held fast: what each engine version makes of families that are kept here and never edited.

`python -m tests.structures.frozen` writes the file of the current engine. Run it after giving `ENGINE` a new version, and
never to make a failing test pass with the old one: orders that were confirmed with it say otherwise.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import Document, write_document
from structures.frame.reader import read_family

HERE = Path(__file__).parent
EVERY = ("boards", "film", "roll-up", "anchors", "double-film", "webs")
CASES = {
    "round-40": ("round.toml", {"length_in": 480}),
    "gothic-48": ("gothic.toml", {"length_in": 576}),
    "gothic-72-snow": ("gothic.toml", {"length_in": 864, "with_": ("snow-ties", "film", "boards")}),
    "wide-96": ("wide.toml", {"length_in": 1152}),
    "practice-48": ("practice.toml", {"length_in": 576, "with_": ("roof-braces",)}),
    "one-piece-48": ("one-piece.toml", {"length_in": 576}),
    **{f"everything-{base}": ("everything.toml", {"length_in": 576, "base": base, "ends": ("door", "sliding"), "with_": EVERY})
       for base in ("fixed", "skid", "rolling")},
}


def build(case: str) -> Document:
    name, choices = CASES[case]
    text = (HERE / "families" / name).read_text(encoding="utf-8")
    family = read_family(text, source=name)
    return compute(family, choose(family, **choices), sha256=hashlib.sha256(text.encode()).hexdigest())


def digest(document: Document) -> str:
    """SHA-256 of the document's JSON, lengths to a thousandth so that two machines' last digits may differ."""
    return hashlib.sha256(json.dumps(_rounded(write_document(document)), sort_keys=True).encode()).hexdigest()


def _rounded(value):
    if isinstance(value, float):
        return round(value, 3) + 0.0
    if isinstance(value, dict):
        return {key: _rounded(item) for key, item in value.items()}
    return [_rounded(item) for item in value] if isinstance(value, list) else value
