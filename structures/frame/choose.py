"""From what a person asks for to a configuration: defaults, and refusals that say what would do."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterable, Mapping
from typing import Any

from structures.frame.family import Configuration, Family, OneOff, Option
from structures.frame.refusal import Refusal, Refused
from structures.frame.said import Said, together

SLIGHT_IN = 1 / 64   # two lengths closer than this are the same length


def choose(
    family: Family,
    *,
    length_in: float | None = None,
    spacing_in: float | None = None,
    base: str | None = None,
    ends: tuple[str, str] | None = None,
    with_: Iterable[str] = (),
    without: Iterable[str] = (),
    one_offs: Iterable[OneOff] = (),
) -> Configuration:
    """A configuration with everything that was left out filled in. Raises `Refused` with all that can't be.

    What is left out takes the family's first spacing, base and end walls, its shortest length and standard options.
    """
    spacing = family.spacings_in[0] if spacing_in is None else spacing_in
    length = _shortest(family, spacing) if length_in is None else length_in
    base = family.bases[0] if base is None else base
    ends = family.default_ends if ends is None else ends
    refusals = [
        *_spacing_refusals(family, spacing),
        *_length_refusals(family, length, spacing),
        *_base_refusals(family, base),
        *_end_refusals(family, ends),
    ]
    options, more = _options(family, length, spacing, set(with_), set(without))
    refusals += more
    if refusals:
        raise Refused(refusals)
    return Configuration(length, spacing, base, ends, options, tuple(one_offs))


def _shortest(family: Family, spacing: float) -> float:
    if spacing <= 0:
        return family.shortest_in   # the spacing itself is refused; its length is not looked at
    return max(math.ceil(family.shortest_in / spacing - 1e-9), 1) * spacing


def _spacing_refusals(family: Family, spacing: float) -> list[Refusal]:
    if any(abs(spacing - made) < SLIGHT_IN for made in family.spacings_in):
        return []
    return [Refusal(
        "spacing-not-made",
        "Spacing {spacing_in} is not made in {family} revision {revision}: {choices_in} would do.",
        {"spacing_in": spacing, "family": family.code, "revision": family.revision,
         "choices_in": family.spacings_in},
        "spacing",
    )]


def _length_refusals(family: Family, length: float, spacing: float) -> list[Refusal]:
    if not family.shortest_in - SLIGHT_IN <= length <= family.longest_in + SLIGHT_IN:
        return [Refusal(
            "length-not-made",
            "Length {length_in} is not made in {family}: from {shortest_in} to {longest_in} would do.",
            {"length_in": length, "family": family.code, "shortest_in": family.shortest_in,
             "longest_in": family.longest_in},
            "length",
        )]
    if spacing <= 0:
        return []
    bays = round(length / spacing)
    if abs(bays * spacing - length) < SLIGHT_IN:
        return []
    below = math.floor(length / spacing) * spacing
    choices = [x for x in (below, below + spacing) if family.shortest_in <= x <= family.longest_in]
    return [Refusal(
        "length-off-spacing",
        "Length {length_in} is no whole number of {spacing_in} bays: {choices_in} would do.",
        {"length_in": length, "spacing_in": spacing, "choices_in": choices},
        "length",
    )]


def _base_refusals(family: Family, base: str) -> list[Refusal]:
    if base in family.bases:
        return []
    return [Refusal(
        "base-not-made", "Base {base!r} is not made in {family}: {choices} would do.",
        {"base": base, "family": family.code, "choices": " or ".join(family.bases)}, "base",
    )]


def _end_refusals(family: Family, ends: tuple[str, str]) -> list[Refusal]:
    return [
        Refusal("end-not-made", "End wall {end!r} is not made in {family}: {choices} would do.",
                {"end": end, "family": family.code, "choices": " or ".join(family.end_walls)}, "ends")
        for end in dict.fromkeys(ends) if end not in family.end_walls
    ]


def not_made(option: Option, length: float, spacing: float) -> Said | None:
    """Why an option can't be had for this size; None when it can."""
    if option.over_in is not None and length <= option.over_in + SLIGHT_IN:
        return Said("made for lengths over {over_in}", {"over_in": option.over_in})
    if option.up_to_in is not None and length > option.up_to_in + SLIGHT_IN:
        return Said("made for lengths up to {up_to_in}", {"up_to_in": option.up_to_in})
    if option.spacings_in and not any(abs(spacing - s) < SLIGHT_IN for s in option.spacings_in):
        return Said("made for {spacings_in} spacing", {"spacings_in": option.spacings_in})
    return None


