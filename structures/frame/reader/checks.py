"""What has to fit together across the blocks of one file: every name that is used exists, and lengths add up."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass

from structures.frame.family import (
    Allowance,
    Base,
    Chain,
    EndWall,
    FilmSheet,
    FittingSet,
    Fixture,
    Hoop,
    Option,
    Part,
    Posts,
    PurlinRun,
    Station,
    Strip,
    TieSet,
    Tube,
)
from structures.frame.reader.access import Problems, shown

NEEDED = ("tube", "part", "fitting", "end wall")      # what no family can do without


@dataclass(frozen=True, slots=True)
class Blocks:
    """All blocks of a file, each read on its own."""

    tubes: Mapping[str, Tube]
    parts: Mapping[str, Part]
    fittings: Mapping[str, FittingSet]
    stations: Mapping[str, Station]
    hoop: Hoop
    posts: Posts | None
    ends: tuple[str, ...]
    end_walls: Mapping[str, EndWall]
    runs: tuple[PurlinRun, ...]
    chains: tuple[Chain, ...]
    ties: tuple[TieSet, ...]
    strips: tuple[Strip, ...]
    film: tuple[FilmSheet, ...]
    allowances: tuple[Allowance, ...]
    options: tuple[Option, ...]
    bases: Mapping[str, Base]
    fixtures: tuple[Fixture, ...]


def check_names(problems: Problems, blocks: Blocks) -> None:
    """Refuse every name that is used and not defined."""
    known: dict[str, Iterable[str]] = {
        "tube": blocks.tubes, "part": blocks.parts, "fitting": blocks.fittings, "station": blocks.stations,
        "end wall": blocks.end_walls, "option": [option.code for option in blocks.options],
        "role": [part.role for part in blocks.parts.values()], "strip": [strip.code for strip in blocks.strips],
    }
    for what, key, word in _uses(blocks):
        if what in NEEDED and not known[what]:      # the whole block is missing, which was said
            continue
        if word and word not in _container(known[what]):
            problems.unknown(key, word, known[what], what)


def _container(words: Iterable[str]) -> Container[str]:
    return words if isinstance(words, Mapping) else set(words)


Use = tuple[str, str, str]          # what it names, the key it stands at, the word


def _uses(blocks: Blocks) -> Iterable[Use]:
    yield from _uses_of_parts(blocks)
    yield from _uses_of_hoops(blocks)
    yield from _uses_of_bases(blocks)
    yield from _uses_of_braces(blocks)
    yield from _uses_of_skin(blocks)
    yield from _uses_of_strips(blocks)


def _uses_of_parts(blocks: Blocks) -> Iterable[Use]:
    for number, part in blocks.parts.items():
        yield "tube", f"parts.{number}.tube", part.tube
    for code, fitting in blocks.fittings.items():
        for number, _ in fitting.parts:
            yield "part", f"fittings.{code}.parts", number
    for option in blocks.options:
        for word in option.needs:
            yield "option", f"options.{option.code}.needs", word
        for word in option.excludes:
            yield "option", f"options.{option.code}.excludes", word


def _uses_of_hoops(blocks: Blocks) -> Iterable[Use]:
    yield "tube", "hoop.tube", blocks.hoop.tube
    for number in dict.fromkeys(blocks.hoop.sections):
        yield "part", "hoop.sections", number
    for seam in blocks.hoop.seams:
        yield "fitting", f"hoop.seams.{seam.side}.fitting", seam.fitting
    if blocks.posts is not None:
        yield "part", "posts.part", blocks.posts.part
        yield "fitting", "posts.fitting", blocks.posts.fitting
    for run in blocks.runs:
        at = f"runs.{run.code}"
        yield "station", f"{at}.station", run.station
        for key, number in (("stick", run.stick), ("near_end", run.near_end), ("far_end", run.far_end)):
            yield "part", f"{at}.{key}", number
        for key, code in (("connector", run.connector), ("end_bands", run.end_bands), ("slip", run.slip)):
            yield "fitting", f"{at}.{key}", code
        yield "option", f"{at}.option", run.option


def _uses_of_bases(blocks: Blocks) -> Iterable[Use]:
    for code, base in blocks.bases.items():
        yield "part", f"bases.{code}.runner", base.runner
        yield "fitting", f"bases.{code}.splice", base.splice
        yield "fitting", f"bases.{code}.foot", base.foot
    for fixture in blocks.fixtures:
        at = f"fixtures.{fixture.code}"
        yield "fitting", f"{at}.fitting", fixture.fitting
        yield "station", f"{at}.station", fixture.station
        yield "option", f"{at}.option", fixture.option


def _uses_of_braces(blocks: Blocks) -> Iterable[Use]:
    for chain in blocks.chains:
        at = f"chains.{chain.code}"
        for landing in chain.landings:
            yield "station", f"{at}.landings.{landing.station}.station", landing.station
        for role in chain.roles:
            yield "role", f"{at}.roles", role
        yield "fitting", f"{at}.fitting", chain.fitting
        yield "fitting", f"{at}.pass_fitting", chain.pass_fitting
        yield "option", f"{at}.option", chain.option
    for tie in blocks.ties:
        at = f"ties.{tie.code}"
        yield "role", f"{at}.role", tie.role
        yield "fitting", f"{at}.fitting", tie.fitting
        yield "station", f"{at}.station", tie.station
        yield "option", f"{at}.option", tie.option
        for web in tie.webs:
            yield "role", f"{at}.webs.{web.role}.role", web.role
            yield "station", f"{at}.webs.{web.role}.station", web.station
            yield "fitting", f"{at}.webs.{web.role}.tie_fitting", web.tie_fitting
            yield "fitting", f"{at}.webs.{web.role}.hoop_fitting", web.hoop_fitting
            yield "option", f"{at}.webs.{web.role}.option", web.option


def _uses_of_skin(blocks: Blocks) -> Iterable[Use]:
    for word in dict.fromkeys(blocks.ends):
        yield "end wall", "size.ends", word
    for code, wall in blocks.end_walls.items():
        yield "fitting", f"end_walls.{code}.upright_fitting", wall.upright_fitting
        if wall.door:
            yield "fitting", f"end_walls.{code}.door.fitting", wall.door.fitting
            yield "option", f"end_walls.{code}.door.option", wall.door.option
    for sheet in blocks.film:
        at = f"film.{sheet.code}"
        yield "part", f"{at}.part", sheet.part
        yield "station", f"{at}.from_station", sheet.from_station
        yield "option", f"{at}.option", sheet.option
    for allowance in blocks.allowances:
        yield "part", f"allowances.{allowance.part}.part", allowance.part
        yield "option", f"allowances.{allowance.part}.option", allowance.option


def _uses_of_strips(blocks: Blocks) -> Iterable[Use]:
    for strip in blocks.strips:
        at = f"strips.{strip.code}"
        yield "part", f"{at}.part", strip.part
        yield "station", f"{at}.station", strip.station
        yield "fitting", f"{at}.fixing", strip.fixing
        yield "fitting", f"{at}.splice", strip.splice
        yield "strip", f"{at}.on", strip.on
        yield "option", f"{at}.option", strip.option


def check_kinds(problems: Problems, blocks: Blocks) -> None:
    """A part stands where its kind and role belong: a section in a hoop, a stick in a run, film on a sheet."""
    for key, number, kind, role in _places_of_parts(blocks):
        part = blocks.parts.get(number)
        if part is None:
            continue
        if part.kind and part.kind not in kind.split(" or "):
            problems.add("part-kind", key, "{key} = {given} is a part of kind {kind}: name one of kind {wanted}, or change "
                         "parts.{number}.kind.", given=shown(number), kind=part.kind, wanted=kind, number=number)
        elif role and part.role and part.role != role:
            problems.add("part-role", key, "{key} = {given} is a part with the role {role}: name one with the role {wanted}, or "
                         "change parts.{number}.role.", given=shown(number), role=part.role, wanted=role, number=number)


def _places_of_parts(blocks: Blocks) -> Iterable[tuple[str, str, str, str]]:
    """The key, the part's number, the kind it must be of ("one or another") and the role it must have ("" for any)."""
    for number in dict.fromkeys(blocks.hoop.sections):
        yield "hoop.sections", number, "tube", "section"
    if blocks.posts is not None:
        yield "posts.part", blocks.posts.part, "tube", "post"
    for run in blocks.runs:
        yield f"runs.{run.code}.stick", run.stick, "tube", "stick"
        yield f"runs.{run.code}.near_end", run.near_end, "tube", "end"
        yield f"runs.{run.code}.far_end", run.far_end, "tube", "end"
    roles = {role: f"chains.{chain.code}.roles" for chain in blocks.chains for role in chain.roles}
    roles |= {tie.role: f"ties.{tie.code}.role" for tie in blocks.ties}
    roles |= {web.role: f"ties.{tie.code}.webs.{web.role}.role" for tie in blocks.ties for web in tie.webs}
    for number, part in blocks.parts.items():
        if part.role in roles:
            yield roles[part.role], number, "tube", ""
    for code, base in blocks.bases.items():
        yield f"bases.{code}.runner", base.runner, "tube", "runner"
    for strip in blocks.strips:
        yield f"strips.{strip.code}.part", strip.part, "lengthwise or tube" if strip.role else "lengthwise", strip.role
    for sheet in blocks.film:
        yield f"film.{sheet.code}.part", sheet.part, "film", ""


