"""Several files at once: one part number means one thing, and a family's revision has one file."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from structures.frame.family import Family
from structures.frame.refusal import Refusal

_CLASH = ("{other} and {file}: parts.{number}.{key} is {theirsSUFFIX} in one and {mineSUFFIX} in the other: make them equal, or "
          "give one part a number of its own.")


def clashes(families: Mapping[str, Family]) -> list[Refusal]:
    """Every part number that two files define differently, naming both files."""
    found = []
    first: dict[str, tuple[str, dict[str, Any]]] = {}
    revisions: dict[tuple[str, str], str] = {}
    for source, family in families.items():
        other = revisions.setdefault((family.code, family.revision), source)
        if other != source:
            found.append(Refusal("revision-twice", "{file} and {other}: both are {family} revision {revision}: give one of "
                                 "them a revision of its own.", {"file": source, "other": other, "family": family.code,
                                                                 "revision": family.revision}, "revision"))
        for number in family.parts:
            mine = definition(family, number)
            other, theirs = first.setdefault(number, (source, mine))
            differing = [key for key in mine if mine[key] != theirs[key] and not _untold(key, mine[key], theirs[key])]
            if differing:
                key = differing[0]
                found.append(_clash(source, other, number, key, mine[key], theirs[key]))
    return found


def definition(family: Family, number: str) -> dict[str, Any]:
    """A part as it can be compared between files: with its tube's measures in place of the tube's name."""
    part = family.parts[number]
    mine = dataclasses.asdict(part)
    tube = family.tubes.get(part.tube)
    mine["tube"] = f"{tube.diameter_in:g} x {tube.wall_in:g} {tube.coating}" if tube else ""
    return mine


def _untold(key: str, mine: Any, theirs: Any) -> bool:
    """Whether one file says what a part is driven with and the other, written before files could, says nothing of it."""
    return key == "tool" and not (mine and theirs)


def _clash(source: str, other: str, number: str, key: str, mine: Any, theirs: Any) -> Refusal:
    """Two definitions of one part, shown by the first key in which they differ."""
    values = {"file": source, "other": other, "number": number, "key": key.removesuffix("_in")}
    length = key.endswith("_in")
    template = _CLASH.replace("SUFFIX", "_in" if length else "")
    names = ("mine_in", "theirs_in") if length else ("mine", "theirs")
    values |= dict(zip(names, (_said(mine), _said(theirs)), strict=True))
    return Refusal("part-clash", template, values, f"parts.{number}.{values['key']}")


def _said(value: Any) -> Any:
    return "not given" if value is None or value == "" else value
