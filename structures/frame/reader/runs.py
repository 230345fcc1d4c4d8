"""Purlin runs: lengthwise lines of sticks with a fitting at each end."""

from __future__ import annotations

from collections.abc import Mapping

from structures.frame.family import Part, PurlinRun
from structures.frame.reader.access import NAN, Table, once
from structures.frame.reader.stations import NAME


def read_runs(top: Table, parts: Mapping[str, Part]) -> tuple[PurlinRun, ...]:
    """Read [[runs]]."""
    tables = top.tables("runs", "code")
    once(top.problems, tables, "code")
    return tuple(_run(table, parts) for table in tables)


def _run(table: Table, parts: Mapping[str, Part]) -> PurlinRun:
    stick = table.text("stick", like="PS131-106")
    length = parts[stick].length_in if stick in parts else None
    run = PurlinRun(
        code=table.text("code", pattern=NAME, like="purlin"),
        name=table.text("name"),
        station=table.text("station", like="hip"),
        stick=stick,
        stick_in=NAN if length is None else length,
        swage_in=table.length("swage", most=60.0),
        near_end=table.text("near_end", like="PE131-10"),
        far_end=table.text("far_end", like="PE131-10"),
        end_lay_in=table.length("end_lay", least=0.5, most=600.0),
        near_swaged=table.flag("near_swaged"),
        far_swaged=table.flag("far_swaged"),
        swages_point=table.choice("swages_point", ("away", "toward")),
        joint_clear_in=table.length("joint_clear"),
        connector=table.text("connector", like="connector"),
        end_bands=table.text("end_bands", like="end-band"),
        slip=table.text("slip", like="joint-screw"),
        bands_per_end=table.whole("bands_per_end", 2, most=4),
        band_gap_in=table.length("band_gap", 0.0, most=24.0),
        saw_end=table.choice("saw_end", ("swaged", "plain"), "swaged"),
        option=table.text("option", ""),
    )
    table.done()
    if run.code in ("side", "roof"):
        table.wrong("code", "code that a run can have", "bays have a side and a roof already, so another word would do")
    _note_ends(table, run)
    _note_lays(table, run, parts)
    return run


def _note_ends(table: Table, run: PurlinRun) -> None:
    """A slip joint needs one plain and one swaged end; two of a kind facing each other are refused."""
    near_stick = run.swages_point == "toward"
    far_stick = run.swages_point == "away" and run.saw_end != "swaged"
    facing = [("near_swaged", "tag-end fitting", "first stick", run.near_swaged, near_stick),
              ("far_swaged", "far-end fitting", "last stick", run.far_swaged, far_stick)]
    for key, one, other, fitting_swaged, stick_swaged in facing:
        if run.swages_point and fitting_swaged == stick_swaged:
            table.problems.add(
                "ends-facing", table.key(key), "{key} = {given}: the {one} and the {other} face each other with two "
                "{ends} ends: write {key} = {would}, or turn the sticks with swages_point or saw_end.",
                given="true" if fitting_swaged else "false", one=one, other=other,
                ends="swaged" if fitting_swaged else "plain", would="false" if fitting_swaged else "true",
            )
    if run.swages_point == "toward" and run.saw_end == "swaged":
        table.problems.add("ends-facing", table.key("saw_end"), '{key} = "swaged" takes away the swage that joins the last '
                           'stick to the one before it: write {key} = "plain".')


def _note_lays(table: Table, run: PurlinRun, parts: Mapping[str, Part]) -> None:
    """A stick is longer than its swage; an end fitting is as long as its lay and its swage."""
    if run.stick_in <= run.swage_in:
        table.problems.add("stick-short", table.key("swage"), "{key} = {swage_in} leaves nothing of stick {part}, which is "
                           "{stick_in} long: less than that would do.", swage_in=run.swage_in, part=run.stick,
                           stick_in=run.stick_in)
    for key, number, swaged in (("near_end", run.near_end, run.near_swaged), ("far_end", run.far_end, run.far_swaged)):
        part = parts.get(number)
        if part is None or part.length_in is None:
            continue
        should = run.end_lay_in + (run.swage_in if swaged else 0.0)
        if abs(part.length_in - should) > 0.25:
            table.problems.add("end-length", table.key(key), "{key} = {given} is {made_in} long, and end_lay with its swage "
                               "makes {should_in}: change one of them.", given=f'"{number}"', made_in=part.length_in,
                               should_in=should)
