"""The made-up family of every kind of piece, and documents of it with every option, computed once a run."""

from functools import cache
from pathlib import Path

from structures.frame.build import Frame, build_frame
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import Document
from structures.frame.family import Configuration, Family
from structures.frame.reader import read_family

FULL = Path(__file__).resolve().parent / "families_full" / "everything.toml"


@cache
def full_family() -> Family:
    """The family of `families_full/everything.toml`."""
    return read_family(FULL.read_text(encoding="utf-8"), source=FULL.name)


def every_option(
    length_ft: float = 48, base: str = "skid", ends: tuple[str, str] = ("door", "sliding"), without: tuple[str, ...] = ()
) -> Configuration:
    """A size of it with all that it offers."""
    family = full_family()
    optional = {option.code for option in family.options if option.offer == "optional"} - {*without}
    return choose(family, length_in=length_ft * 12, base=base, ends=ends, with_=optional, without=without)


@cache
def full_frame(
    length_ft: float = 48, base: str = "skid", ends: tuple[str, str] = ("door", "sliding"), without: tuple[str, ...] = ()
) -> Frame:
    """The frame of that size."""
    return build_frame(full_family(), every_option(length_ft, base, ends, without))


@cache
def full_document(
    length_ft: float = 48, base: str = "skid", ends: tuple[str, str] = ("door", "sliding"), without: tuple[str, ...] = ()
) -> Document:
    """The document of that size."""
    return compute(full_family(), every_option(length_ft, base, ends, without), sha256="0" * 64)
