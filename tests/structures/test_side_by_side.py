"""Two sizes, revisions or frozen designs side by side."""

import re

import pytest
from django.urls import reverse

from tests.factories import design, family_revision
from tests.pages import queries, words

pytestmark = pytest.mark.django_db
PAGE = "structures:side-by-side"


@pytest.fixture
def g26(db):
    for revision in ("A", "C"):
        family_revision("G26", revision)
    return family_revision("G26", "D")


@pytest.fixture
def lay(client_for, sue, g26):
    def get(query="", user=None, **more):
        return client_for(user or sue).get(f"{reverse(PAGE)}?{query}", more)

    return get


C_AND_D = {"a-family": "G26-C", "a-length": "48-0", "b-family": "G26-D", "b-length": "48-0"}


@pytest.mark.parametrize("who", ["sue", "olive"])
def test_what_differs_is_counted_and_listed(who, request, client_for, g26):
    said = words(client_for(request.getfixturevalue(who)).get(reverse(PAGE), C_AND_D))
    assert "First G26, revision C, 48-0 Second G26, revision D, 48-0" in said
    assert "Roof brace, upper, 26 ft RU26 0 4 only there" in said
    assert "Band clamp 1.90 BC190 40 56 16 more" in said
    assert "Roof braces Not made in revision C: they came with revision D. included" in said


@pytest.mark.parametrize(("who", "status"), [("wes", 403), ("ada", 404)])
def test_it_is_for_who_sells(who, status, request, client_for, g26):
    assert client_for(request.getfixturevalue(who)).get(reverse(PAGE)).status_code == status


def test_what_only_one_has_is_lit_in_its_drawing(client_for, sue, g26):
    html = client_for(sue).get(reverse(PAGE), C_AND_D).content.decode()
    first, second = re.findall(r"<svg class=\"dw.*?</svg>", html, re.S)
    assert 'class="lit' not in first
    assert 'class="lit' in second


def test_with_nothing_asked_both_are_the_same(client_for, sue, g26):
    page = client_for(sue).get(reverse(PAGE))
    assert "Nothing differs between these two." in words(page)
    assert "<details class=\"beside-choices\" open>" in page.content.decode()


def test_a_second_that_is_not_named_is_as_the_first(client_for, sue, g26):
    page = client_for(sue).get(reverse(PAGE), {"a-family": "G26-D", "a-length": "72-0"})
    assert "Second G26, revision D, 72-0" in words(page)


def test_a_value_that_can_not_be_stays_in_its_field_with_its_sentence(client_for, sue, g26):
    page = client_for(sue).get(reverse(PAGE), {**C_AND_D, "b-length": "49-0"})
    assert "Length 49-0 is no whole number of 4-0 bays: 48-0 or 52-0 would do." in words(page)
    assert 'name="b-length" type="text" value="49-0"' in page.content.decode()


def test_a_frozen_design_is_laid_beside_a_size(client_for, sue, g26):
    frozen = design("G26", "C")
    page = client_for(sue).get(reverse(PAGE), {"a-design": str(frozen.pk), "b-family": "G26-D", "b-length": "48-0"})
    assert f"Design {frozen.pk}, as it was frozen" in words(page)
    assert "Roof brace, upper, 26 ft RU26 0 4 only there" in words(page)


@pytest.mark.parametrize("junk", ["", "x", "-1", "99999999", "9" * 60, "²", "a b", "<b>"])
def test_junk_is_no_accident(junk, client_for, sue, g26):
    names = ("family", "length", "spacing", "base", "tag_end", "far_end", "option", "chosen", "last", "design")
    query = {f"{side}-{name}": junk for side in "ab" for name in names}
    assert client_for(sue).get(reverse(PAGE), {**query, "view": junk}).status_code == 200


def test_another_view_keeps_both_sides(client_for, sue, g26):
    html = client_for(sue).get(reverse(PAGE), {**C_AND_D, "view": "side-left"}).content.decode()
    link = next(link for link in re.findall(r'href="(\?[^"]*view=section[^"]*)"', html))
    assert "a-family=G26-C" in link
    assert "b-family=G26-D" in link
    assert html.count('aria-labelledby="side-a-t') == 1


def test_the_pages_of_sizes_and_families_lead_there(client_for, sue, g26):
    client = client_for(sue)
    at_size = client.get(reverse("structures:size"), {"family": "G26-C", "length": "48-0"}).content.decode()
    assert "side-by-side/?a-family=G26-C&amp;a-length=48-0" in at_size
    assert reverse(PAGE) in client.get(reverse("structures:family-list")).content.decode()
    at_family = client.get(reverse("structures:family-detail", args=["G26", "D"])).content.decode()
    assert "side-by-side/?a-family=G26-D&amp;b-family=G26-C" in at_family


def test_a_frozen_design_leads_there_for_who_sells(client_for, sue, wes, g26):
    frozen = design("G26", "D")
    at_design, to = reverse("structures:design-detail", args=[frozen.pk]), f"{reverse(PAGE)}?a-design={frozen.pk}"
    assert f'href="{to}"' in client_for(sue).get(at_design).content.decode()
    assert to not in client_for(wes).get(at_design).content.decode()
    assert "Nothing differs between these two." in words(client_for(sue).get(to))


def test_without_a_family_there_is_nothing_to_lay(client_for, sue, db):
    assert "No family is loaded yet" in words(client_for(sue).get(reverse(PAGE)))


def test_a_longer_structure_takes_no_more_queries(client_for, sue, g26):
    client = client_for(sue)
    short, long = (f"{reverse(PAGE)}?a-family=G26-C&a-length={feet}-0&b-family=G26-D&b-length={feet}-0" for feet in (48, 96))
    queries(client, short)
    assert queries(client, short) == queries(client, long)
