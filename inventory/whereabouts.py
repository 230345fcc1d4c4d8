"""Where pieces go, in few words: location codes read apart, folded together and said as one says them.

Pure: reads frozen documents only. A code is `H<n>[-L|-R]-<station>`, `B<n>[-L|-R]-<zone or run>` or `E1|E2-<item>`; a place
id adds `:kind:ordinal`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from structures.frame.names import listed

_CODE = re.compile(r"^(?P<row>[HBE])(?P<n>\d+)(?:-(?P<side>[LR])(?=-))?(?:-(?P<station>.+))?$")
SIDES = {"L": "left", "R": "right"}
_ON_HOOP = re.compile(r"\bH(\d+)(?:-([LR])(?=-))?-([a-z][a-z-]*)")
_STATION_WORDS = {"brace-hip": "hip", "mid": "middle", "roof": "middle"}  # as the drawings call them


@dataclass(frozen=True, slots=True)
class Place:
    """A location code read apart: `row` "H", "B" or "E", its number, side "L", "R" or "", and the station's word."""

    row: str
    n: int
    side: str
    station: str

    @property
    def on_both(self) -> str:
        """The code without its side: what is true of left and right alike."""
        return f"{self.row}{self.n}-{self.station}"


def read_place(code: str) -> Place | None:
    """Read a location code or place id; None for what is neither."""
    found = _CODE.match(code.split(":", 1)[0])
    if found is None:
        return None
    return Place(found["row"], int(found["n"]), found["side"] or "", found["station"] or "")


def hoops_said(numbers: Iterable[int], row: str = "H") -> str:
    """Hoop numbers as one says them: "H1 to H13", "H1 and H13", "H2, H4, H6", "H3"."""
    ordered = sorted(set(numbers))
    if not ordered:
        return ""
    first, last = ordered[0], ordered[-1]
    if len(ordered) > 2 and ordered == list(range(first, last + 1)):
        return f"{row}{first} to {row}{last}"
    steps = {b - a for a, b in zip(ordered, ordered[1:], strict=False)}
    if len(ordered) > 6 and len(steps) == 1:
        every = {2: "every second", 3: "every third"}.get(steps.pop(), "")
        if every:
            return f"{every} one from {row}{first} to {row}{last}"
    return listed(f"{row}{n}" for n in ordered)


def chains(pairs: Iterable[tuple[str, str]]) -> list[list[str]]:
    """Join (from, to) pairs of codes that share a landing into chains, in the order in which they were met."""
    found: list[list[str]] = []
    for start, end in pairs:
        for chain in found:
            if chain[-1] == start:
                chain.append(end)
                break
            if chain[0] == end:
                chain.insert(0, start)
                break
        else:
            found.append([start, end])
    return found


def chains_said(pairs: Sequence[tuple[str, str]]) -> str:
    """Chains as words: "H3-foot to H2-mid to H1-hip" when left and right are alike, else each with its side."""
    by_side: dict[str, list[str]] = {}
    for chain in chains(pairs):
        places = [read_place(code) for code in chain]
        side = next((place.side for place in places if place and place.side), "")
        folded = " to ".join(place.on_both if place else code for place, code in zip(places, chain, strict=True))
        full = " to ".join(chain)
        by_side.setdefault(folded, []).append(full if side else folded)
    said = []
    for folded, fulls in by_side.items():
        said.append(folded if len(fulls) > 1 else fulls[0])
    return "; ".join(said)


def chains_in_words(said: str) -> str:
    """Chains said in codes, in words for the telephone: "H1-brace-hip to H2-mid" is "hoop 1 hip to hoop 2 middle, left and
    right alike"; "" for what names no place on a hoop."""
    return "; ".join(words for chain in said.split("; ") if (words := _chain_in_words(chain)))


def _chain_in_words(chain: str) -> str:
    if not _ON_HOOP.search(chain):
        return ""
    alike = "" if re.search(r"\bH\d+-[LR]-", chain) else ", left and right alike"
    return _ON_HOOP.sub(_landing_in_words, chain) + alike


def _landing_in_words(found: re.Match[str]) -> str:
    hoop, side, station = found.groups()
    words = _STATION_WORDS.get(station, station.replace("-", " "))
    return " ".join(filter(None, (f"hoop {hoop}", SIDES.get(side or ""), words)))
