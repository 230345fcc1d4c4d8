"""A made-up family that holds every kind of piece a file can hold."""

from functools import cache
from pathlib import Path

from structures.frame.family import Family
from structures.frame.reader import read_family

EVERYTHING = Path(__file__).with_name("families_full") / "everything.toml"


@cache
def everything() -> Family:
    """The family, read once a run."""
    return read_family(EVERYTHING.read_text(encoding="utf-8"), source=EVERYTHING.name)
