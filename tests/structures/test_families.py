"""The demo's family files: all of them read, none clash, and they say what the invented maker makes."""

import re

import pytest

from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.lengths import MM_PER_INCH, feet_inches, read_length
from structures.frame.reader import read_families
from structures.frame.refusal import Refused
from tests.structures.family_texts import FAMILIES, changed, text_of

NAMES = sorted(path.stem for path in FAMILIES.glob("*.toml"))
LATEST = ["r14-a", "g20-b", "g26-d", "g30-b"]


@pytest.fixture(scope="module")
def families():
    return read_families({name: text_of(name) for name in NAMES})


def test_every_revision_is_there_under_its_own_file(families):
    assert NAMES == ["g20-a", "g20-b", "g26-a", "g26-b", "g26-c", "g26-d", "g30-a", "g30-b", "r14-a"]
    assert {name: f"{family.code}-{family.revision}".lower() for name, family in families.items()} == {n: n for n in NAMES}
    assert [families[name].effective.year for name in NAMES] == [2015, 2020, 2016, 2018, 2019, 2021, 2018, 2022, 2017]


@pytest.mark.parametrize(("code", "figures"), [
    ("r14", ("round", "14-0", "1-6", "7-0", "8-6", "24-11 7/8", "12-5 15/16", "3-0")),
    ("g20", ("gothic", "20-0", "3-6", "4-6", "11-0 3/8", "33-6 1/2", "16-9 1/4", "4-0")),
    ("g26", ("gothic", "26-0", "4-0", "5-0", "13-2 15/16", "41-7 15/16", "20-10", "4-6")),
    ("g30", ("gothic", "30-0", "4-6", "5-6", "15-0", "47-6 7/8", "23-9 7/16", "5-0")),
])
def test_shapes_to_the_sixteenth(families, code, figures):
    for name in (name for name in NAMES if name.startswith(code)):
        family = families[name]
        shape, ridge = family.shape, family.stations["ridge"].from_foot_in
        lengths = (shape.width_in, shape.leg_in, shape.radius_in, shape.peak_in, family.developed_in, ridge,
                   family.stations["hip"].from_foot_in)
        assert (shape.kind, *map(feet_inches, lengths)) == figures
        assert family.stations["brace-hip"].from_foot_in == family.stations["hip"].from_foot_in - 3


@pytest.mark.parametrize(("name", "developed", "peak"), [
    ("r14-a", 299.894, 102.0), ("g20-b", 402.529, 132.359), ("g26-d", 499.941, 158.968), ("g30-b", 570.872, 179.982),
])
def test_shapes_to_the_thousandth(families, name, developed, peak):
    assert families[name].developed_in == pytest.approx(developed, abs=0.0006)
    assert families[name].shape.peak_in == pytest.approx(peak, abs=0.0006)


def test_tubes_runs_and_seams(families):
    def row(name):
        family = families[name]
        hoop = family.tubes[family.hoop.tube]
        runs = [feet_inches(family.stations[run.station].from_foot_in) for run in family.runs if run.station != "ridge"]
        seams = [(seam.side, feet_inches(seam.from_foot_in)) for seam in family.hoop.seams]
        return hoop.diameter_in, hoop.wall_in, runs, seams, family.hoop.put_up, len(family.hoop.sections)

    assert {name: row(name) for name in LATEST} == {
        "r14-a": (1.66, 0.083, [], [("ridge", "12-5 15/16")], "whole", 2),
        "g20-b": (1.66, 0.083, ["7-6"], [("right", "16-3 1/4")], "whole", 2),
        "g26-d": (1.9, 0.083, ["8-8"], [("both", "12-0")], "sides first", 3),
        "g30-b": (1.9, 0.083, ["9-0", "16-5"], [("both", "13-0")], "sides first", 3),
    }


def test_what_each_revision_offers(families):
    offers = {name: {option.code: option.offer for option in family.options} for name, family in families.items()}
    assert {name: offer["roof-braces"] for name, offer in offers.items()} == {
        "r14-a": "not offered", "g20-a": "not offered", "g20-b": "standard", "g26-a": "not offered", "g26-b": "not offered",
        "g26-c": "not offered", "g26-d": "standard", "g30-a": "standard", "g30-b": "standard",
    }
    assert [name for name in NAMES if offers[name]["ties"] == "standard"] == [n for n in NAMES if n not in ("g26-a", "r14-a")]
    assert [name for name in NAMES if offers[name]["snow-ties"] == "optional"] == ["g20-a", "g20-b", "g26-b", "g26-c", "g26-d"]
    assert [name for name in NAMES if offers[name]["mid-braces"] == "standard"] == ["g30-a", "g30-b"]
    assert all(offer["side-braces"] == offer["channel"] == "standard" for offer in offers.values())
    assert families["g26-a"].spacings_in == (72.0,)
    assert [ties.hoops for name in ("g30-a", "g30-b") for ties in families[name].ties] == ["even inner", "inner"]


