"""The one list: what an address may ask for, and what it gets."""

import csv
import io

import pytest
from django.urls import reverse

from structures.lists import MOST_PER_PAGE, PER_PAGE, whole_number
from structures.models import Structure
from tests.pages import words

pytestmark = pytest.mark.django_db
LIST = "structures:structure-list"


@pytest.fixture
def many(db):
    Structure.objects.bulk_create(
        Structure(tag=f"T-{n:04}", name="=SUM(A1)" if n == 1 else f"Field {n}", town=f"Town {n % 7}") for n in range(1, 131)
    )


def rows(response) -> int:
    return response.content.decode().count('href="/structures/T-')


@pytest.mark.parametrize(
    ("per_page", "shown"),
    [("-5", 1), ("0", 1), ("100000", MOST_PER_PAGE), ("x", PER_PAGE), ("", PER_PAGE), ("1e3", PER_PAGE), ("7", 7), ("٣", 3)],
)
def test_the_size_of_a_page_is_clamped(per_page, shown, sue, many, client_for):
    answer = client_for(sue).get(reverse(LIST), {"per_page": per_page})
    assert answer.status_code == 200
    assert rows(answer) == shown


@pytest.mark.parametrize(("page", "first"), [("-5", 1), ("0", 1), ("x", 1), ("2", 26), ("100000", 126)])
def test_the_number_of_a_page_is_clamped(page, first, sue, many, client_for):
    answer = client_for(sue).get(reverse(LIST), {"page": page})
    assert f"130 structures, {first} to {min(first + 24, 130)}." in words(answer)


def test_pages_keep_the_filter_and_the_order(sue, many, client_for):
    html = client_for(sue).get(reverse(LIST), {"town": "Town", "sort": "-tag", "page": "2"}).content.decode()
    assert 'href="?town=Town&amp;sort=-tag&amp;page=3">Next' in html
    assert 'href="?town=Town&amp;sort=-tag&amp;page=1">← Previous' in html
    assert '<input type="hidden" name="sort" value="-tag">' in html


def test_the_sorted_head_says_so_and_turns_round(sue, many, client_for):
    html = client_for(sue).get(reverse(LIST), {"sort": "-tag"}).content.decode()
    assert 'aria-sort="descending"><a href="?sort=tag" aria-current="true">Tag ↓</a>' in html
    assert html.index("T-0130") < html.index("T-0129")


@pytest.mark.parametrize("sort", ["password", "-", "tag;drop", "design__family_text"])
def test_a_column_that_is_none_sorts_nothing(sort, sue, many, client_for):
    assert client_for(sue).get(reverse(LIST), {"sort": sort}).status_code == 200


def test_all_of_it_as_csv_with_the_filter_and_no_formulas(sue, many, client_for):
    answer = client_for(sue).get(reverse(LIST), {"town": "Town 1", "export": "csv", "per_page": "1"})
    assert answer.headers["Content-Type"] == "text/csv; charset=utf-8"
    assert answer.headers["Content-Disposition"] == 'attachment; filename="structures.csv"'
    read = list(csv.reader(io.StringIO(answer.content.decode())))
    assert read[0][:3] == ["Tag", "Name", "Town"]
    assert len(read) == 1 + 19
    assert read[1][:3] == ["T-0001", "'=SUM(A1)", "Town 1"]


def test_an_export_nobody_knows_is_the_page(sue, many, client_for):
    assert client_for(sue).get(reverse(LIST), {"export": "exe"}).headers["Content-Type"].startswith("text/html")


@pytest.mark.parametrize(("text", "number"), [(None, 5), ("", 5), ("7", 7), ("-1", 1), ("99", 9), ("9" * 30, 9), ("1.5", 5)])
def test_a_whole_number_from_an_address(text, number):
    assert whole_number(text, 5, 1, 9) == number


def test_of_several_columns_that_sort_only_the_first_is_marked(sue, many, client_for):
    html = client_for(sue).get(reverse(LIST), {"sort": ["town", "-tag"]}).content.decode()
    assert html.count("aria-sort=") == 1
    assert 'aria-sort="ascending"' in html
