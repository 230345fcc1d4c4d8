"""Short words that every list of a frame needs: parts without the width of their family, hoops by number."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

_END = re.compile(r"\b(tag|far) end\b(?: wall)?", re.IGNORECASE)
_WIDTH = re.compile(r", \d+ ft$")


def short_name(name: str) -> str:
    """A part's name without the width of its family, for a list that is about one family alone."""
    return _WIDTH.sub("", name)


def hoops_words(hoops: Iterable[int]) -> str:
    """Hoop numbers with runs drawn together: "1, 3 to 11 and 13"."""
    runs: list[list[int]] = []
    for hoop in sorted(hoops):
        if runs and hoop == runs[-1][-1] + 1:
            runs[-1].append(hoop)
        else:
            runs.append([hoop])
    words: list[str] = []
    for run in runs:
        if len(run) > 2:
            words.append(f"{run[0]} to {run[-1]}")
        else:
            words.extend(str(hoop) for hoop in run)
    return listed(words)


def ends_named(words: str, names: Mapping[int, str]) -> str:
    """Words about a structure with what people call its ends (1 the tag end, 2 the far end): "outside the tag end (road end)"."""
    def with_name(found: re.Match[str]) -> str:
        name = names.get(1 if found[1].lower() == "tag" else 2, "")
        return f"{found[0]} ({name})" if name else found[0]

    return _END.sub(with_name, words)


def listed(words: Iterable[str], joined: str = "and") -> str:
    """Words in a row with "and" before the last: "a, b and c"."""
    items = list(words)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {joined} {items[-1]}"
