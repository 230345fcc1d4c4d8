"""Family files for tests: the demo's own texts with single places changed, and what the reader says to them."""

from functools import cache
from pathlib import Path

from structures.frame.reader import read_family
from structures.frame.refusal import Refused

FAMILIES = Path(__file__).resolve().parents[2] / "structures" / "families"


@cache
def text_of(name: str) -> str:
    """The text of a demo family by its file's name, as in `g26-d`."""
    return (FAMILIES / f"{name}.toml").read_text(encoding="utf-8")


def changed(*pairs: tuple[str, str], name: str = "g26-d") -> str:
    """A demo family's text with the first place of each old text changed to the new one."""
    text = text_of(name)
    for old, new in pairs:
        assert old in text, f"{name}.toml has no {old!r}"
        text = text.replace(old, new, 1)
    return text


def sentences(text: str, name: str = "g26-d") -> list[str]:
    """What the reader refuses in a text, in words, without the file's name that each sentence begins with."""
    try:
        read_family(text, source=f"{name}.toml")
    except Refused as refused:
        said = [str(refusal) for refusal in refused.refusals]
        assert all(sentence.startswith(f"{name}.toml: ") for sentence in said)
        return [sentence.removeprefix(f"{name}.toml: ") for sentence in said]
    return []
