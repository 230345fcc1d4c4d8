"""What closes the frame and what is counted by measure: end walls, channel and boards, film, allowances."""

from __future__ import annotations

from collections.abc import Mapping

from structures.frame.family import Allowance, EndWall, FilmSheet, Part, Strip
from structures.frame.reader.access import NAN, Table, once
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
        )
        table.done()
        if walls[code].uprights_in and not walls[code].upright_fitting and not table.has("upright_fitting"):
            table.missing("upright_fitting", "name the fitting that holds each upright")
    return walls


def read_strips(top: Table, parts: Mapping[str, Part]) -> tuple[Strip, ...]:
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
        ))
        if run == "end hoops" and strips[-1].station:
            table.problems.add("strip-station", table.key("station"), "{key} means nothing on the end hoops, where the "
                               "strip runs from foot to foot: leave it out.")
        table.done()
    return tuple(strips)


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
