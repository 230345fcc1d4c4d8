"""One box over name, phone, order, town, tag and part: a table for each kind, and why each line is there."""

from datetime import date
from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.actions.picking import record_pick
from inventory.actions.shipments import Stands, ship
from inventory.queries.found import find
from tests.inventory.selling import a_confirmed, a_customer, a_draft, a_family, stock
from tests.pages import queries, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def orders(sue, wes):
    """Ada Quill's shipped order with tag T-0412, and Joss Tarrant's draft; 412 is in his phone."""
    ada = a_confirmed(by=sue)
    line = ada.pick.lines.get(part__number="SB26")
    stock(line.part, 8, by=wes)
    record_pick(line, 8, key=uuid4(), by=wes)
    ship(ada, by=wes, shipped_on=date(2024, 3, 12), structures={1: Stands(tag="T-0412", name="Long field")})
    joss = a_draft(customer=a_customer("Joss Tarrant", farm="", town="Low Sedge", phone="555 0412"), by=sue)
    return ada, joss


def page(client, asked):
    return client.get(reverse("inventory:find"), {"q": asked})


@pytest.mark.parametrize("asked", [
    "quil", "QUILL", "ada quill", "Quillmere", "207 555 0117", "(207) 555-0117", "2075550117", "+1 207.555.0117", "555-0117",
    "T-0412", "t 0412", "412", "T-412", "quill-mere",
])
def test_an_order_is_found_by_whatever_the_caller_has(asked, orders):
    found = find(asked)
    assert orders[0] in [hit.row for hit in found.orders]


def test_an_order_is_found_by_its_number(orders):
    for asked in (orders[0].label, f"0{orders[0].label}", f"order {orders[0].label}"):
        assert find(asked).orders[0].row == orders[0]


def test_the_line_that_answers_both_words_stands_first(client_for, orders, sue):
    said = words(page(client_for(sue), "quil 412"))
    assert "The first line answers all 2 words." in said
    ada, joss = orders
    assert said.index(f"{ada.label} Ada Quill") < said.index(f"{joss.label} Joss Tarrant")
    assert "name begins Quil; farm begins Quil; tag T-0412" in said
    assert "phone 555 0412; nothing like quil" in said


def test_what_matched_is_marked_and_the_rest_is_not(client_for, orders, sue):
    html = page(client_for(sue), "quil 412").content.decode()
    assert 'Ada <b class="hit">Quil</b>l, <b class="hit">Quil</b>lmere Croft' not in html   # each word marks once
    assert 'Ada <b class="hit">Quil</b>l, Quillmere Croft' in html
    assert 'T-0<b class="hit">412</b>' in html


def test_it_leads_straight_to_the_answer(client_for, orders, sue):
    html = page(client_for(sue), "quill").content.decode()
    assert reverse("inventory:order-answer", args=[orders[0].label]) in html


@pytest.mark.parametrize(("asked", "number"), [
    ("SB26", "SB26"), ("sb-26", "SB26"), ("bow", "HS26-S"), ("rib", "HS26-R"), ("wind brace", "SB26"), ("strap clamp", "BC190"),
    ("rafter brace", "RU26"), ("collar", "GP166-30"),
])
def test_a_part_is_found_by_number_and_by_what_the_trade_calls_it(asked, number, orders):
    assert number in [hit.row.number for hit in find(asked).parts]


def test_the_trades_word_is_said(client_for, orders, sue):
    assert "name is what some call rib: Hoop roof section, 26 ft" in words(page(client_for(sue), "rib"))


def test_people_and_structures_have_tables_of_their_own(client_for, orders, sue):
    found = find("quill")
    assert [hit.row.tag for hit in found.structures] == ["T-0412"]
    assert [hit.row.name for hit in found.people] == ["Ada Quill"]


@pytest.mark.parametrize("asked", ["", "   ", "%", "_", "'; --", "zzzz", "9" * 60, "П", "-" * 200, "8 " * 40])
def test_odd_questions_find_nothing_and_say_so(asked, client_for, orders, sue):
    answer = page(client_for(sue), asked)
    assert answer.status_code == 200
    assert not find(asked).any


def test_a_question_with_a_nul_in_its_address_is_refused_before_anything_is_looked_up(client_for, orders, sue):
    assert page(client_for(sue), "\x00").status_code == 400
    assert not find("\x00").any


def test_nothing_found_offers_what_else_would_do(client_for, orders, sue):
    said = words(page(client_for(sue), "zzzz"))
    assert "Nothing here holds any of these words." in said
    assert "Type in an old order from paper" in said


def test_roles(client_for, wes, ada):
    assert [page(client_for(who), "quil").status_code for who in (wes, ada, None)] == [200, 404, 302]


def test_the_queries_do_not_grow_with_what_is_found(client_for, sue):
    revision = a_family()
    assert revision
    a_draft(by=sue)
    client = client_for(sue)
    few = queries(client, reverse("inventory:find") + "?q=quill")
    for n in range(4):
        a_draft(customer=a_customer(f"Quill {n}", phone=""), by=sue)
    assert queries(client, reverse("inventory:find") + "?q=quill") == few
