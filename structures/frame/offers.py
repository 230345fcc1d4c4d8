"""How a configuration stands to each option of its family: included, or which kind of no, and what it brings or would bring."""

from __future__ import annotations

import dataclasses
from collections import Counter

from structures.frame.build import Frame, put_together
from structures.frame.choose import not_made
from structures.frame.document import OptionAnswer
from structures.frame.family import Family, Option
from structures.frame.said import Said

OFFERED = "offered, not bought"
Counts = tuple[Counter[str], Counter[str]]       # pieces and bands, by the code of the option that they belong to


def answer_options(frame: Frame) -> tuple[OptionAnswer, ...]:
    """An answer for each option, in the family's order."""
    has = _count(frame)
    return tuple(_answer(frame, option, has) for option in frame.family.options)


def _answer(frame: Frame, option: Option, has: Counts) -> OptionAnswer:
    included = option.code in frame.configuration.options
    because, words = ("", Said("")) if included else _kind_of_no(frame, option)
    counts = _would_have(frame, option) if because == OFFERED else has
    pieces, bands = (count[option.code] for count in counts)
    return OptionAnswer(option.code, option.name, included, option.offer == "standard", because, words, pieces, bands)


def _kind_of_no(frame: Frame, option: Option) -> tuple[str, Said]:
    if option.replaced_by:
        return "replaced", Said("Replaced by {by}.", {"by": option.replaced_by})
    if option.offer == "not offered":
        return "not made for this size", Said("{note}", {"note": option.note or "Not offered in this revision."})
    said = not_made(option, frame.length_in, frame.spacing_in)
    if said:
        return "not made for this size", Said(f"Not made for this size: {said.template}.", said.values)
    return OFFERED, Said("Offered, not bought.")


def _would_have(frame: Frame, option: Option) -> Counts:
    """What a frame with one option more would have of it; none where it could not be put together.

    Only the hoops and what belongs to the option are put together, for nothing else is counted. Whether its pieces have room
    beside all the others is asked when somebody wants it. One-off changes may name any piece, so with these all are put in.
    """
    family, configuration = frame.family, frame.configuration
    options = (configuration.options | {option.code, *option.needs}) - {*option.excludes}
    only = family if configuration.one_offs else _only(family, option.code)
    if not (only.runs or only.chains or only.ties or only.strips):
        return Counter(), Counter()
    would = put_together(only, dataclasses.replace(configuration, options=options))
    return (Counter(), Counter()) if would.refusals else _count(would)


def _only(family: Family, code: str) -> Family:
    """A family with nothing but its hoops and what an option brings: film, channel and fixtures are no pieces and have no bands.

    Chains share bays, so where the option has one all of them stay; a web belongs to its tie.
    """
    braced = any(chain.option == code for chain in family.chains)
    return dataclasses.replace(
        family, posts=None, made_bases={}, film=(), fixtures=(),
        runs=tuple(run for run in family.runs if run.option == code),
        chains=family.chains if braced else (),
        ties=tuple(ties for ties in family.ties if code in (ties.option, *(web.option for web in ties.webs))),
        strips=tuple(strip for strip in family.strips if strip.option == code and strip.splice),
        end_walls={name: dataclasses.replace(wall, uprights_in=(), door=None) for name, wall in family.end_walls.items()},
    )


def _count(frame: Frame) -> Counts:
    return (Counter(piece.option for piece in frame.pieces()),
            Counter(joint.option for joint in frame.joints if joint.kind == "band"))
