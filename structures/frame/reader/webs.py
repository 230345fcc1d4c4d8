"""Webs: the tubes from a tie up to its hoop."""

from __future__ import annotations

from structures.frame.family import TieSet, Web
from structures.frame.reader.access import Table


def read_webs(table: Table, ties: TieSet) -> tuple[Web, ...]:
    """Read [[ties.webs]] of one entry of [[ties]]. What it doesn't say of its flattened ends is as the ties'."""
    webs = []
    for item in table.tables("webs", "role"):
        webs.append(Web(
            role=item.text("role", like="web"),
            from_middle_in=item.length("from_middle"),
            station=item.text("station", like="high"),
            tie_fitting=item.text("tie_fitting", like="web-tie-band"),
            hoop_fitting=item.text("hoop_fitting", like="web-band"),
            flat_in=item.length("flat", ties.flat_in, most=24.0),
            flat_width_in=item.length("flat_width", ties.flat_width_in, most=24.0),
            flat_round_in=item.length("flat_round", ties.flat_round_in, most=24.0),
            flat_hole_in=item.optional_length("flat_hole", least=0.01) if item.has("flat_hole") else ties.flat_hole_in,
            option=item.text("option", ""),
        ))
        item.done()
        if item.has("flat_hole") or item.has("flat_width"):
            note_hole(item, webs[-1].flat_hole_in, webs[-1].flat_width_in)
    return tuple(webs)


def note_hole(table: Table, hole_in: float | None, width_in: float) -> None:
    """A flattened end is wider than the hole in it."""
    if hole_in is not None and hole_in >= width_in:
        table.problems.add("flat-hole", table.key("flat_hole"), "{key} = {hole_in} leaves nothing of a flat {width_in} wide: "
                           "less than that would do.", hole_in=hole_in, width_in=width_in)
