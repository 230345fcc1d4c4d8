"""The list of families and the page of one revision."""

import pytest
from django.urls import reverse

from tests.factories import design, family_revision
from tests.pages import queries, words

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("who", ["sue", "olive"])
def test_the_list_says_what_is_made_and_when(who, request, client_for):
    family_revision("G26", "A")
    family_revision("G26", "D")
    page = client_for(request.getfixturevalue(who)).get(reverse("structures:family-list"))
    said = words(page)
    assert "2 revisions." in said
    assert "G26-A" in said
    assert "as made 2016 to 2021" in said
    assert ("Load a family file" in said) is (who == "olive")


def test_the_list_takes_the_same_queries_at_one_row_and_at_three(sue, client_for):
    client, page = client_for(sue), reverse("structures:family-list")
    family_revision("G26", "A")
    one = queries(client, page)  # the session, the person, the count and the rows
    family_revision("G26", "D")
    family_revision("R14", "A")
    assert queries(client, page) == one


def test_one_revision_shows_sizes_options_parts_drawings_and_its_file(sue, client_for):
    family_revision("G26", "A")
    design("G26", "D")
    page = client_for(sue).get(reverse("structures:family-detail", args=["G26", "D"]))
    said = words(page)
    assert "Made from 24-0 to 300-0 long with hoops 4-0 apart." in said
    assert "RL26-L Roof brace, lower, left twist, 26 ft 6-7 3/16 flattened and drilled both ends, left twist" in said
    assert "A, as made 2016 to 2021; 0 designs made from it" in said
    assert "D, as made since 2021: this one; 1 design made from it" in said
    assert "Wind not rated, ask the maker" in said
    assert page.content.decode().count('<svg class="dw') == 4


@pytest.mark.parametrize("address", [("G26", "Z"), ("Z9", "A")])
def test_a_revision_that_is_not_there(address, sue, client_for):
    assert client_for(sue).get(reverse("structures:family-detail", args=address)).status_code == 404


def test_an_earlier_revision_says_why_it_had_no_roof_braces(sue, client_for):
    family_revision("G26", "A")
    page = client_for(sue).get(reverse("structures:family-detail", args=["G26", "A"]))
    assert "Roof braces not offered Not made in revision A: they came with revision D." in words(page)
