"""What is bought whole and goes to known places: anchors, cranks, ropes, a blower."""

from __future__ import annotations

from structures.frame.family import Fixture
from structures.frame.reader.access import Table, once
from structures.frame.reader.stations import NAME

WHERE = ("feet", "corners", "sides", "bays", "end wall")


def read_fixtures(top: Table) -> tuple[Fixture, ...]:
    """Read [[fixtures]]."""
    tables = top.tables("fixtures", "code")
    once(top.problems, tables, "code")
    fixtures = []
    for table in tables:
        fixture = Fixture(
            code=table.text("code", pattern=NAME, like="anchor"),
            name=table.text("name"),
            fitting=table.text("fitting", like="anchor"),
            where=table.choice("where", WHERE),
            station=table.text("station", ""),
            every=table.whole("every", 1, most=100),
            option=table.text("option", ""),
        )
        table.done()
        if fixture.where and fixture.where != "feet" and table.has("every"):
            table.problems.add("fixture-every", table.key("every"), "{key} counts hoops, and this fixture goes to {where}: leave "
                               "it out, or write where = \"feet\".", where=fixture.where)
        fixtures.append(fixture)
    return tuple(fixtures)
