"""The demo families as tests use them: read once, with the shortest and longest size and every option that can be had."""

from functools import cache
from hashlib import sha256
from pathlib import Path

from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.document import Document
from structures.frame.family import Configuration, Family
from structures.frame.reader import read_family
from structures.frame.refusal import Refused

FAMILIES = Path(__file__).resolve().parents[2] / "structures" / "families"
NAMES = tuple(sorted(path.stem for path in FAMILIES.glob("*.toml")))


@cache
def family(name: str) -> Family:
    """A demo family by the name of its file: `g26-d`."""
    return read_family((FAMILIES / f"{name}.toml").read_text(), source=f"{name}.toml")


def shortest_and_longest(made: Family) -> tuple[float, float]:
    """The shortest and the longest length, in inches, that are whole numbers of the family's first spacing."""
    spacing = made.spacings_in[0]
    shortest = choose(made).length_in
    return shortest, made.longest_in // spacing * spacing


def plainest(made: Family, length_in: float) -> Configuration:
    """A size with as few options as the family allows."""
    configuration = choose(made, length_in=length_in)
    return _take(made, configuration, sorted(configuration.options), lambda codes, code: codes - {code})


def fullest(made: Family, length_in: float, spacing_in: float | None = None) -> Configuration:
    """A size with every option that can be had together with those before it."""
    configuration = choose(made, length_in=length_in, spacing_in=spacing_in)
    return _take(made, configuration, [option.code for option in made.options], lambda codes, code: codes | {code})


@cache
def document(name: str, length_in: float, kind: str) -> Document:
    """The document of a demo family at a length, `plainest` or `fullest`."""
    configuration = {"plainest": plainest, "fullest": fullest}[kind](family(name), length_in)
    return compute(family(name), configuration, sha256=sha256((FAMILIES / f"{name}.toml").read_bytes()).hexdigest())


def _take(made: Family, start: Configuration, codes: list[str], change) -> Configuration:
    reached = start
    for code in codes:
        wanted = change(reached.options, code)
        try:
            tried = choose(
                made,
                length_in=start.length_in,
                spacing_in=start.spacing_in,
                with_=wanted,
                without={option.code for option in made.options} - wanted,
            )
            compute(made, tried, sha256="")
        except Refused:
            continue
        reached = tried
    return reached
