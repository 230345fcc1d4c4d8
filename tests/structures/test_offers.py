"""How a configuration stands to each option, and that what an option would bring is what a whole frame with it has."""

import dataclasses

import pytest

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.family import OneOff
from structures.frame.offers import OFFERED
from tests.structures.families import NAMES, plainest, shortest_and_longest
from tests.structures.frames import family
from tests.structures.full_families import everything

MADE = {**{name: family(name) for name in NAMES}, "everything": everything()}


def whole_frame_with(made, configuration, option):
    """Pieces and bands of an option in the frame that is built when it is asked for."""
    options = (configuration.options | {option.code, *option.needs}) - {*option.excludes}
    frame = build_frame(made, dataclasses.replace(configuration, options=options))
    return (sum(piece.option == option.code for piece in frame.pieces()),
            sum(joint.option == option.code and joint.kind == "band" for joint in frame.joints))


@pytest.mark.parametrize("name", MADE)
def test_what_is_offered_would_bring_what_the_frame_with_it_has(name):
    made = MADE[name]
    for length in shortest_and_longest(made):
        configuration = plainest(made, length)
        answers = [(option, answer) for option, answer in zip(made.options, compute(made, configuration, sha256="").options, strict=True)
                   if answer.no_because == OFFERED]
        assert answers
        for option, answer in answers:
            assert (answer.pieces, answer.bands) == whole_frame_with(made, configuration, option), option.code


def test_what_is_included_brings_what_the_frame_has():
    document = compute(family("g26-d"), choose(family("g26-d")), sha256="")
    counts = {answer.code: (answer.included, answer.pieces, answer.bands) for answer in document.options}
    # 16 braces in two chains, 2 at each of 4 corners; a tie on every second inner hoop of seven: hoops 2, 4, 6.
    assert counts["side-braces"] == (True, 8, 16)
    assert counts["roof-braces"] == (True, 8, 16)
    assert counts["ties"] == (True, 3, 6)


def test_a_one_off_that_names_a_brace_leaves_the_count_of_an_offered_pack_as_it_was():
    made = family("g26-d")
    one_off = OneOff("leave out", "B1-L-side:brace:1", "Olive Barrow", "the customer's door stands there", "2026-03-01")
    plain, changed = (compute(made, choose(made, one_offs=given), sha256="") for given in ((), (one_off,)))
    packs = [next(answer for answer in document.options if answer.code == "snow-ties") for document in (plain, changed)]
    assert packs[0] == packs[1]
    assert packs[0].pieces == 2        # seven hoops, hoops 3 and 5 without a tie
