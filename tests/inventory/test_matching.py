"""Words typed into the one box, read as people mean them. No database."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.matching import Match, Word, fold, match, match_number, read_words
from inventory.phones import phone_digits


def word(typed: str) -> Word:
    found, = read_words(typed)
    return found


@pytest.mark.parametrize(("typed", "digits"), [
    ("(207) 555-0117", "12075550117"), ("+1 207 555 0117", "12075550117"), ("207.555.0117", "12075550117"),
    ("555-0412", "5550412"), ("555 0412 ext", "5550412"), ("no phone", ""), ("", ""),
])
def test_a_phone_number_is_one_number_whatever_its_punctuation(typed, digits):
    assert phone_digits(typed) == digits


@pytest.mark.parametrize("typed", ["207 555 0117", "(207) 555-0117", "+1 207.555.0117", "2075550117"])
def test_a_phone_number_with_blanks_is_one_word(typed):
    found = read_words(typed)
    assert len(found) == 1
    assert match_number("(207) 555-0117", found[0])


@pytest.mark.parametrize(("text", "typed", "cut"), [
    ("Ada Quill", "quil", ("Ada ", "Quil", "l")),
    ("Quillmere Croft", "QUILL-MERE", ("", "Quillmere", " Croft")),
    ("O’Hara", "ohara", ("", "O’Hara", "")),
    ("Zoë Frost", "zoe", ("", "Zoë", " Frost")),
])
def test_capitals_dashes_and_accents_are_read_past(text, typed, cut):
    found = match(text, word(typed))
    assert (found.before, found.hit, found.after) == cut


@pytest.mark.parametrize(("text", "typed", "cut"), [
    ("T-0412", "412", ("T-0", "412", "")),
    ("T-0412", "0412", ("T-0", "412", "")),
    ("T-0412", "t-412", ("T-0", "412", "")),
    ("T-0412", "T0412", ("", "T-0412", "")),
    ("555 0412", "0412", ("555 0", "412", "")),
    ("1207", "1207", ("", "1207", "")),
    ("7", "7", ("", "7", "")),
    ("P-0001", "p-1", ("P-000", "1", "")),
])
def test_a_number_is_found_in_another_one(text, typed, cut):
    found = match_number(text, word(typed))
    assert (found.before, found.hit, found.after) == cut


@pytest.mark.parametrize(("text", "typed"), [("T-0412", "P-412"), ("T-0412", "quil"), ("1207", "7"), ("", "412"), ("P-0001", "T-1")])
def test_what_does_not_match_is_none(text, typed):
    assert match_number(text, word(typed)) is None


def test_the_beginning_of_a_word_is_told_from_its_middle():
    assert match("Ada Quill", word("quil")).begins
    assert not match("Ada Quill", word("uil")).begins


@pytest.mark.parametrize(("typed", "also"), [("rib", "hoop"), ("bows", "hoop"), ("collar", "post"), ("poly", "film"), ("hoop", "bow")])
def test_a_word_of_the_trade_finds_its_other_names(typed, also):
    assert also in word(typed).also


@pytest.mark.parametrize(("typed", "also"), [("wind brace", "side brace"), ("cross connectors", "connector"), ("strap clamp", "band")])
def test_names_of_several_words_are_one_word(typed, also):
    assert also in word(typed).also


def test_a_name_of_several_words_leaves_the_others():
    assert [found.typed for found in read_words("quill wind brace")] == ["wind brace", "quill"]


@pytest.mark.parametrize("typed", ["", "   ", "-- !!", "’"])
def test_nothing_to_look_for_is_no_word(typed):
    assert read_words(typed) == ()


def test_what_can_t_be_printed_is_read_past():
    assert [found.typed for found in read_words("a\x00b\x07 quill")] == ["a", "b", "quill"]


def test_very_long_questions_are_cut():
    assert len(read_words("a " * 500)) == 6


@given(st.text(max_size=40), st.text(max_size=12))
def test_a_match_cuts_the_text_and_loses_nothing(text, typed):
    for found in (match(text, each) for each in read_words(typed)):
        if found is not None:
            assert isinstance(found, Match)
            assert found.before + found.hit + found.after == text
            assert fold(found.hit)
