"""Documents of the demo families for tests, computed once a run."""

from functools import cache
from pathlib import Path

from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import Document
from structures.frame.family import Family
from structures.frame.reader import read_family

FAMILIES = Path(__file__).resolve().parents[2] / "structures" / "families"


@cache
def family(name: str) -> Family:
    """A demo family by its file's name, as in `g26-d`."""
    return read_family((FAMILIES / f"{name}.toml").read_text(encoding="utf-8"), source=f"{name}.toml")


@cache
def document(
    name: str, length_ft: float | None = None, with_: tuple[str, ...] = (), without: tuple[str, ...] = ()
) -> Document:
    """The document of a demo family; the shortest length if none is given."""
    length_in = None if length_ft is None else length_ft * 12
    configuration = choose(family(name), length_in=length_in, with_=with_, without=without)
    return compute(family(name), configuration, sha256="0" * 64)


def all_names() -> list[str]:
    return sorted(path.stem for path in FAMILIES.glob("*.toml"))
