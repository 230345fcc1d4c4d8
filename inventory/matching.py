"""Words typed into the one search box, read as people mean them, and why a text matches. Pure.

Capitals, dashes, dots, spaces and leading noughts are read past. The trade calls one thing by several names; a word that
is one of them also finds the others.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

MOST_WORDS = 6
MOST_LETTERS = 80
LEAST_DIGITS = 2   # of a number that is looked for inside others

# One row for one thing; the first word is ours.
SYNONYMS = (
    ("post", "ground post", "collar", "anchor post", "foundation post"),
    ("hoop", "bow", "rib", "arch", "rafter"),
    ("purlin", "ridge pole", "stringer"),
    ("side brace", "wind brace", "cross brace", "corner brace", "sidewall brace", "diagonal"),
    ("roof brace", "rafter brace"),
    ("tie", "collar tie", "truss", "chord", "snow brace"),
    ("band", "band clamp", "brace band", "strap clamp", "clamp"),
    ("connector", "cross connector", "cross clamp", "cross band"),
    ("screw", "self-drilling screw", "self-tapper", "driver screw", "tek"),
    ("base board", "baseboard"),
    ("hip board", "hipboard"),
    ("channel", "lock channel", "wire channel", "track", "wiggle track"),
    ("film", "poly", "plastic", "skin", "cover", "glazing"),
)


@dataclass(frozen=True, slots=True)
class Word:
    """One thing to look for: as typed, folded, its digits without leading noughts, and what the trade also calls it."""

    typed: str
    folded: str
    digits: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Match:
    """Why a text matches a word: the text cut in three, the middle is what matched. `begins` says where it lies."""

    before: str
    hit: str
    after: str
    begins: bool


def fold(text: str) -> str:
    """Letters and figures only, small, without accents."""
    plain = unicodedata.normalize("NFKD", text)
    return "".join(c for c in plain.casefold() if c.isalnum() and c.isascii())


def read_words(typed: str) -> tuple[Word, ...]:
    """The words of a question; a phone number with blanks in it is one word, and so is a name that the trade has for a part."""
    # What can't be printed was not meant, and a database may choke on it.
    text = " ".join("".join(c if c.isprintable() else " " for c in typed[:MOST_LETTERS]).split())
    joined = _join_phone(text)
    words = []
    rest = joined
    for phrase, others in _phrases():
        pattern = re.compile(rf"(?<!\w){re.escape(phrase)}s?(?!\w)", re.IGNORECASE)
        if " " in phrase and pattern.search(rest):
            rest = pattern.sub(" ", rest)
            words.append(Word(phrase, fold(phrase), "", others))
    for piece in rest.split():
        folded = fold(piece)
        if folded:
            words.append(Word(piece, folded, _digits(piece), _also(folded)))
    return tuple(words[:MOST_WORDS])


def _join_phone(text: str) -> str:
    """Make one word of a run of figure groups that can be a phone number."""
    return re.sub(
        r"(?<!\w)\+?\(?\d[\d\s().\-]{5,}\d(?!\w)", lambda found: re.sub(r"[\s().\-]", "", found[0]), text
    )


def _digits(piece: str) -> str:
    """The figures of a word that is a number or a code with one ("T-0412" and "0412" are both "412")."""
    figures = re.sub(r"\D", "", piece)
    return figures.lstrip("0") or figures[-1:]


def _phrases() -> list[tuple[str, tuple[str, ...]]]:
    """Names of several words, longest first, each with the other names of its row."""
    rows = [(name, tuple(other for other in row if other != name)) for row in SYNONYMS for name in row if " " in name]
    return sorted(rows, key=lambda row: -len(row[0]))


def _also(folded: str) -> tuple[str, ...]:
    single = folded.removesuffix("s")
    for row in SYNONYMS:
        if any(fold(name) in (folded, single) for name in row):
            return tuple(name for name in row if fold(name) not in (folded, single))
    return ()


def match(text: str, word: Word) -> Match | None:
    """Where a word lies in a text, reading past what is not letter or figure. None when it does not."""
    return _find(text, word.folded)


def match_number(text: str, word: Word) -> Match | None:
    """Where a number lies in another one, leading noughts read past ("412" in "T-0412", "phone 555 0412")."""
    if not word.digits or not any(c.isdigit() for c in word.typed):
        return None
    if any(c.isalpha() for c in word.folded):
        return _find(text, word.folded) or _without_noughts(text, word)
    if len(word.digits) < LEAST_DIGITS:
        # One figure lies in nearly every number, so alone it means only the number that it is.
        return Match("", text, "", True) if text == word.digits else None
    # A number written down without its country code is the same number.
    whole = re.fullmatch(r"1(\d{10})", word.digits)
    return _find(text, word.digits) or (_find(text, whole[1]) if whole else None)


def _without_noughts(text: str, word: Word) -> Match | None:
    """"T-412" for "T-0412": the letters must agree, noughts before the figures are read past."""
    letters = "".join(c for c in word.folded if c.isalpha())
    its = "".join(c for c in fold(text) if c.isalpha())
    return _find(text, word.digits) if letters and its == letters else None


def _find(text: str, wanted: str) -> Match | None:
    if not wanted:
        return None
    places, letters = [], []
    for i, char in enumerate(text):
        for plain in fold(char):
            places.append(i)
            letters.append(plain)
    at = "".join(letters).find(wanted)
    if at < 0:
        return None
    first, last = places[at], places[at + len(wanted) - 1]
    begins = first == 0 or not text[first - 1].isalnum()
    return Match(text[:first], text[first:last + 1], text[last + 1:], begins)


def best(texts: Iterable[str], word: Word) -> Match | None:
    """The first of several texts that a word lies in."""
    return next((found for text in texts if (found := match(text, word))), None)
