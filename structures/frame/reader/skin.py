"""What closes the frame and what is counted by measure: end walls, channel and boards, film, allowances."""

from __future__ import annotations

from collections.abc import Mapping

from structures.frame.family import Allowance, Door, EndWall, FilmSheet, Part, Strip
from structures.frame.reader.access import NAN, Table, once
from structures.frame.reader.stations import NAME, Places

MEASURES = ("channel", "length", "hoops", "bays", "structure")


def read_end_walls(top: Table) -> dict[str, EndWall]:
    """Read [end_walls.NAME]."""
    walls = {}
    for code, table in top.named("end_walls", pattern=NAME, like="framed").items():
        walls[code] = EndWall(
            code=code,
            name=table.text("name"),
            takes_tie=table.flag("takes_tie", False),
            uprights_in=table.lengths("uprights", ()),
            upright_fitting=table.text("upright_fitting", ""),
            timber=table.text("timber", ""),
            post_wide_in=table.length("post_wide", 0.0, most=24.0),
            post_deep_in=table.length("post_deep", 0.0, most=24.0),
            door=_door(table),
        )
        table.done()
        _note_post(table, walls[code])
        if walls[code].uprights_in and not walls[code].upright_fitting and not table.has("upright_fitting"):
            table.missing("upright_fitting", "name the fitting that holds each upright")
    return walls


def _door(wall: Table) -> Door | None:
    table = wall.table("door", required=False)
    if table is None:
        return None
    door = Door(
        width_in=table.length("width", least=12.0, most=600.0),
        height_in=table.length("height", least=12.0, most=600.0),
        leaves=table.whole("leaves", 1, most=2),
        opens=table.choice("opens", ("out", "in", "slide")),
        fitting=table.text("fitting", ""),
        option=table.text("option", ""),
        thick_in=table.length("thick", 1.5, least=0.25, most=12.0),
    )
    table.done()
    return door


def _note_post(table: Table, wall: EndWall) -> None:
    """A post's section has both its sides, and a door hangs between uprights that are as thick as they are said to be."""
    for name, other in (("post_wide", "post_deep"), ("post_deep", "post_wide")):
        if name in table.data and other not in table.data:
            table.missing(other, "write the other side of the upright's section too")
    if wall.door is None:
        return
    if not [distance for distance in wall.uprights_in if distance]:
        table.missing("uprights", "a door hangs between two of them")
    elif not wall.post_wide_in:
        table.missing("post_wide", "a door is measured between its posts")
    elif 0.0 in wall.uprights_in:
        table.problems.add("door-middle", table.key("uprights"), "{key} puts one in the middle of the door: leave that one out.")
    else:
        clear = 2 * min(wall.uprights_in) - wall.post_wide_in
        if wall.door.width_in > clear + 1e-9:
            table.problems.add("door-wide", table.key("door.width"), "{key} = {width_in}, and between the two innermost uprights "
                               "there is {clear_in}: that or less would do.", width_in=wall.door.width_in, clear_in=clear)


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
            lies=table.choice("lies", ("outside", "inside"), "outside"),
            splice=table.text("splice", ""),
            role=table.text("role", "", pattern=NAME, like="board"),
            middle_in=places.read(table.key("middle"), table.text("middle")) if table.has("middle") else None,
            on=table.text("on", ""),
        ))
        table.done()
        _note_run(table, strips[-1])
    return tuple(strips)


def _note_run(table: Table, strip: Strip) -> None:
    """What a strip along the end hoops can't have, and what goes with being laid stick by stick."""
    if strip.run == "end hoops":
        if strip.station:
            table.problems.add("strip-station", table.key("station"), "{key} means nothing on the end hoops, where the "
                               "strip runs from foot to foot: leave it out.")
        for name in ("splice", "role", "middle", "on"):
            if name in table.data:
                table.problems.add("strip-end-hoops", table.key(name), "{key} means nothing on the end hoops: it is for a strip "
                                   "along the sides, so leave it out.")
        return
    if strip.splice and not strip.role:
        table.missing("role", 'a strip with a splice is laid stick by stick: say what a stick of it is, like "board"')
    if strip.role and not strip.splice:
        table.missing("splice", "a strip whose sticks have a role is laid stick by stick: name the fitting where two meet")
    if strip.splice and strip.together:
        table.problems.add("strip-together", table.key("together"), "{key} adds up what is bought together, and a strip with a "
                           "splice is counted by each side's sticks: leave one of them out.")
    for name, other in (("wide", "thick"), ("thick", "wide")):
        if name in table.data and other not in table.data:
            table.missing(other, "write both sides of its section")


def read_film(top: Table) -> tuple[FilmSheet, ...]:
    """Read [[film]]."""
    tables = top.tables("film", "code")
    once(top.problems, tables, "code")
    sheets = []
    for table in tables:
        sheets.append(FilmSheet(
            code=table.text("code", pattern=NAME, like="roof-sheet"),
            name=table.text("name"),
            part=table.text("part", like="FR44-100"),
            from_station=table.text("from_station", like="foot"),
            hold_in=table.length("hold"),
            hold_end_in=table.length("hold_end"),
            roll_width_in=table.length("roll_width", least=12.0),
            roll_length_in=table.length("roll_length", least=12.0, most=48000.0),
            option=table.text("option", ""),
        ))
        table.done()
    return tuple(sheets)


def read_allowances(top: Table) -> tuple[Allowance, ...]:
    """Read [[allowances]]."""
    allowances = []
    for table in top.tables("allowances", "part"):
        allowances.append(Allowance(
            part=table.text("part", like="SC14"),
            measure=table.choice("measure", MEASURES),
            count=table.number("count", least=0.001, most=10000.0),
            every_in=table.optional_length("every", least=1.0),
            option=table.text("option", ""),
            why=table.text("why", ""),
        ))
        measure = allowances[-1].measure
        if measure in ("channel", "length") and allowances[-1].every_in is None:
            table.missing("every", f'write for how much {measure} the count is, like "10ft"')
        table.done()
    return tuple(allowances)
