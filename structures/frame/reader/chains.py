"""Brace chains and ties."""

from __future__ import annotations

import dataclasses

from structures.frame.family import Chain, Landing, TieSet
from structures.frame.reader.access import Table, once, shown
from structures.frame.reader.stations import NAME
from structures.frame.reader.webs import note_hole, read_webs


def read_chains(top: Table) -> tuple[Chain, ...]:
    """Read [[chains]]."""
    tables = top.tables("chains", "code")
    once(top.problems, tables, "code")
    return tuple(_chain(table) for table in tables)


def _chain(table: Table) -> Chain:
    landings = tuple(_landing(item) for item in table.tables("landings", "station", required=True))
    chain = Chain(
        code=table.text("code", pattern=NAME, like="side"),
        zone=table.choice("zone", ("side", "roof")),
        option=table.text("option", ""),
        landings=landings,
        roles=table.texts("roles"),
        fitting=table.text("fitting", like="brace-band"),
        flat_in=table.length("flat", most=24.0),
        flat_width_in=table.length("flat_width", most=24.0),
        flat_round_in=table.length("flat_round", most=24.0),
        twist_made=table.choice("twist_made", ("press", "site")),
        slack_deg=table.number("slack_deg", most=90.0),
        where=table.choice("where", ("corners", "mid-length"), "corners"),
        over_in=table.length("over", 0.0),
        may_share_bay=table.flag("may_share_bay", False),
        flat_hole_in=table.optional_length("flat_hole", least=0.01),
        one_piece=table.flag("one_piece", False),
        pass_fitting=table.text("pass_fitting", "", like="pass-band"),
        pass_room_in=table.length("pass_room", 0.0, most=24.0),
    )
    table.done()
    note_hole(table, chain.flat_hole_in, chain.flat_width_in)
    _note_passing(table, chain)
    if landings:
        _note_landings(table, chain)
    return chain


def _landing(item: Table) -> Landing:
    landing = Landing(item.whole("hoop", most=20), item.text("station", like="hip"), item.flag("set", False))
    item.done()
    return landing


def _note_landings(table: Table, chain: Chain) -> None:
    """One landing is set, and the landings make as many pieces as there are roles."""
    count = sum(landing.set for landing in chain.landings)
    if count != 1:
        table.problems.add("chain-set", table.key("landings"), "{key}: set = true stands at {count} of them: give it to one, "
                           "from which the others follow.", count=count or "none")
    if chain.one_piece:
        _note_one_piece(table, chain)
    else:
        _note_pieces(table, chain)


def _note_pieces(table: Table, chain: Chain) -> None:
    """A piece spans one bay, from hoop to next hoop, and each has its role."""
    steps = [b.hoop - a.hoop for a, b in zip(chain.landings, chain.landings[1:], strict=False)]
    if not steps or any(abs(step) != 1 or step != steps[0] for step in steps):
        table.problems.add("chain-steps", table.key("landings"), "{key} goes over hoops {hoops}: name at least two hoops "
                           "one after the other, since a piece spans one bay, or write one_piece = true.", hoops=_hoops(chain))
    elif chain.roles and len(chain.roles) != len(steps):
        table.problems.add("chain-roles", table.key("roles"), "{key} = {given}, and the landings make {pieces} pieces: name one "
                           "role for each piece, in the order of the landings.", given=shown(list(chain.roles)),
                           pieces=len(steps))


def _note_one_piece(table: Table, chain: Chain) -> None:
    """One tube has two ends and one role, and passes at least one hoop."""
    if len(chain.landings) != 2 or abs(chain.landings[-1].hoop - chain.landings[0].hoop) < 2:
        table.problems.add("chain-one-piece", table.key("landings"), "{key} goes over hoops {hoops}, and one_piece = true: name "
                           "its two ends, with at least one hoop between that it passes.", hoops=_hoops(chain))
    if len(chain.roles) > 1:
        table.problems.add("chain-roles", table.key("roles"), "{key} = {given}, and one_piece = true: name one role.",
                           given=shown(list(chain.roles)))


def _note_passing(table: Table, chain: Chain) -> None:
    """What clamps a chain to the hoops that it passes goes with a chain in one piece, and with no other."""
    if chain.one_piece and not chain.pass_fitting:
        table.missing("pass_fitting", "name the fitting that clamps the piece to the hoops it passes")
    for name in ("pass_fitting", "pass_room"):
        if not chain.one_piece and table.has(name):
            table.problems.add("chain-passes", table.key(name), "{key} = {given} is for a chain in one piece: write one_piece = true, "
                               "or leave this line out.", given=shown(table.data[name]))


def _hoops(chain: Chain) -> str:
    return ", ".join(str(landing.hoop) for landing in chain.landings)


def read_ties(top: Table) -> tuple[TieSet, ...]:
    """Read [[ties]]."""
    tables = top.tables("ties", "code")
    once(top.problems, tables, "code")
    ties = []
    for table in tables:
        item = TieSet(
            code=table.text("code", pattern=NAME, like="ties"),
            option=table.text("option", ""),
            role=table.text("role", like="tie"),
            hoops=table.choice("hoops", ("all", "inner", "even inner", "odd inner")),
            fitting=table.text("fitting", like="brace-band"),
            flat_in=table.length("flat", most=24.0),
            flat_width_in=table.length("flat_width", most=24.0),
            flat_round_in=table.length("flat_round", most=24.0),
            station=table.text("station", ""),
            flat_hole_in=table.optional_length("flat_hole", least=0.01),
        )
        ties.append(dataclasses.replace(item, webs=read_webs(table, item)))
        table.done()
        note_hole(table, item.flat_hole_in, item.flat_width_in)
    return tuple(ties)
