"""Strict access to TOML: every wrong key or value becomes one sentence with its file, its key and what would do.

Nothing raises while a file is read, so that a person gets all errors at once. A value that can't be used is replaced by
one that no later check trips over: `nan` for a length or number, "" for a text. A key is written as its path, with a
list's entries by their own code and never by their position (`chains.side.fitting`).
"""

from __future__ import annotations

import difflib
import json
import math
import re
from collections.abc import Iterable, Mapping
from datetime import date, datetime
from typing import Any, Final

from structures.frame.lengths import LengthError, read_length
from structures.frame.refusal import Refusal

REQUIRED: Final = object()
NAN: Final = math.nan
LONGEST_SHOWN: Final = 60
LENGTH_WORDS: Final = 'write it like "4ft 6in", "8-11 1/4", "104 3/4 in" or "2660 mm"'


def shown(value: Any) -> str:
    """A value as the file has it, cut short where it is long."""
    try:
        text = json.dumps(value, ensure_ascii=False)
    except TypeError:
        text = str(value)
    return text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 3] + "..."


def nearest(word: str, known: Iterable[str]) -> str:
    """What would do instead of an unknown word: the nearest known one, else all of them."""
    choices = sorted(set(known))
    near = difflib.get_close_matches(word, choices, n=1, cutoff=0.5)
    if near:
        return f"did you mean {near[0]}?"
    return f"known are {', '.join(choices)}." if choices else "none is known here."


class Problems:
    """The sentences collected while one file is read."""

    def __init__(self, source: str):
        self.source = source
        self.found: list[Refusal] = []
        self._said: set[str] = set()

    def add(self, code: str, key: str, template: str, **values: Any) -> None:
        """Note one problem at `key`. The template's fields are `values`, `key` and `file`.

        What only follows from a figure that couldn't be read is left out: that one has its own sentence.
        """
        if any(isinstance(value, float) and math.isnan(value) for value in values.values()):
            return
        values = {"file": self.source, "key": key, **values}
        refusal = Refusal(code, "{file}: " + template, values, key)
        if (said := str(refusal)) not in self._said:
            self._said.add(said)
            self.found.append(refusal)

    def unknown(self, key: str, word: str, known: Iterable[str], what: str) -> None:
        """Note that `word` names nothing of the kind `what`."""
        self.add("reference-unknown", key, "{key} = {given} names no {what} of this file: {would}",
                 given=shown(word), what=what, would=nearest(word, known))


