"""Cautions, each for the steps that it belongs to. They are said there and nowhere else."""

from __future__ import annotations

from collections.abc import Iterable

from structures.frame.document import Joint
from structures.frame.said import Said

LADDER_OVER_IN = 72.0     # work higher than this is done from a ladder; common practice, no source
LINES_CLEAR_IN = 120.0
RAISED_BY_THREE_IN = 240.0

BURIED = Said("Have buried services located before anything is driven or dug.")
OVERHEAD = Said("Look up before lifting long tube: stay {clear_in} or more off every line.", {"clear_in": LINES_CLEAR_IN})
LOOSE_END = Said("Tie the loose end at once, and let nobody stand beneath it.")
WONT_MEET = Said("If it won't meet, stop: check the spacing, then the length. Don't drill, cut or force it.")
SAW = Said("Saw galvanised tube outdoors, eyes and hands covered, with no torch; then file the cut end and coat it with "
           "zinc-rich paint.")
NO_FILM = Said("No film in wind, and none on a half-braced frame.")
NO_CLIMBING = Said("Nobody climbs on or hangs from purlins, ties or hoops.")
BENT = Said("Don't loosen a bolt on a bent or leaning frame.")
LEAVE = Said("Leave first and report second at a kink, a creak, a lean, a smell of gas, water near power, or anything that touches a "
             "wire.")
WHO_DECIDES = Said("Local codes, the maker and licensed practice decide how it is held down.")
MAINS = Said("Local codes and licensed practice decide how mains power is brought to it.")
CROWD = Said("Hoops {width_in} wide are raised by three or more people: one at each leg, one pushing the crown.")


def at_height(height_in: float) -> tuple[Said, ...]:
    """What is said of work at a height."""
    if height_in <= LADDER_OVER_IN:
        return ()
    return Said("The work reaches {height_in} above the ground: a ladder and two people.", {"height_in": height_in}), NO_CLIMBING


def high(joints: Iterable[Joint]) -> tuple[Said, ...]:
    """What is said of the height of the highest of these joints."""
    return at_height(max((joint.at[2] for joint in joints), default=0.0))


def crowd(width_in: float) -> tuple[Said, ...]:
    """What is said of raising whole hoops of that width."""
    if width_in < RAISED_BY_THREE_IN - 1e-6:
        return ()
    return (Said(CROWD.template, {"width_in": width_in}),)
