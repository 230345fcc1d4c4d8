"""Brace chains, sizes and options: what the reader says, word for word."""

import pytest

from structures.frame.reader import read_family
from tests.structures.family_texts import changed, sentences, text_of


@pytest.mark.parametrize(("pairs", "said"), [
    pytest.param(
        [(', set = true', '')],
        ['chains.side.landings: set = true stands at none of them: give it to one, from which the others follow.'],
        id="no landing set",
    ),
    pytest.param(
        [('station = "mid" }', 'station = "mid", set = true }')],
        ['chains.side.landings: set = true stands at 2 of them: give it to one, from which the others follow.'],
        id="two landings set",
    ),
    pytest.param(
        [('{ hoop = 2, station = "mid" }', '{ hoop = 4, station = "mid" }')],
        [
            'chains.side.landings goes over hoops 1, 4, 3: name at least two hoops one after the other, since a piece spans '
            'one bay, or write one_piece = true.',
        ],
        id="a piece over two bays",
    ),
    pytest.param(
        [('roles = ["side-brace", "side-brace"]', 'roles = ["side-brace"]')],
        [
            'chains.side.roles = ["side-brace"], and the landings make 2 pieces: name one role for each piece, in the order '
            'of the landings.',
        ],
        id="too few roles",
    ),
    pytest.param(
        [('roles = ["side-brace", "side-brace"]', 'roles = ["side-brace", "side-brase"]')],
        ['chains.side.roles = "side-brase" names no role of this file: did you mean side-brace?'],
        id="a role of no part",
    ),
    pytest.param(
        [('station = "mid" }', 'station = "middle" }')],
        ['chains.side.landings.middle.station = "middle" names no station of this file: did you mean mid?'],
        id="a landing nowhere",
    ),
    pytest.param(
        [('hand = "right"\n', '')],
        [
            'chains.roof.roles: of role roof-lower at 4-0 spacing only a left hand is made: corners come in both hands, so '
            'add the other.',
        ],
        id="one hand",
    ),
    pytest.param(
        [('hand = "right"', 'hand = "left"')],
        [
            'chains.roof.roles: at 4-0 spacing parts RL26-L and RL26-R share role roof-lower and hand: give each its own '
            'role, spacing or hand.',
        ],
        id="two parts for one hand",
    ),
    pytest.param(
        [
            ('twist_made = "press"\nslack_deg = 5\nlandings = [\n    { hoop = 1, station = "shoulder" }',
             'twist_made = "site"\nslack_deg = 5\nlandings = [\n    { hoop = 1, station = "shoulder" }'),
        ],
        ['chains.roof.roles: the twist is made on site, so role roof-lower has no hands: take hand out of RL26-L and RL26-R.'],
        id="hands of a twist made on site",
    ),
    pytest.param(
        [('spacings = ["4ft"]', 'spacings = ["4ft", "5ft"]')],
        [
            'chains.side.roles: no part of role side-brace is made for 5-0 spacing: add one to [parts], or leave the spacing '
            'out of size.spacings.',
            'chains.roof.roles: no part of role roof-lower is made for 5-0 spacing: add one to [parts], or leave the spacing '
            'out of size.spacings.',
            'chains.roof.roles: no part of role roof-upper is made for 5-0 spacing: add one to [parts], or leave the spacing '
            'out of size.spacings.',
        ],
        id="a spacing without braces",
    ),
    pytest.param(
        [('role = "roof-upper"', 'role = "tie"'), ('"roof-lower", "roof-upper"', '"roof-lower", "roof-lower"')],
        [
            'ties.ties.role = "tie" is the role of parts RU26 and TI26: leave it to one of them.',
            'ties.snow-ties.role = "tie" is the role of parts RU26 and TI26: leave it to one of them.',
        ],
        id="two ties of one role",
    ),
    pytest.param(
        [('longest = "300ft"', 'longest = "20ft"')],
        ['size.longest = 20-0 is less than size.shortest = 24-0: write at least that.'],
        id="longest below shortest",
    ),
    pytest.param(
        [('shortest = "24ft"', 'shortest = "25ft"'), ('longest = "300ft"', 'longest = "27ft"')],
        ['size.spacings: no whole number of 4-0 bays lies from 25-0 to 27-0: change one of them.'],
        id="no whole number of bays",
    ),
    pytest.param(
        [('ends = ["framed", "framed"]', 'ends = ["framed"]')],
        ['size.ends = ["framed"] is no pair of end walls: write the tag end and the far end, like ["framed", "framed"].'],
        id="one end for both",
    ),
    pytest.param(
        [('ends = ["framed", "framed"]', 'ends = ["framed", "frame"]')],
        ['size.ends = "frame" names no end wall of this file: did you mean framed?'],
        id="an end nobody knows",
    ),
    pytest.param(
        [('offer = "optional"\nneeds = ["ties"]', 'offer = "optional"\nneeds = ["tie"]')],
        ['options.snow-ties.needs = "tie" names no option of this file: did you mean ties?'],
        id="a need nobody knows",
    ),
    pytest.param(
        [('offer = "optional"\nneeds = ["ties"]', 'offer = "optional"\nneeds = ["mid-braces"]')],
        ['options.snow-ties.needs = "mid-braces", which is not offered: leave it out, or offer it.'],
        id="a need that can't be had",
    ),
    pytest.param(
        [('offer = "optional"\nneeds = ["ties"]', 'offer = "standard"\nexcludes = ["ties"]')],
        ['options.snow-ties.excludes = "ties", and both are standard: make one of them optional.'],
        id="standard against standard",
    ),
    pytest.param(
        [('note = "Not made for this size: G30 has it, over 72 ft."\n', '')],
        ['options.mid-braces.note is missing: say in a sentence why it is not offered, or what replaced it with replaced_by.'],
        id="no reason",
    ),
    pytest.param(
        [
            ('note = "Not made for this size: G30 has it, over 72 ft."\n', 'replaced_by = "nothing"\n'),
            ('offer = "not offered"', 'offer = "optional"'),
        ],
        [
            'options.mid-braces.offer = "optional", and replaced_by says it is not made any more: write offer = "not offered".',
            'options.mid-braces.offer = "optional", and nothing in the file has option = "mid-braces": give it a piece, or '
            'write offer = "not offered".',
        ],
        id="replaced and offered",
    ),
    pytest.param(
        [('name = "Mid-length side braces"\noffer = "not offered"', 'name = "Mid-length side braces"\noffer = "optional"')],
        [
            'options.mid-braces.offer = "optional", and nothing in the file has option = "mid-braces": give it a piece, or '
            'write offer = "not offered".',
        ],
        id="an option that brings nothing",
    ),
    pytest.param(
        [('option = "snow-ties"', 'option = "snowties"')],
        [
            'ties.snow-ties.option = "snowties" names no option of this file: did you mean snow-ties?',
            'options.snow-ties.offer = "optional", and nothing in the file has option = "snow-ties": give it a piece, or '
            'write offer = "not offered".',
        ],
        id="an option nobody knows",
    ),
])
def test_it_says_what_is_wrong_and_what_would_do(pairs, said):
    assert sentences(changed(*pairs)) == said


def test_what_is_left_out_takes_what_the_file_says_first():
    family = read_family(changed(('ends = ["framed", "framed"]\n', ''), ('rated_wind = "not rated, ask the maker"\n', '')), source="g")
    assert family.default_ends == ("open", "open")
    assert family.rated_wind == "not rated, ask the maker"


def test_a_piece_without_a_spacing_fits_all():
    text = text_of("g26-d").replace('spacing = "4ft"\n', "")
    assert sentences(text.replace('spacings = ["4ft"]', 'spacings = ["4ft", "5ft"]')) == []
