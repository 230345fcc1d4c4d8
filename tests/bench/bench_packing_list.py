"""How long a packing list takes, against the PDF library alone on the same HTML. Printed, never asserted.

python3 manage.py test tests/bench -s
"""

from collections.abc import Callable
from datetime import date
from time import process_time

import pytest
from django.template.loader import render_to_string
from weasyprint import HTML

from inventory.actions.shipments import ship
from inventory.queries.papers import packing_list_context
from structures import papers
from tests.inventory.selling import a_confirmed, pick_all, stock_for

ROUNDS = 5


@pytest.mark.django_db
def test_a_packing_list_against_the_pdf_library_alone(olive, capsys):
    order = a_confirmed(by=olive)
    stock_for(order, by=olive)
    pick_all(order, by=olive)
    shipment = ship(order, by=olive, shipped_on=date(2026, 3, 9))
    html = render_to_string("pdf/packing_list.html", packing_list_context(shipment))
    ours = best_of(lambda: papers.make_paper("pdf/packing_list.html", packing_list_context(shipment)))
    alone = best_of(lambda: HTML(string=html, base_url=papers.BASE, url_fetcher=papers._fetcher()).write_pdf())
    pages = len(HTML(string=html, base_url=papers.BASE, url_fetcher=papers._fetcher()).render().pages)
    with capsys.disabled():
        print(f"\n\nPacking list of {pages} pages, best of {ROUNDS}")
        print(f"from the database to the PDF {ours * 1000:.0f} ms, the PDF library alone {alone * 1000:.0f} ms, ratio {ours / alone:.2f}")


def best_of(act: Callable[[], object]) -> float:
    times = []
    for _ in range(ROUNDS):
        start = process_time()
        act()
        times.append(process_time() - start)
    return min(times)
