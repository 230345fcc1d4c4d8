"""What the reader says to a key or value that it can't use, word for word."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structures.frame.reader import read_family
from structures.frame.refusal import Refused
from tests.structures.family_texts import changed, sentences, text_of


@pytest.mark.parametrize(("pairs", "said"), [
    pytest.param(
        [('width = "26ft"', 'wdith = "26ft"')],
        [
            'shape.width is missing: write it like "4ft 6in", "8-11 1/4", "104 3/4 in" or "2660 mm".',
            'shape.wdith is no key that can be here: did you mean width?',
        ],
        id="a key misspelt",
    ),
    pytest.param(
        [('[posts]', '[post]')],
        ['post is no key that can be here: did you mean posts?'],
        id="a block misspelt",
    ),
    pytest.param(
        [('width = "26ft"', 'width = 312')],
        ['shape.width = 312 is no length in words: write it like "4ft 6in", "8-11 1/4", "104 3/4 in" or "2660 mm".'],
        id="a number for a length",
    ),
    pytest.param(
        [('width = "26ft"', 'width = "26 feets"')],
        ['shape.width = "26 feets" is no length: write it like "4ft 6in", "8-11 1/4", "104 3/4 in" or "2660 mm".'],
        id="a length nobody can read",
    ),
    pytest.param(
        [('width = "26ft"', 'width = "2600ft"')],
        ['shape.width = "2600ft" can\'t be: from 1-0 to 200-0 would do.'],
        id="a length out of bounds",
    ),
    pytest.param(
        [('code = "G26"', 'code = "g 26"')],
        ['code = "g 26" is no code: write it like "G26".'],
        id="a code with a gap",
    ),
    pytest.param(
        [('effective = 2021-03-01', 'effective = "March 2021"')],
        ['effective = "March 2021" is no date: write it like 2021-03-15 without quotes.'],
        id="a date in words",
    ),
    pytest.param(
        [('effective = 2021-03-01', 'effective = 2021-03-01T10:00:00')],
        ['effective = 2021-03-01 10:00:00 is no date: write it like 2021-03-15 without quotes.'],
        id="a moment for a date",
    ),
    pytest.param(
        [('effective = 2021-03-01\n', '')],
        ['effective is missing: write a date like 2021-03-15 without quotes.'],
        id="no date",
    ),
    pytest.param(
        [('pitch_deg = 25', 'pitch_deg = true')],
        ['shape.pitch_deg = true is no number that can be here: write a number from 1 to 80.'],
        id="a yes for a number",
    ),
    pytest.param(
        [('pitch_deg = 25', 'pitch_deg = nan')],
        ['shape.pitch_deg = NaN is no number that can be here: write a number from 1 to 80.'],
        id="a number that is none",
    ),
    pytest.param(
        [('inside = true', 'inside = "true"')],
        ['posts.inside = "true" is no yes or no: write true or false without quotes.'],
        id="a text for a yes",
    ),
    pytest.param(
        [('changed = "Roof braces added at the corners."', 'changed = " "')],
        ['changed = " " is no text: write a text in quotes.'],
        id="an empty text",
    ),
    pytest.param(
        [('changed = "Roof braces added at the corners."', 'changed = 7')],
        ['changed = 7 is no text: write a text in quotes.'],
        id="a number for a text",
    ),
    pytest.param(
        [('put_up = "sides first"', 'put_up = "side first"')],
        ['hoop.put_up = "side first" is none of whole, sides first: did you mean sides first?'],
        id="a choice misspelt",
    ),
    pytest.param(
        [('put_up = "sides first"', 'put_up = 12')],
        ['hoop.put_up = 12 is none of whole, sides first: one of them would do.'],
        id="a choice of nothing near",
    ),
    pytest.param(
        [('pack = 100', 'pack = 99.5')],
        ['parts.NT516.pack = 99.5 is no whole number that can be here: write a whole number from 1 to 100000.'],
        id="a half for a count",
    ),
    pytest.param(
        [('bases = ["fixed", "rolling"]', 'bases = "fixed"')],
        ['size.bases = "fixed" is no list of texts: write a list of texts, like ["one", "two"].'],
        id="a text for a list",
    ),
    pytest.param(
        [('bases = ["fixed", "rolling"]', 'bases = []')],
        ['size.bases = [] is no list of texts: write a list of texts, like ["one", "two"].'],
        id="an empty list",
    ),
    pytest.param(
        [('spacings = ["4ft"]', 'spacings = "4ft"')],
        ['size.spacings = "4ft" is no list of lengths: write it like ["4ft", "6ft"].'],
        id="a length for a list of lengths",
    ),
    pytest.param(
        [('spacings = ["4ft"]', 'spacings = ["4ft", "4"]')],
        ['size.spacings = "4" is no length: write it like "4ft 6in", "8-11 1/4", "104 3/4 in" or "2660 mm".'],
        id="a wrong length in a list",
    ),
    pytest.param(
        [('parts = { BC190 = 1, BT516-1 = 1, NT516 = 1 }', 'parts = ["BC190"]')],
        [
            'fittings.brace-band.parts = ["BC190"] is no count of parts: write part numbers with their count, like { BC190 = '
            '1, NT516 = 1 }.',
        ],
        id="a list for a count of parts",
    ),
    pytest.param(
        [('parts = { BC190 = 1, BT516-1 = 1, NT516 = 1 }', 'parts = { BC190 = "one" }')],
        [
            'fittings.brace-band.parts = {"BC190": "one"} is no count of parts: write part numbers with their count, like { '
            'BC190 = 1, NT516 = 1 }.',
        ],
        id="a name for a count",
    ),
    pytest.param(
        [('[[hoop.seams]]', '[hoop.seams]')],
        [
            'hoop.seams = {"side": "both", "at": "12-0", "swage": "6 in", "swaged":... is no list of blocks: write blocks '
            '[[hoop.seams]].',
            'hoop.sections names 3 sections, and the seams join 1: name them from the left foot over the ridge to the right foot.',
        ],
        id="a block for a list of blocks",
    ),
    pytest.param(
        [
            ('rated_snow', 'tubes = 3\nrated_snow'),
            ('[tubes.hoop]', '[tubs.hoop]'),
            ('[tubes.post]', '[tubs.post]'),
            ('[tubes.purlin]', '[tubs.purlin]'),
            ('[tubes.runner]', '[tubs.runner]'),
        ],
        ['tubes = 3 is no block: write a block [tubes].', 'tubs is no key that can be here: did you mean tubes?'],
        id="a value for a block",
    ),
    pytest.param(
        [('[tubes.hoop]', '[tubes.Hoop]')],
        [
            'tubes.Hoop is no name that can be here: write it like hoop.',
            'parts.HS26-S.tube = "hoop" names no tube of this file: known are post, purlin, runner.',
            'parts.HS26-R.tube = "hoop" names no tube of this file: known are post, purlin, runner.',
            'hoop.tube = "hoop" names no tube of this file: known are post, purlin, runner.',
        ],
        id="a name in capitals",
    ),
    pytest.param(
        [('code = "snow-ties"\noption', 'code = "ties"\noption')],
        ['ties.ties.code = "ties" stands twice: give each entry its own code.'],
        id="a code for two",
    ),
    pytest.param(
        [('code = "G26"', 'code = G26')],
        ["the file can't be read as TOML: Invalid value (at line 6, column 8); mend it there."],
        id="no TOML",
    ),
])
def test_it_says_what_is_wrong_and_what_would_do(pairs, said):
    assert sentences(changed(*pairs)) == said


def test_all_errors_of_a_file_are_said_at_once():
    said = sentences(changed(
        ('width = "26ft"', 'wdith = "26ft"'), ('wall = "0.083 in"', 'wall = "thick"'), ('bolt_at = "4 in"', 'bolt_at = "14 in"'),
    ))
    assert [sentence.split(" ")[0] for sentence in said] == ["shape.width", "shape.wdith", "tubes.hoop.wall", "posts.bolt_at"]


def test_keys_of_a_list_are_called_by_their_code_wherever_they_stand():
    text = changed(('code = "ties"\noption', 'code = "collar"\nhight = 3\noption'))
    assert sentences(text) == [
        "ties.collar.hight is no key that can be here: known are code, fitting, flat, flat_hole, flat_round, flat_width, hoops, option, "
        "role, station, webs."
    ]


def test_a_refusal_stands_at_its_key_as_data():
    with pytest.raises(Refused) as refused:
        read_family(changed(('width = "26ft"', 'width = "26"')), source="mine.toml")
    (refusal,) = refused.value.refusals
    assert (refusal.code, refusal.field) == ("length-unread", "shape.width")
    assert refusal.values["file"] == "mine.toml"
    assert refusal.values["given"] == '"26"'


def test_braces_in_a_value_are_only_text():
    assert sentences(changed(('put_up = "sides first"', 'put_up = "{file}"'))) == [
        'hoop.put_up = "{file}" is none of whole, sides first: one of them would do.'
    ]


@pytest.mark.parametrize("text", ["", "code = ", "[shape]\n[shape]", "\x00", "a = [" * 5000])
def test_any_text_is_read_or_refused_in_sentences(text):
    with pytest.raises(Refused) as refused:
        read_family(text, source="mine.toml")
    assert all(str(refusal).startswith("mine.toml: ") for refusal in refused.value.refusals)


@given(st.data())
def test_a_file_with_a_piece_torn_out_never_fails_in_any_other_way(data):
    text = text_of("g26-d")
    start = data.draw(st.integers(0, len(text) - 1))
    torn = text[:start] + text[start + data.draw(st.integers(1, 400)):]
    assert len(sentences(torn)) == len(set(sentences(torn)))


@given(st.sampled_from(range(200)), st.sampled_from(['""', "0", "-1", "1e400", "nan", "true", "[]", "{}", '"0 in"', '"x"', "1979-05-27"]))
def test_a_file_with_one_value_changed_never_fails_in_any_other_way(which, value):
    lines = text_of("g26-d").splitlines()
    at = [number for number, line in enumerate(lines) if " = " in line and not line.startswith("#")]
    number = at[which % len(at)]
    lines[number] = lines[number].split(" = ")[0] + " = " + value
    assert all(len(sentence) < 400 for sentence in sentences("\n".join(lines)))
