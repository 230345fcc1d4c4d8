"""What closes the frame and what is counted by measure: end walls and their doors, film, allowances."""

from __future__ import annotations

from structures.frame.family import Allowance, Door, EndWall, FilmSheet
from structures.frame.reader.access import Table, once
from structures.frame.reader.stations import NAME

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
