"""Webs: the tubes from a tie up to its hoop."""

from __future__ import annotations

from structures.frame.family import Web
from structures.frame.reader.access import Table


def read_webs(table: Table) -> tuple[Web, ...]:
    """Read [[ties.webs]] of one entry of [[ties]]."""
    webs = []
    for item in table.tables("webs", "role"):
        webs.append(Web(
            role=item.text("role", like="web"),
            from_middle_in=item.length("from_middle"),
            station=item.text("station", like="high"),
            tie_fitting=item.text("tie_fitting", like="web-tie-band"),
            hoop_fitting=item.text("hoop_fitting", like="web-band"),
            option=item.text("option", ""),
        ))
        item.done()
    return tuple(webs)
