"""Words that every list of a frame needs: what people call an end of a structure."""

import pytest

from structures.frame.names import ends_named

NAMES = {1: "road end", 2: "near the far end gate"}


@pytest.mark.parametrize(("names", "words", "said"), [
    ({}, "outside the tag end", "outside the tag end"),
    ({1: "road end"}, "You stand outside the tag end, looking in.", "You stand outside the tag end (road end), looking in."),
    ({1: "road end"}, "Far end wall", "Far end wall"),
    (NAMES, "Far end wall", "Far end wall (near the far end gate)"),
    (NAMES, "the far end and the tag end", "the far end (near the far end gate) and the tag end (road end)"),
    ({1: r"\\1 end"}, "Tag end wall", r"Tag end wall (\\1 end)"),
    (NAMES, "the staggered ends", "the staggered ends"),
])
def test_an_end_is_followed_by_what_people_call_it(names, words, said):
    assert ends_named(words, names) == said
