"""Places along the tube, written as a person says them: a length, or by way of other places.

    4-6                              a length from the foot at the ground line
    ridge                            the ridge mark
    hip - 3in, purlin + 2in          so far from another place
    half way from foot to brace-hip
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from structures.frame.family import Station
from structures.frame.lengths import LengthError, read_length
from structures.frame.reader.access import LENGTH_WORDS, NAN, Problems, Table, nearest, shown

NAME = r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*"
RIDGE = "ridge"
_HALF_WAY = re.compile(rf"half ?way from ({NAME}) to ({NAME})")
_FROM = re.compile(rf"({NAME})\s*([+-])\s+(.+)|({NAME})\s*([+])\s*(.+)|({NAME})\s+(-)\s*(.+)")


class Places:
    """Resolves the words for places along one half of a hoop; every refusal is noted once, at the key it stands at."""

    def __init__(self, problems: Problems, half_in: float, words: Mapping[str, str]):
        self.problems = problems
        self.half_in = half_in
        self.words = dict(words)
        self._known: dict[str, float] = {RIDGE: half_in}
        self._open: list[str] = []

    def station(self, name: str) -> float:
        """How far a named place lies from the foot; `nan` when it can't be told."""
        if name in self._known:
            return self._known[name]
        key = f"stations.{name}"
        if not self.words[name]:        # its words couldn't be read, which was said
            return NAN
        if name in self._open:
            self.problems.add("station-circle", key, "{key} = {given} leads back to itself by way of {way}: "
                              "write one of them as a length.", given=shown(self.words[name]), way=", ".join(self._open))
            return NAN
        self._open.append(name)
        self._known[name] = self.read(key, self.words[name])
        self._open.pop()
        return self._known[name]

    def read(self, key: str, words: str) -> float:
        """How far a place lies from the foot, from its words at a key of the file."""
        inches = self._measure(key, " ".join(words.lower().split()))
        if inches < -1e-9 or inches > self.half_in + 1e-9:
            self.problems.add("station-off-tube", key, "{key} = {given} lies {at_in} from the foot: "
                              "from 0-0 to the ridge at {ridge_in} would do.",
                              given=shown(words), at_in=inches, ridge_in=self.half_in)
            return NAN
        return inches

    def _measure(self, key: str, words: str) -> float:
        if found := _HALF_WAY.fullmatch(words):
            return (self._named(key, words, found[1]) + self._named(key, words, found[2])) / 2
        if found := _FROM.fullmatch(words):
            name, sign, rest = [group for group in found.groups() if group]
            return self._named(key, words, name) + (1 if sign == "+" else -1) * self._length(key, words, rest)
        if re.fullmatch(NAME, words):
            return self._named(key, words, words)
        return self._length(key, words, words)

    def _named(self, key: str, words: str, name: str) -> float:
        if name == RIDGE or name in self.words:
            return self.station(name)
        self.problems.add("station-unknown", key, "{key} = {given} goes by way of {name}, which is no station: {would}",
                          given=shown(words), name=name, would=nearest(name, [RIDGE, *self.words]))
        return NAN

    def _length(self, key: str, words: str, length: str) -> float:
        try:
            return read_length(length)
        except LengthError:
            self.problems.add("station-unread", key, "{key} = {given} is no place along the tube: {would}, "
                              'or "ridge - 1ft", "hip + 2in", "half way from foot to hip".',
                              given=shown(words), would=LENGTH_WORDS)
            return NAN


def read_places(top: Table, half_in: float) -> tuple[Places, dict[str, Station]]:
    """Read [stations]. The ridge is always there and needs no line of its own."""
    table = top.table("stations", required=False) or Table({}, "stations", top.problems)
    words: dict[str, str] = {}
    for name in table.data:
        _note_name(table, name)
        words[name] = table.text(name, like="4-6")
    words.pop(RIDGE, None)
    places = Places(top.problems, half_in, words)
    stations = {name: Station(name, places.station(name), word) for name, word in words.items()}
    stations[RIDGE] = Station(RIDGE, half_in, RIDGE)
    return places, stations


def _note_name(table: Table, name: str) -> None:
    if name == RIDGE:
        table.problems.add("station-reserved", table.key(name),
                           "{key} is worked out from the shape: leave this line out.")
    elif not re.fullmatch(NAME, name):
        table.problems.add("name-wrong", table.key(name), "{key} is no name that can be here: write it like {like}.",
                           like="brace-hip")

