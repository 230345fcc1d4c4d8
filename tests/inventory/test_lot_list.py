"""Where a lot went: the question of the day on which a lot turns out soft."""

from datetime import date

import pytest
from django.urls import reverse

from inventory.actions.orders import LineSpec
from inventory.actions.shipments import ship
from tests.inventory.selling import a_confirmed, a_customer, pick_all, stock
from tests.inventory.stock import make_bin, make_part, stocked
from tests.pages import words

pytestmark = pytest.mark.django_db


@pytest.fixture
def sent(wes):
    """Send a few of a part and lot to somebody: `sent("Ada Quill", "BC190", "C-0417", 4)`."""

    def send_it(name, number, lot, count):
        part = make_part(number)
        order = a_confirmed(LineSpec(part=part, quantity=count), customer=a_customer(name), by=wes)
        stock(part, count, by=wes, bin="D-05", lot=lot)
        pick_all(order, by=wes)
        ship(order, by=wes, shipped_on=date(2026, 3, 10))
        return order

    return send_it


def rows(response):
    lines = response.context["table"].page.object_list
    return [(row.get_cell_value("customer"), row.record.part.number, row.record.count) for row in lines]


def page(client, query=""):
    return client.get(reverse("inventory:lot-list") + query)


def test_orders_and_stock_of_a_lot_are_found(sue, wes, client_for, sent):
    order = sent("Ada Quill", "BC190", "C-0417", 4)
    sent("Bram Sallow", "BC190", "C-0421", 5)
    stocked(wes, "BC190", "D-05", 30, lot="C-0417")
    make_bin("Q-01", held_back=True)
    stocked(wes, "BC190", "Q-01", 460, lot="C-0417")
    found = page(client_for(sue), "?lot=c-0417")
    assert rows(found) == [("Ada Quill", "BC190", 4)]
    figures = found.context["figures"]
    assert (figures.on_hand, figures.held_back, figures.sent, figures.orders) == (30, 460, 4, 1)
    assert f'href="{reverse("inventory:order-detail", args=[order.label])}"' in found.content.decode()


def test_a_part_narrows_it(wes, client_for, sent):
    sent("Ada Quill", "BC190", "C-0417", 4)
    sent("Ada Quill", "BC166", "C-0417", 6)
    assert sorted(rows(page(client_for(wes), "?lot=C-0417"))) == [("Ada Quill", "BC166", 6), ("Ada Quill", "BC190", 4)]
    narrowed = page(client_for(wes), "?lot=C-0417&part=bc166")
    assert rows(narrowed) == [("Ada Quill", "BC166", 6)]
    assert narrowed.context["figures"].sent == 6


def test_without_a_lot_nothing_is_listed(wes, client_for, sent):
    sent("Ada Quill", "BC190", "C-0417", 4)
    asked = page(client_for(wes))
    assert rows(asked) == []
    assert "Name a lot as it stands on its tag" in words(asked)


def test_a_lot_that_was_never_sent_says_so_without_promising(wes, client_for):
    assert "Pieces of unknown lots may be of it." in words(page(client_for(wes), "?lot=C-9999"))


def test_it_is_taken_away_as_csv(sue, client_for, sent):
    order = sent("Ada Quill", "BC190", "C-0417", 4)
    taken = page(client_for(sue), "?lot=C-0417&export=csv").content.decode().splitlines()
    assert taken[1] == f"{order.label},Ada Quill,none yet,BC190,C-0417,4,bundle 1,2026-03-10"


def test_queries_are_equal_at_one_row_and_at_three(wes, client_for, sent, django_assert_num_queries):
    client = client_for(wes)
    sent("Ada Quill", "BC190", "C-0417", 4)
    # session, person, what lies there, what was sent, how many, rows, structures
    for _ in range(2):
        with django_assert_num_queries(7):
            page(client, "?lot=C-0417")
        sent("Ada Quill", "BC190", "C-0417", 5)
        sent("Bram Sallow", "BC190", "C-0417", 6)
