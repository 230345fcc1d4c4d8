"""A paper is made of our own files alone: nothing that somebody typed can make it read a file or call somewhere."""

import gc
from datetime import date
from io import BytesIO

import pytest
import weasyprint
from pypdf import PdfReader

from inventory.actions.shipments import ship
from structures import papers
from tests.inventory.selling import a_confirmed, a_customer, a_structure, pick_all, stock_for

TRICK = "<img src=file:///etc/passwd><link rel=attachment href=file:///etc/hosts>"


@pytest.mark.parametrize(
    "address",
    [
        "file:///etc/passwd", "http://127.0.0.1:1/", "https://elsewhere.example/x.png", "ftp://elsewhere.example/",
        "http://static.invalid@127.0.0.1/", papers.BASE + "../photos.png", papers.BASE + "%2e%2e/photos.png",
        papers.BASE + "/etc/passwd", papers.BASE,
    ],
)
def test_the_pdf_library_is_given_no_file_and_no_network(address):
    with pytest.raises(ValueError, match=r"No static file is called|disallowed protocol"):
        papers._fetcher().fetch(address)


def test_it_is_given_our_own_style_sheets():
    assert papers._fetcher().fetch(papers.BASE + "structures/variables.css").read()


@pytest.mark.django_db
def test_what_somebody_typed_is_printed_and_not_followed(sue, wes, monkeypatch):
    asked, real = [], papers._fetcher

    def noting():
        fetcher = real()
        fetch = fetcher.fetch

        def note(url, headers=None):
            asked.append(url)
            return fetch(url, headers)

        fetcher.fetch = note
        return fetcher

    monkeypatch.setattr(papers, "_fetcher", noting)
    order = a_confirmed(a_structure(), by=sue, customer=a_customer(name=TRICK))
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    ship(order, by=wes, shipped_on=date(2026, 3, 9), note=TRICK)
    paper = PdfReader(BytesIO(bytes(order.papers.get().content)))
    assert "file:///etc/passwd" in "".join(page.extract_text() for page in paper.pages)
    assert not paper.attachments
    assert asked
    assert [url for url in asked if not url.startswith((papers.BASE, "data:"))] == []


def test_after_a_paper_that_could_not_be_made_garbage_is_looked_for_again(monkeypatch):
    seen = []

    def fall(html):
        seen.append(gc.isenabled())
        raise MemoryError

    monkeypatch.setattr(weasyprint.HTML, "write_pdf", fall)
    with pytest.raises(MemoryError):
        papers.make_pdf("<p>Words</p>")
    assert (seen, gc.isenabled()) == ([False], True)
