"""Tubes, part numbers and the hardware of each kind of joint."""

from __future__ import annotations

from structures.frame.family import FittingSet, Part, Tube
from structures.frame.reader.access import Table, shown
from structures.frame.reader.stations import NAME

NUMBER = r"[A-Z0-9][A-Z0-9.-]{1,23}"
KINDS = ("tube", "fitting", "fastener", "lengthwise", "film")
JOINTS = (
    "band", "connector", "screw", "bolt", "bracket", "strap", "splice", "clip", "shoe", "wheel", "anchor", "door", "crank", "rope",
    "blower",
)


def read_tubes(top: Table) -> dict[str, Tube]:
    """Read [tubes.NAME]."""
    tubes = {}
    for name, table in top.named("tubes", pattern=NAME, like="hoop").items():
        diameter = table.length("diameter", least=0.1, most=24.0)
        wall = table.length("wall", least=0.01, most=2.0)
        tubes[name] = Tube(name, diameter, wall, table.text("coating", "unknown"))
        if 2 * wall >= diameter:
            table.problems.add("tube-solid", table.key("wall"), "{key} = {given} leaves no hollow in a tube of {diameter}: less than "
                               "half of that would do.", given=shown(table.data["wall"]), diameter=shown(table.data["diameter"]))
        table.done()
    return tubes


def read_parts(top: Table) -> dict[str, Part]:
    """Read [parts.NUMBER]."""
    tables = top.named("parts", pattern=NUMBER, like="HS26-S")
    return {number: _part(number, table) for number, table in tables.items()}


def _part(number: str, table: Table) -> Part:
    kind = table.choice("kind", KINDS)
    length = table.optional_length("length", least=0.1)
    part = Part(
        number=number,
        name=table.text("name"),
        role=table.text("role", pattern=NAME, like="side-brace"),
        kind=kind,
        tube=table.text("tube", ""),
        length_in=length,
        cut_in=table.optional_length("cut", least=0.1),
        ends=table.text("ends", ""),
        hand=table.choice("hand", ("left", "right"), ""),
        spacing_in=table.optional_length("spacing", least=1.0),
        unit=table.text("unit", "each"),
        spares=table.number("spares_percent", 0.0, most=100.0) / 100,
        pack=table.whole("pack", 1),
        weight_lb=table.number("weight_lb", least=0.0001, most=5000.0) if table.has("weight_lb") else None,
        tool=table.text("tool", ""),
    )
    if kind == "tube":
        _note_tube(table, length)
    table.done()
    return part


def _note_tube(table: Table, length: float | None) -> None:
    """A piece of tube has a tube, a length, and its weight follows from both."""
    if "tube" not in table.data:
        table.missing("tube", "name one of [tubes]")
    if length is None:
        table.missing("length", "write its made length")
    if table.has("weight_lb"):
        table.problems.add("tube-weight", table.key("weight_lb"), "{key} is worked out from diameter, wall and length: "
                           "leave this line out.")


def read_fittings(top: Table) -> dict[str, FittingSet]:
    """Read [fittings.NAME]."""
    return {name: _fitting(name, table) for name, table in top.named("fittings", pattern=NAME, like="brace-band").items()}


def _fitting(code: str, table: Table) -> FittingSet:
    fitting = FittingSet(
        code=code,
        name=table.text("name"),
        kind=table.choice("kind", JOINTS),
        parts=table.counts("parts"),
        width_in=table.length("width", 0.0, most=48.0),
        hole_offset_in=table.optional_length("hole_offset"),
        hole_direction=table.choice("hole_direction", ("lengthwise", "inward", "upward"), ""),
        goes_on=table.choice("goes_on", ("opens", "slips over an end"), "opens"),
        bolt_points=table.choice("bolt_points", ("in", "out", "down", "up", "away from the tag end", "toward the tag end"), "in"),
        nut=table.choice("nut", ("inside", "outside", "below", "above", "none"), "inside"),
        ear_in=table.optional_length("ear", least=0.01),
        head_in=table.optional_length("head", least=0.01),
    )
    table.done()
    return fitting
