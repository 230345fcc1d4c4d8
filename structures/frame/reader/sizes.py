"""Sizes on offer, and options with their conditions."""

from __future__ import annotations

import math
from dataclasses import dataclass

from structures.frame.family import Option
from structures.frame.reader.access import NAN, Table, once
from structures.frame.reader.stations import NAME


@dataclass(frozen=True, slots=True)
class Sizes:
    """Spacings, lengths, bases and the end walls that hold where nobody says otherwise."""

    spacings_in: tuple[float, ...] = ()
    shortest_in: float = NAN
    longest_in: float = NAN
    bases: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()


def read_sizes(top: Table) -> Sizes:
    """Read [size]."""
    table = top.table("size")
    if table is None:
        return Sizes()
    sizes = Sizes(
        table.lengths("spacings", least=12.0),
        table.length("shortest", least=12.0),
        table.length("longest", least=12.0),
        table.texts("bases"),
        table.texts("ends", ()),
    )
    table.done()
    if sizes.shortest_in > sizes.longest_in:
        table.problems.add("size-order", table.key("longest"), "{key} = {longest_in} is less than size.shortest = "
                           "{shortest_in}: write at least that.", longest_in=sizes.longest_in,
                           shortest_in=sizes.shortest_in)
    for spacing in sizes.spacings_in:
        _note_bays(table, sizes, spacing)
    if "ends" in table.data and len(sizes.ends) != 2:
        table.wrong("ends", "pair of end walls", 'write the tag end and the far end, like ["framed", "framed"]')
    return sizes


def _note_bays(table: Table, sizes: Sizes, spacing: float) -> None:
    """At least one whole number of bays lies between the shortest and the longest."""
    most = sizes.longest_in / spacing
    if math.isnan(most) or math.isnan(sizes.shortest_in) or sizes.shortest_in > sizes.longest_in:
        return
    if math.floor(most + 1e-9) * spacing < sizes.shortest_in - 1e-9:
        table.problems.add("size-none", table.key("spacings"), "{key}: no whole number of {spacing_in} bays lies from "
                           "{shortest_in} to {longest_in}: change one of them.", spacing_in=spacing,
                           shortest_in=sizes.shortest_in, longest_in=sizes.longest_in)


def read_options(top: Table) -> tuple[Option, ...]:
    """Read [[options]]."""
    tables = top.tables("options", "code")
    once(top.problems, tables, "code")
    return tuple(_option(table) for table in tables)


def _option(table: Table) -> Option:
    option = Option(
        code=table.text("code", pattern=NAME, like="side-braces"),
        name=table.text("name"),
        offer=table.choice("offer", ("standard", "optional", "not offered")),
        note=table.text("note", ""),
        replaced_by=table.text("replaced_by", ""),
        needs=table.texts("needs", ()),
        excludes=table.texts("excludes", ()),
        over_in=table.optional_length("over"),
        up_to_in=table.optional_length("up_to"),
        spacings_in=table.lengths("spacings", ()),
    )
    if option.offer == "not offered" and not option.note and not option.replaced_by:
        table.missing("note", "say in a sentence why it is not offered, or what replaced it with replaced_by")
    if option.replaced_by and option.offer != "not offered":
        table.problems.add("option-replaced", table.key("offer"), "{key} = {given}, and replaced_by says it is not made "
                           'any more: write offer = "not offered".', given=f'"{option.offer}"')
    table.done()
    return option
