"""What an add-on pack would need, as a page: answered where the revision offers it, and else "ask the maker"."""

import re

import pytest
from django.urls import reverse

from structures.actions.structures import append_change
from structures.models import Structure
from tests.factories import design, family_revision, structure
from tests.pages import queries, words

pytestmark = pytest.mark.django_db
NEVER = re.compile(r"\b(?:it fits|will fit|yes|compatible|suitable)\b", re.I)


@pytest.fixture
def ask(client_for, sue):
    def get(made, user=None, **query):
        return client_for(user or sue).get(reverse("structures:structure-add-on", args=[made.tag]), query)

    return get


@pytest.fixture
def g26(ada):
    return structure(belongs_to=ada, design=design(length_in=864.0))


@pytest.mark.parametrize("who", ["sue", "wes", "ada", "olive"])
def test_the_snow_pack_of_a_g26_of_72_ft(who, request, g26, ask):
    said = words(ask(g26, request.getfixturevalue(who), option="snow-ties"))
    assert "For the snow pack on T-0412 a pack holds 8 pieces and 16 bands, with their bolts and nuts." in said
    assert "Collar tie TI26 8 13-6 H3-tie, H5-tie, H7-tie, H9-tie, H11-tie, H13-tie, H15-tie and H17-tie" in said
    assert "Band clamp 1.90 BC190 16" in said
    assert "What comes off" not in said
    assert "H3-tie E H3-L-tie at 13-3 13/16, set H3-R-tie at 13-3 13/16, set" in said
    assert "H2-L-tie at" not in said
    assert "Whether it goes on what stands there is not known from here" in said


def test_a_grower_to_whom_it_does_not_belong_finds_nothing(gil, g26, ask):
    assert ask(g26, gil, option="snow-ties").status_code == 404


def test_revision_a_at_6_ft_asks_the_maker_for_the_snow_pack(ask):
    """The invented scenario, story 9: the snow pack is made for 4 ft spacing, so the answer must be "ask the maker"."""
    made = structure("T-0231", design=design("G26", "A", length_in=864.0))
    said = words(ask(made, option="snow-ties"))
    assert "Snow pack: ask the maker. The snow pack is made for hoops 4 ft apart: ask the maker." in said
    assert not NEVER.search(said)
    assert "What comes" not in said


def test_revision_c_asks_the_maker_for_roof_braces_and_says_which_revision_has_them(ask, olive):
    made = structure("T-0305", design=design("G26", "C", length_in=864.0))
    family_revision("G26", "D")
    page = ask(made, olive, option="roof-braces")
    said = words(page)
    assert "Roof braces: ask the maker. Not made in revision C: they came with revision D." in said
    assert "Revision D, as made since 2021, has it. Lay the two side by side to see what the maker has to look at." in said
    assert not NEVER.search(said)
    to = re.search(r'href="(/side-by-side/[^"]+)"', page.content.decode())[1].replace("&amp;", "&")
    assert f"a-design={made.design.pk}" in to
    assert "b-family=G26-D" in to
    assert "b-length=72-0" in to


def test_what_it_was_made_with_needs_no_pack(ask, g26):
    assert "Roof braces: T-0412 was made with it, so no pack is needed." in words(ask(g26, option="roof-braces"))


def test_without_an_option_it_offers_what_there_is(ask, g26):
    said = words(ask(g26))
    assert "Snow pack Offered, not bought." in said
    assert "Roof braces" not in said


@pytest.mark.parametrize("junk", ["no-such", "<b>", "x" * 400, "%"])
def test_an_option_that_nobody_knows_is_as_none(junk, ask, g26):
    page = ask(g26, option=junk)
    assert page.status_code == 200
    assert "might be given" in words(page)


def test_a_place_that_differs_on_a_hoop_that_the_pack_touches_is_said_so(ask, g26, sue):
    for hoop in (4, 5):
        append_change(g26, act="moved", place=f"H{hoop}-tie", words="To clear a sprayer.", seen_on="2026-03-02", by=sue)
    said = words(ask(g26, option="snow-ties"))
    assert "As it stands, on a hoop that the pack touches: H5-tie moved" in said
    assert "As it stands: H4-tie moved" in said


def test_one_known_from_paper_says_nobody_checked(ask):
    made = structure("T-0501", design=design(length_in=864.0), unchecked=True)
    assert "From paper, not checked: nobody has held this against what stands there." in words(ask(made, option="snow-ties"))


def test_one_without_a_frame_has_no_answer(ask):
    made = structure("T-0007", design=None, finished_on=None, unchecked=True)
    assert ask(made, option="snow-ties").status_code == 404


def test_a_longer_structure_takes_no_more_queries(client_for, sue, g26):
    long = structure("T-0900", design=design(length_in=1152.0))
    client = client_for(sue)
    short_url, long_url = (reverse("structures:structure-add-on", args=[one.tag]) + "?option=snow-ties" for one in (g26, long))
    queries(client, short_url)
    assert queries(client, short_url) == queries(client, long_url)


def test_the_drawing_of_a_pack_says_what_people_call_its_ends(g26, ask):
    Structure.objects.update(tag_end_name="road end")
    assert "As it would stand, from outside the tag end (road end), right front." in words(ask(g26, option="snow-ties"))
