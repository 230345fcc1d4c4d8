"""A family is tried out in all its ways before it is loaded."""

import pytest

from structures.actions.families import load_family
from structures.frame.reader import read_family
from structures.frame.refusal import Refused
from structures.frame.trial import try_out
from structures.models import FamilyRevision
from tests.structures.family_texts import FAMILIES, changed, text_of

LONG_TIE = """
[parts.TI99]
name = "Long tie"
role = "long-tie"
kind = "tube"
tube = "purlin"
length = "27ft"

"""


def refusals_of(text: str) -> list[str]:
    with pytest.raises(Refused) as refused:
        try_out(read_family(text, source="g26-d.toml"))
    return [str(refusal) for refusal in refused.value.refusals]


@pytest.mark.parametrize("name", sorted(path.stem for path in FAMILIES.glob("*.toml")))
def test_every_demo_family_can_be_built_in_all_its_ways(name):
    try_out(read_family(text_of(name), source=f"{name}.toml"))


def test_a_made_length_that_no_hoop_has_is_refused_once_with_both_figures():
    assert refusals_of(changed(('length = "4-1 3/8"', 'length = "4-2 3/8"'))) == [
        "Part SB26 (side-brace) is made 4-2 3/8 long but this spacing of 4-0 needs 4-1 3/8: they must match within 1/8 in."
    ]


def test_what_only_an_option_would_bring_is_tried_too():
    text = changed(
        ('option = "snow-ties"\nrole = "tie"', 'option = "snow-ties"\nrole = "long-tie"'),
        ("[parts.BC190]", LONG_TIE + "[parts.BC190]"),
    )
    (said,) = refusals_of(text)
    assert said.startswith("Tie TI99 of 27-0 is longer than the hoop is wide between its holes: ")


def test_a_size_too_short_for_its_braces_is_no_fault_of_the_file():
    try_out(read_family(changed(('shortest = "24ft"', 'shortest = "12ft"')), source="g26-d.toml"))


def test_an_option_that_is_made_for_some_sizes_is_tried_at_those():
    text = changed(('name = "Film"\noffer = "optional"', 'name = "Film"\noffer = "optional"\nup_to = "48ft"'))
    try_out(read_family(text, source="g26-d.toml"))


@pytest.mark.django_db
def test_a_file_that_no_size_can_be_built_from_is_not_loaded():
    with pytest.raises(Refused, match=r"Part SB26 .side-brace. is made 4-2 3/8 long"):
        load_family(changed(('length = "4-1 3/8"', 'length = "4-2 3/8"')), source="g26-d.toml", by=None)
    assert not FamilyRevision.objects.exists()