class Table:
    """One TOML table. Each getter notes that its key is known; `done` refuses the keys that nobody asked for."""

    def __init__(self, data: Mapping[str, Any], path: str, problems: Problems):
        self.data = data
        self.path = path
        self.problems = problems
        self.asked: set[str] = set()

    def key(self, name: str) -> str:
        return f"{self.path}.{name}" if self.path else name

    def has(self, name: str) -> bool:
        self.asked.add(name)
        return name in self.data

    def wrong(self, name: str, what: str, would: str) -> None:
        self.problems.add("value-wrong", self.key(name), "{key} = {given} is no {what}: {would}.",
                          given=shown(self.data[name]), what=what, would=would)

    def missing(self, name: str, would: str) -> None:
        self.problems.add("key-missing", self.key(name), "{key} is missing: {would}.", would=would)

    def _raw(self, name: str, default: Any, would: str) -> Any:
        """The value, or None where the default holds or the key is missing (which is noted)."""
        if self.has(name):
            return self.data[name]
        if default is REQUIRED:
            self.missing(name, would)
        return None

    def text(self, name: str, default: Any = REQUIRED, *, pattern: str = "", like: str = "") -> str:
        """A text; with `pattern` one of that form, `like` being an example."""
        would = f'write it like "{like}"' if like else "write a text in quotes"
        value = self._raw(name, default, would)
        if value is None:
            return "" if default is REQUIRED else str(default)
        if not isinstance(value, str) or not value.strip() or not value.isprintable():
            self.wrong(name, "text", would)
        elif pattern and not re.fullmatch(pattern, value):
            self.wrong(name, "code", would)
        else:
            return value.strip()
        return ""

    def choice(self, name: str, choices: Iterable[str], default: Any = REQUIRED) -> str:
        """One of a few words."""
        words = tuple(choices)
        value = self._raw(name, default, "write one of " + ", ".join(words))
        if value is None:
            return "" if default is REQUIRED else str(default)
        if value in words:
            return str(value)
        near = difflib.get_close_matches(str(value), words, n=1)
        self.problems.add("choice-unknown", self.key(name), "{key} = {given} is none of {choices}: {would}",
                          given=shown(value), choices=", ".join(words),
                          would=f"did you mean {near[0]}?" if near else "one of them would do.")
        return ""

    def length(self, name: str, default: Any = REQUIRED, *, least: float = 0.0, most: float = 12000.0) -> float:
        """A length in words, in inches; `nan` when it can't be read."""
        value = self._raw(name, default, LENGTH_WORDS)
        if value is None:
            return NAN if default is REQUIRED else float(default)
        return self.read(name, value, least, most)

    def optional_length(self, name: str, *, least: float = 0.0) -> float | None:
        return self.length(name, least=least) if self.has(name) else None

    def read(self, name: str, value: Any, least: float = 0.0, most: float = 12000.0) -> float:
        """Read one length that stands at key `name`."""
        key = self.key(name)
        if not isinstance(value, str):
            self.problems.add("length-unread", key, "{key} = {given} is no length in words: {would}.",
                              given=shown(value), would=LENGTH_WORDS)
            return NAN
        try:
            inches = read_length(value)
        except LengthError:
            self.problems.add("length-unread", key, "{key} = {given} is no length: {would}.",
                              given=shown(value), would=LENGTH_WORDS)
            return NAN
        if not least <= inches <= most:
            self.problems.add("length-range", key, "{key} = {given} can't be: from {least_in} to {most_in} would do.",
                              given=shown(value), least_in=least, most_in=most)
            return NAN
        return inches

    def lengths(self, name: str, default: Any = REQUIRED, *, least: float = 0.0) -> tuple[float, ...]:
        """A list of lengths."""
        value = self._raw(name, default, 'write a list of lengths, like ["4ft", "6ft"]')
        if value is None:
            return ()
        if not isinstance(value, list) or (not value and default is REQUIRED):
            self.wrong(name, "list of lengths", 'write it like ["4ft", "6ft"]')
            return ()
        return tuple(self.read(name, item, least) for item in value)

    def number(self, name: str, default: Any = REQUIRED, *, least: float = 0.0, most: float = 1e6) -> float:
        """A number in figures; `nan` when it can't be read."""
        would = f"write a number from {least:g} to {most:g}"
        value = self._raw(name, default, would)
        if value is None:
            return NAN if default is REQUIRED else float(default)
        good = isinstance(value, int | float) and not isinstance(value, bool) and least <= value <= most
        if not good:
            self.wrong(name, "number that can be here", would)
            return NAN
        return float(value)

    def whole(self, name: str, default: Any = REQUIRED, *, least: int = 1, most: int = 100000) -> int:
        """A whole number; `least` when it can't be read."""
        would = f"write a whole number from {least} to {most}"
        value = self._raw(name, default, would)
        if value is None:
            return least if default is REQUIRED else int(default)
        if not isinstance(value, int) or isinstance(value, bool) or not least <= value <= most:
            self.wrong(name, "whole number that can be here", would)
            return least
        return value

    def flag(self, name: str, default: Any = REQUIRED) -> bool:
        value = self._raw(name, default, "write true or false")
        if value is None:
            return default is True
        if not isinstance(value, bool):
            self.wrong(name, "yes or no", "write true or false without quotes")
        return value is True

    def day(self, name: str) -> date:
        """A date; the first of year 1 when it can't be read."""
        value = self._raw(name, REQUIRED, "write a date like 2021-03-15 without quotes")
        if isinstance(value, date) and not isinstance(value, datetime):
            return value
        if value is not None:
            self.wrong(name, "date", "write it like 2021-03-15 without quotes")
        return date.min

    def texts(self, name: str, default: Any = REQUIRED) -> tuple[str, ...]:
        """A list of texts."""
        would = 'write a list of texts, like ["one", "two"]'
        value = self._raw(name, default, would)
        if value is None:
            return ()
        good = isinstance(value, list) and all(isinstance(item, str) and item for item in value)
        if not good or (not value and default is REQUIRED):
            self.wrong(name, "list of texts", would)
            return ()
        return tuple(value)

    def counts(self, name: str) -> tuple[tuple[str, int], ...]:
        """A small table of part numbers and how many of each."""
        would = "write part numbers with their count, like { BC190 = 1, NT516 = 1 }"
        value = self._raw(name, REQUIRED, would)
        if value is None:
            return ()
        whole = isinstance(value, dict) and value and all(
            isinstance(n, int) and not isinstance(n, bool) and 1 <= n <= 1000 for n in value.values()
        )
        if not whole:
            self.wrong(name, "count of parts", would)
            return ()
        return tuple(value.items())

    def table(self, name: str, *, required: bool = True) -> Table | None:
        """The table under a key, None where it is left out or is no table (both noted where it matters)."""
        value = self._raw(name, REQUIRED if required else None, f"write a block [{self.key(name)}]")
        if value is None:
            return None
        if not isinstance(value, dict):
            self.wrong(name, "block", f"write a block [{self.key(name)}]")
            return None
        return Table(value, self.key(name), self.problems)

    def named(self, name: str, *, pattern: str, like: str, required: bool = True) -> dict[str, Table]:
        """Tables by their own name: [tubes.hoop], [tubes.purlin], ..."""
        outer = self.table(name, required=required)
        if outer is None:
            return {}
        if required and not outer.data:
            self.problems.add("key-missing", self.key(name), "{key} is empty: write at least one block [{key}.{like}].", like=like)
        tables = {}
        for word in outer.data:
            inner = outer.table(word)
            if not re.fullmatch(pattern, word):
                self.problems.add("name-wrong", outer.key(word), '{key} is no name that can be here: write it like {like}.',
                                  like=like)
            elif inner is not None:
                tables[word] = inner
        return tables

    def tables(self, name: str, label: str, *, required: bool = False) -> list[Table]:
        """A list of tables, [[name]], each called by the text at its key `label`, which must be its own."""
        value = self._raw(name, REQUIRED if required else None, f"write at least one block [[{self.key(name)}]]")
        if value is None:
            return []
        if not isinstance(value, list) or not all(isinstance(item, dict) for item in value) or (required and not value):
            self.wrong(name, "list of blocks", f"write blocks [[{self.key(name)}]]")
            return []
        words = [str(item.get(label, f"(number {at})")) for at, item in enumerate(value, 1)]
        return [Table(item, f"{self.key(name)}.{word}", self.problems) for item, word in zip(value, words, strict=True)]

    def done(self) -> None:
        """Refuse the keys that mean nothing here."""
        for name in self.data:
            if name not in self.asked:
                self.problems.add("key-unknown", self.key(name), "{key} is no key that can be here: {would}",
                                  would=nearest(name, self.asked))


def once(problems: Problems, tables: Iterable[Table], name: str) -> None:
    """Refuse entries of a list that carry the same code."""
    seen: set[str] = set()
    for table in tables:
        word = table.data.get(name)
        if isinstance(word, str) and word in seen:
            problems.add("code-twice", table.key(name), "{key} = {given} stands twice: give each entry its own {name}.",
                         given=shown(word), name=name)
        elif isinstance(word, str):
            seen.add(word)
