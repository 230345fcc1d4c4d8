"""Lengthwise stock: channel, boards and roll-up pipes, by the foot or stick by stick."""

from __future__ import annotations

from collections.abc import Mapping

from structures.frame.family import Part, Strip
from structures.frame.reader.access import NAN, Table
from structures.frame.reader.stations import NAME, Places


def read_strips(top: Table, parts: Mapping[str, Part], places: Places) -> tuple[Strip, ...]:
    """Read [[strips]]; channel along the sides and the end hoops are two entries of one code."""
    strips = []
    for table in top.tables("strips", "code"):
        run = table.choice("run", ("sides", "end hoops"))
        part = table.text("part", like="CH10")
        stock = parts[part].length_in if part in parts else NAN
        strips.append(Strip(
            code=table.text("code", pattern=NAME, like="hip-board"),
            name=table.text("name"),
            part=part,
            stock_in=NAN if stock is None else stock,
            run=run,
            station=table.text("station", "") if run == "end hoops" else table.text("station", like="hip"),
            option=table.text("option", ""),
            fixing=table.text("fixing", ""),
            fixing_every_in=table.length("fixing_every", least=1.0) if table.has("fixing") else 0.0,
            together=table.text("together", ""),
            wide_in=table.length("wide", 0.0, most=48.0),
            thick_in=table.length("thick", 0.0, most=24.0),
            lies=table.choice("lies", ("outside", "inside", "hanging"), "outside"),
            splice=table.text("splice", ""),
            role=table.text("role", "", pattern=NAME, like="board"),
            middle_in=places.read(table.key("middle"), table.text("middle")) if table.has("middle") else None,
            on=table.text("on", ""),
        ))
        table.done()
        _note_run(table, strips[-1])
    return tuple(strips)


def _note_run(table: Table, strip: Strip) -> None:
    for name, other in (("wide", "thick"), ("thick", "wide")):
        if name in table.data and other not in table.data:
            table.missing(other, "write both sides of its section")
    if strip.run == "end hoops":
        _note_bent(table, strip)
    else:
        _note_sticks(table, strip)


def _note_bent(table: Table, strip: Strip) -> None:
    """What a strip along the end hoops can't have."""
    if strip.station:
        table.problems.add("strip-station", table.key("station"), "{key} means nothing on the end hoops, where the "
                           "strip runs from foot to foot: leave it out.")
    for name in ("splice", "role", "middle", "on", "lies"):
        if name in table.data:
            table.problems.add("strip-end-hoops", table.key(name), "{key} means nothing on the end hoops: it is for a strip "
                               "along the sides, so leave it out.")


def _note_sticks(table: Table, strip: Strip) -> None:
    """What goes with being laid stick by stick."""
    if strip.lies == "hanging" and not strip.splice:
        table.missing("splice", "what hangs in the film is laid stick by stick: name the fitting where two meet")
    elif strip.splice and strip.role == strip.code and strip.lies != "hanging":
        table.problems.add("strip-role", table.key("role"), "{key} = {given} is the strip's own code, by which its bays are called: "
                           "give its sticks another word.", given=f'"{strip.role}"')
    if strip.splice and not strip.role:
        table.missing("role", 'a strip with a splice is laid stick by stick: say what a stick of it is, like "board"')
    if strip.role and not strip.splice and strip.lies != "hanging":
        table.missing("splice", "a strip whose sticks have a role is laid stick by stick: name the fitting where two meet")
    if strip.splice and strip.together:
        table.problems.add("strip-together", table.key("together"), "{key} adds up what is bought together, and a strip with a "
                           "splice is counted by each side's sticks: leave one of them out.")
