"""Files that nobody wrote by hand: refused in a sentence before they take the machine's time or memory."""

import copy
import tomllib

import pytest

from structures.frame import reader
from structures.frame.reader import LONGEST_LINE, MOST_LETTERS, read_family
from structures.frame.refusal import Refused
from structures.frame.trial import try_out
from tests.factories import family_text

LONG_KEY = ".".join(["a"] * 5000) + " = 1"


def refused(text: str) -> str:
    with pytest.raises(Refused) as told:
        read_family(text, source="x.toml")
    return str(told.value)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("#" * (MOST_LETTERS + 1), "x.toml: the file has 200,001 letters: 200,000 at most would do."),
        (LONG_KEY, "x.toml: line 1 has 10,003 letters: break it up into lines of 500 at most."),
        ("a = 1\nb = " + "9" * 5000, "x.toml: line 2 has 5,004 letters: break it up into lines of 500 at most."),
        ("a = " + "[" * 5000, "x.toml: line 1 has 5,004 letters: break it up into lines of 500 at most."),
    ],
)
def test_a_mass_is_one_sentence(text, sentence):
    assert refused(text) == sentence


def test_a_line_just_short_enough_is_read():
    assert refused("a = " + "9" * (LONGEST_LINE - 4)).splitlines()[-1].startswith("x.toml: a is no key that can be here")


def test_lists_in_lists_without_end_are_no_toml():
    assert refused("a = " + "[\n" * 5000).startswith("x.toml: the file can't be read as TOML: ")


def test_very_many_wrong_keys_are_told_once_each_and_soon():
    said = refused("\n".join(f"k{n} = 1" for n in range(5000)))
    assert sum("is no key that can be here" in line for line in said.splitlines()) == 5000


def leaves(value, path=()):
    """The way to everything that stands in a file, blocks and lists themselves among them."""
    for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
        yield (*path, key)
        if isinstance(inner, dict | list):
            yield from leaves(inner, (*path, key))


def put(data, path, value):
    changed = copy.deepcopy(data)
    at = changed
    for key in path[:-1]:
        at = at[key]
    at[path[-1]] = value
    return changed


ODD = (10**300, float("nan"), float("inf"), -1, 0, 1e-300, "", "9999999ft", "1/0 in", [], {}, True, "x" * 300, "\0", [[]], {"a": 1})


@pytest.mark.parametrize("family", [("G26", "D"), ("R14", "A")], ids="-".join)
def test_an_odd_value_anywhere_is_refused_in_sentences_or_can_be_built(family, monkeypatch):
    data = tomllib.loads(family_text(*family))
    fallen, built = {}, set()
    # Each place gets other odd values than the one before it, so that all of them meet all kinds of keys.
    for at, path in enumerate(leaves(data)):
        for odd in (ODD[at % len(ODD)], ODD[(at * 7 + 3) % len(ODD)]):
            changed = put(data, path, odd)
            monkeypatch.setattr(reader.tomllib, "loads", lambda text, changed=changed: changed)
            alike = (path[0], path[-1], str(odd))
            try:
                read = read_family("", source="x.toml")
                # What is taken for words can be taken in every block of its kind: it is built in one of them.
                if alike not in built:
                    try_out(read)
                    built.add(alike)
            except Refused:
                continue
            except Exception as error:
                fallen[".".join(map(str, path))] = (str(odd)[:20], repr(error))
    assert fallen == {}


@pytest.mark.parametrize(
    ("path", "odd", "sentence"),
    [
        (("tubes",), {}, "x.toml: tubes is empty: write at least one block [tubes.hoop]."),
        (("chains", 0, "landings"), [], "x.toml: chains.side.landings = [] is no list of blocks: write blocks [[chains.side.landings]]."),
    ],
)
def test_an_empty_block_says_what_to_write(path, odd, sentence, monkeypatch):
    changed = put(tomllib.loads(family_text()), path, odd)
    monkeypatch.setattr(reader.tomllib, "loads", lambda text: changed)
    assert sentence in refused("").splitlines()