def _options(
    family: Family, length: float, spacing: float, with_: set[str], without: set[str]
) -> tuple[frozenset[str], list[Refusal]]:
    known = {option.code: option for option in family.options}
    refusals = [_unknown(family, code, known) for code in sorted((with_ | without) - set(known))]
    made = {
        code for code, option in known.items()
        if option.offer != "not offered" and not option.replaced_by and not not_made(option, length, spacing)
    }
    for code in sorted(with_ & set(known) - made):
        refusals.append(_not_to_be_had(family, known[code], length, spacing))
    for code in sorted(with_ & without):
        refusals.append(Refusal("option-both", "Option {code!r} is asked for and left out at once: choose one.",
                                {"code": code}, "options"))
    chosen = ({code for code in made if known[code].offer == "standard"} | (with_ & made)) - without
    refusals += [refusal for code in sorted(chosen) for refusal in _against(known[code], chosen, known)]
    return frozenset(chosen), refusals


def _against(option: Option, chosen: set[str], known: Mapping[str, Option]) -> list[Refusal]:
    """What an option needs and has not, and what it can't stand beside."""
    missing = [
        Refusal("option-needs", "{name} needs {other}: choose {other} too, or leave {name} out.",
                {"name": option.name, "other": known[code].name if code in known else code}, "options")
        for code in option.needs if code not in chosen
    ]
    clashing = [
        Refusal("option-excludes", "{name} and {other} can't be on one structure: choose one of them.",
                {"name": option.name, "other": known[code].name if code in known else code}, "options")
        for code in option.excludes if code in chosen
    ]
    return missing + clashing


def _unknown(family: Family, code: str, known: Mapping[str, Option]) -> Refusal:
    near = difflib.get_close_matches(code, known, n=1)
    would = f"did you mean {near[0]!r}?" if near else "it has " + ", ".join(sorted(known)) + "."
    return Refusal("option-unknown", "Option {code!r} is not known in {family} revision {revision}: {would}",
                   {"code": code, "family": family.code, "revision": family.revision, "would": would}, "options")


def _not_to_be_had(family: Family, option: Option, length: float, spacing: float) -> Refusal:
    said = not_made(option, length, spacing)
    if option.replaced_by:
        why = Said("it was replaced by {by}; leave it out", {"by": option.replaced_by})
    elif option.offer == "not offered" or said is None:
        why = Said("{note}; leave it out", {"note": (option.note or "it is not offered").rstrip(".")})
    else:
        why = Said(f"it is {said.template}; leave it out or change the size", said.values)
    head = Said("{name} can't be had on this {family}", {"name": option.name, "family": family.code})
    whole = together([head, why], ": ")
    return Refusal("option-not-made", whole.template + ".", whole.values, "options")


def configuration_json(configuration: Configuration) -> dict[str, Any]:
    """The configuration as plain JSON values, in a fixed order (it is hashed)."""
    return {
        "length_in": round(configuration.length_in, 6),
        "spacing_in": round(configuration.spacing_in, 6),
        "base": configuration.base,
        "ends": list(configuration.ends),
        "options": sorted(configuration.options),
        "one_offs": [
            {"act": o.act, "target": o.target, "who": o.who, "why": o.why, "on": o.on, "target_2": o.target_2,
             "part": o.part, "by_in": o.by_in}
            for o in configuration.one_offs
        ],
    }


def read_configuration(data: Mapping[str, Any]) -> Configuration:
    """The configuration that `configuration_json` wrote."""
    return Configuration(
        data["length_in"], data["spacing_in"], data["base"], (data["ends"][0], data["ends"][1]),
        frozenset(data["options"]), tuple(OneOff(**one_off) for one_off in data["one_offs"]),
    )