def check_lengths(problems: Problems, blocks: Blocks) -> None:
    """Lengthwise stock has a length of stock."""
    for strip in blocks.strips:
        part = blocks.parts.get(strip.part)
        if part is not None and part.length_in is None:
            problems.add("stock-length", f"parts.{strip.part}.length", "{key} is missing, and strip {strip} is made of it: write "
                         "the length that it comes in.", strip=strip.code)


def check_options(problems: Problems, blocks: Blocks) -> None:
    """An option that can be had must bring something, and can stand beside what it needs."""
    used = {item.option for group in (blocks.runs, blocks.chains, blocks.ties, blocks.strips, blocks.film,
                                      blocks.allowances, blocks.fixtures) for item in group}
    used |= {web.option for tie in blocks.ties for web in tie.webs}
    used |= {wall.door.option for wall in blocks.end_walls.values() if wall.door}
    for option in blocks.options:
        if option.code and option.offer in ("standard", "optional") and option.code not in used:
            problems.add("option-empty", f"options.{option.code}.offer", '{key} = {given}, and nothing in the file has '
                         'option = "{option}": give it a piece, or write offer = "not offered".',
                         given=f'"{option.offer}"', option=option.code)
        _check_company(problems, option, {other.code: other for other in blocks.options})


def _check_company(problems: Problems, option: Option, known: Mapping[str, Option]) -> None:
    """An option that can be had needs none that can't, and standard options can stand beside one another."""
    if option.offer == "not offered":
        return
    for code in option.needs:
        if code in known and known[code].offer == "not offered":
            problems.add("option-needs", f"options.{option.code}.needs", "{key} = {given}, which is not offered: leave it out, "
                         "or offer it.", given=shown(code))
    for code in option.excludes:
        if code in known and option.offer == known[code].offer == "standard":
            problems.add("option-excludes", f"options.{option.code}.excludes", "{key} = {given}, and both are standard: make one "
                         "of them optional.", given=shown(code))
