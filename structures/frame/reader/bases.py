"""What hoops stand on beside driven posts: skids and rolling bases, each a runner along both sides."""

from __future__ import annotations

from collections.abc import Mapping

from structures.frame.family import Base, Part
from structures.frame.reader.access import NAN, Table, nearest
from structures.frame.reader.stations import NAME


def read_bases(top: Table, parts: Mapping[str, Part], offered: tuple[str, ...]) -> dict[str, Base]:
    """Read [bases.NAME]. A base that `size.bases` names and that has no block here is one of posts alone, or of nothing."""
    bases = {}
    for code, table in top.named("bases", pattern=NAME, like="skid", required=False).items():
        runner = table.text("runner", "")
        stock = parts[runner].length_in if runner in parts else None
        bases[code] = Base(
            code=code,
            name=table.text("name"),
            posts=table.flag("posts", not runner),
            runner=runner,
            runner_stock_in=(NAN if stock is None else stock) if runner else 0.0,
            splice=table.text("splice", ""),
            foot=table.text("foot", ""),
            lowest_in=table.length("lowest", 0.0, most=120.0),
            boards_up_in=table.length("boards_up", 0.0, most=60.0),
            past_in=table.length("past", 0.0, most=120.0),
            splice_clear_in=table.length("splice_clear", 0.0, most=120.0),
        )
        _note_runner(table, bases[code])
        table.done()
        if offered and code not in offered:
            table.problems.add("base-unoffered", table.path, "{key} is none of the bases in size.bases: {would}",
                               would=nearest(code, offered))
    return bases


def _note_runner(table: Table, base: Base) -> None:
    """A runner needs what joins its sticks and what holds a hoop's foot to it; without one neither means anything."""
    for name, would in (("splice", "name the fitting where two of its sticks meet"),
                        ("foot", "name the fitting that holds each hoop's foot to it")):
        if base.runner and not table.has(name):
            table.missing(name, would)
    for name in ("splice", "foot", "past", "splice_clear"):
        if not base.runner and "runner" not in table.data and name in table.data:
            table.problems.add("base-no-runner", table.key(name), "{key} means nothing without a runner: name the runner's part, "
                               "or leave this line out.")
