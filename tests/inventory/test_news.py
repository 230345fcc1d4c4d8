"""What the first page says of orders and picks."""

from datetime import date, timedelta

import pytest
from django.utils import timezone

from tests.inventory.selling import a_confirmed
from tests.pages import words

pytestmark = pytest.mark.django_db


def test_nothing_is_said_while_nothing_is_open(sue, client_for):
    assert "open" not in words(client_for(sue).get("/"))


def test_a_late_promise_stands_first(sue, client_for):
    a_confirmed(promised_on=date(2020, 1, 1))
    a_confirmed(promised_on=timezone.localdate() + timedelta(days=400))
    said = words(client_for(sue).get("/"))
    assert "1 promise is late. 2 orders are open; the next is promised for " in said


def test_the_warehouse_reads_what_still_wants_parts(wes, client_for):
    a_confirmed(promised_on=date(2020, 1, 1))
    said = words(client_for(wes).get("/"))
    assert "1 order still wants parts from the bins." in said
    assert "late" not in said
