"""Family files: strict TOML in, a `Family` out, or every error at once in a sentence each."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping

from structures.frame.family import Family, Shape
from structures.frame.profile import Profile
from structures.frame.reader.access import Problems, Table
from structures.frame.reader.bases import read_bases
from structures.frame.reader.chains import read_chains, read_ties
from structures.frame.reader.checks import Blocks, check_kinds, check_lengths, check_names, check_options
from structures.frame.reader.clashes import clashes
from structures.frame.reader.fit import check_film, check_holes, check_roles, check_sections, check_webs
from structures.frame.reader.fixtures import read_fixtures
from structures.frame.reader.hoop import read_hoop, read_posts
from structures.frame.reader.parts import read_fittings, read_parts, read_tubes
from structures.frame.reader.runs import read_runs
from structures.frame.reader.shape import read_shape
from structures.frame.reader.sizes import Sizes, read_options, read_sizes
from structures.frame.reader.skin import read_allowances, read_end_walls, read_film
from structures.frame.reader.stations import read_places
from structures.frame.reader.strips import read_strips
from structures.frame.refusal import Refusal, Refused

__all__ = ["read_families", "read_family"]

NOT_RATED = "not rated, ask the maker"
# A family of every option takes a tenth of this, in lines a quarter as long. What is longer was not written by hand, and
# a key of very many dotted parts would take the memory of the machine before anything in it could be refused.
MOST_LETTERS = 200_000
LONGEST_LINE = 500


def read_families(texts: Mapping[str, str]) -> dict[str, Family]:
    """Read several files, each under its own name. Raises `Refused` with the errors of all of them and their clashes."""
    families: dict[str, Family] = {}
    refusals: list[Refusal] = []
    for source, text in texts.items():
        try:
            families[source] = read_family(text, source=source)
        except Refused as refused:
            refusals.extend(refused.refusals)
    refusals.extend(clashes(families))
    if refusals:
        raise Refused(refusals)
    return families


def read_family(text: str, *, source: str) -> Family:
    """Read one family file; `source` is its name for the sentences. Raises `Refused` with all errors at once."""
    problems = Problems(source)
    _refuse_masses(problems, text)
    try:
        data = tomllib.loads(text)
    except (ValueError, RecursionError) as error:   # TOML's own error is a ValueError, and so is a number of too many figures
        problems.add("toml-unread", "", "the file can't be read as TOML: {why}; mend it there.", why=str(error))
        raise Refused(problems.found) from None
    top = Table(data, "", problems)
    shape, profile, crown_clear = read_shape(top)
    blocks, sizes = _read_blocks(top, profile)
    family = _family(top, shape, profile, blocks, sizes, crown_clear)
    top.done()
    check_names(problems, blocks)
    check_kinds(problems, blocks)
    check_lengths(problems, blocks)
    check_options(problems, blocks)
    check_film(problems, blocks, profile.half_in)
    check_sections(problems, blocks, shape, family.developed_in)
    check_holes(problems, blocks)
    check_webs(problems, blocks)
    check_roles(problems, blocks, sizes.spacings_in)
    if problems.found:
        raise Refused(problems.found)
    return family


def _refuse_masses(problems: Problems, text: str) -> None:
    """Raise `Refused` for what no family file can be, before it is taken apart."""
    if len(text) > MOST_LETTERS:
        problems.add("file-long", "", "the file has {letters} letters: {most} at most would do.",
                     letters=f"{len(text):,}", most=f"{MOST_LETTERS:,}")
    else:
        for number, line in enumerate(text.split("\n"), 1):
            if len(line) > LONGEST_LINE:
                problems.add("line-long", "", "line {number} has {letters} letters: break it up into lines of {most} at most.",
                             number=number, letters=f"{len(line):,}", most=LONGEST_LINE)
    if problems.found:
        raise Refused(problems.found)


def _read_blocks(top: Table, profile: Profile) -> tuple[Blocks, Sizes]:
    places, stations = read_places(top, profile.half_in)
    parts = read_parts(top)
    sizes = read_sizes(top)
    end_walls = read_end_walls(top)
    return Blocks(
        tubes=read_tubes(top),
        parts=parts,
        fittings=read_fittings(top),
        stations=stations,
        hoop=read_hoop(top, places),
        posts=read_posts(top),
        ends=sizes.ends,
        end_walls=end_walls,
        runs=read_runs(top, parts),
        chains=read_chains(top),
        ties=read_ties(top),
        strips=read_strips(top, parts, places),
        film=read_film(top),
        allowances=read_allowances(top),
        options=read_options(top),
        bases=read_bases(top, parts, sizes.bases),
        fixtures=read_fixtures(top),
    ), sizes


def _family(
    top: Table, shape: Shape, profile: Profile, blocks: Blocks, sizes: Sizes, crown_clear_in: float
) -> Family:
    ends = sizes.ends or (next(iter(blocks.end_walls), ""),) * 2
    return Family(
        code=top.text("code", pattern=r"[A-Z][A-Z0-9]{1,11}", like="G26"),
        name=top.text("name"),
        title=top.text("title"),
        revision=top.text("revision", pattern=r"[A-Z0-9]{1,4}", like="D"),
        effective=top.day("effective"),
        changed=top.text("changed"),
        rated_wind=top.text("rated_wind", NOT_RATED),
        rated_snow=top.text("rated_snow", NOT_RATED),
        shape=shape,
        developed_in=2 * profile.half_in,
        stations=blocks.stations,
        tubes=blocks.tubes,
        parts=blocks.parts,
        fittings=blocks.fittings,
        hoop=blocks.hoop,
        posts=blocks.posts,
        spacings_in=sizes.spacings_in,
        shortest_in=sizes.shortest_in,
        longest_in=sizes.longest_in,
        bases=sizes.bases,
        end_walls=blocks.end_walls,
        default_ends=(ends[0], ends[-1]),
        runs=blocks.runs,
        chains=blocks.chains,
        ties=blocks.ties,
        strips=blocks.strips,
        film=blocks.film,
        allowances=blocks.allowances,
        options=blocks.options,
        crown_clear_in=crown_clear_in,
        made_bases=blocks.bases,
        fixtures=blocks.fixtures,
    )