def test_each_no_says_which_kind_it_is(families):
    options = {(name, option.code): option for name, family in families.items() for option in family.options}
    assert options["g26-d", "mid-braces"].note == "Not made for this size: G30 has it, over 72 ft."
    assert options["g30-b", "snow-ties"].replaced_by == "ties on every inner hoop, standard from revision B"
    assert options["g26-a", "snow-ties"].note == "The snow pack is made for hoops 4 ft apart: ask the maker."
    assert all(option.note or option.replaced_by for option in options.values() if option.offer == "not offered")


@pytest.mark.parametrize("name", NAMES)
def test_every_piece_has_its_made_length_from_the_shortest_to_the_longest(families, name):
    """A made length that its hoop can't take, or bands that meet, would be refused here."""
    family = families[name]
    optional = [option.code for option in family.options if option.offer == "optional"]
    for spacing in family.spacings_in:
        for length in (family.shortest_in, family.shortest_in + spacing, family.longest_in):
            bays = -(-length // spacing)
            length = min(bays * spacing, family.longest_in // spacing * spacing)
            document = compute(
                family, choose(family, length_in=length, spacing_in=spacing, with_=optional), sha256="0" * 64
            )
            assert all(abs(brace.computed_in - brace.length_in) <= 1 / 8 for brace in document.braces)
            assert len(document.braces) >= 8


@pytest.mark.parametrize("name", LATEST)
def test_a_family_written_in_millimetres_is_the_same_family(families, name):
    def in_mm(found):
        return f'= "{read_length(found[1]) * MM_PER_INCH:.4f} mm"'

    text, count = re.subn(r'(?<!tool )= "(\d[^"]*)"', in_mm, text_of(name))
    assert count > 50
    (family,) = read_families({name: text}).values()
    assert family.developed_in == pytest.approx(families[name].developed_in)
    assert family.stations["ridge"].from_foot_in == pytest.approx(families[name].stations["ridge"].from_foot_in)
    assert [part.length_in for part in family.parts.values()] == pytest.approx(
        [part.length_in for part in families[name].parts.values()], abs=1e-4
    )


def test_two_files_that_define_one_part_differently_are_refused_by_both_names():
    with pytest.raises(Refused) as refused:
        read_families({"g26-c.toml": text_of("g26-c"), "g26-d.toml": changed(('length = "4-1 3/8"', 'length = "4-1 1/2"'))})
    assert [str(refusal) for refusal in refused.value.refusals] == [
        "g26-c.toml and g26-d.toml: parts.SB26.length is 4-1 3/8 in one and 4-1 1/2 in the other: make them equal, or give one part "
        "a number of its own."
    ]


def test_a_part_is_compared_by_its_tube_and_not_by_the_tubes_name():
    renamed = text_of("g26-d").replace("[tubes.purlin]", "[tubes.thin]").replace('tube = "purlin"', 'tube = "thin"')
    read_families({"g26-c.toml": text_of("g26-c"), "g26-d.toml": renamed})
    with pytest.raises(Refused) as refused:
        read_families({"g26-c.toml": text_of("g26-c"), "g26-d.toml": changed(('wall = "0.058 in"', 'wall = "0.065 in"'))})
    assert str(refused.value.refusals[0]) == (
        "g26-c.toml and g26-d.toml: parts.PS131-106.tube is 1.315 x 0.058 galvanised in one and 1.315 x 0.065 galvanised in the "
        "other: make them equal, or give one part a number of its own."
    )


def test_one_revision_in_two_files_is_refused():
    with pytest.raises(Refused) as refused:
        read_families({"g26-d.toml": text_of("g26-d"), "again.toml": text_of("g26-d")})
    assert [str(refusal) for refusal in refused.value.refusals] == [
        "again.toml and g26-d.toml: both are G26 revision D: give one of them a revision of its own."
    ]


def test_the_errors_of_all_files_come_together():
    with pytest.raises(Refused) as refused:
        read_families({
            "g26-c.toml": changed(('wall = "0.083 in"', 'wall = "thick"'), name="g26-c"),
            "g26-d.toml": changed(("pack = 100", "pack = 0")),
        })
    assert [str(refusal).split(" = ")[0] for refusal in refused.value.refusals] == [
        "g26-c.toml: tubes.hoop.wall", "g26-d.toml: parts.NT516.pack",
    ]


def test_a_tool_that_one_file_says_and_an_older_one_does_not_is_no_clash():
    spanner = 'tool = "1/2 in. spanner"\n'
    older = text_of("g26-c").replace(spanner, "")
    assert spanner not in older
    read_families({"g26-c.toml": older, "g26-d.toml": text_of("g26-d")})
    with pytest.raises(Refused) as refused:
        read_families({"g26-c.toml": text_of("g26-c").replace(spanner, 'tool = "wrench"\n'), "g26-d.toml": text_of("g26-d")})
    assert str(refused.value.refusals[0]) == (
        "g26-c.toml and g26-d.toml: parts.BT516-1.tool is wrench in one and 1/2 in. spanner in the other: make them equal, or give one "
        "part a number of its own."
    )
