"""What the first page says of stock."""

from datetime import timedelta

import pytest
from django.utils import timezone

from inventory.actions.supply import expect
from inventory.models import Part
from inventory.queries.stock_news import stock_news
from tests.inventory.selling import a_confirmed, a_structure
from tests.inventory.stock import make_part, stocked
from tests.pages import words

pytestmark = pytest.mark.django_db


def sentences(user):
    return [(news.sentence, news.url, news.late) for news in stock_news(user)]


def on_order(part, by, days):
    due_on = timezone.localdate() + timedelta(days=days)
    return expect({"part": part, "quantity": 2000, "supplier": "Ostvik Clamps", "due_on": due_on, "reference": ""}, by=by), due_on


def test_nothing_is_said_while_nothing_is_short_or_late(wes):
    on_order(make_part("BC190"), wes, 0)
    assert sentences(wes) == []


def test_the_worst_shortages_are_named_first(wes, olive, client_for):
    a_confirmed(a_structure(feet=48), by=wes)
    for part in Part.objects.exclude(number__in=["SB26", "RL26-R", "SC14", "PE131-10"]):
        stocked(wes, part.number, "C-14", 2000)
    stocked(wes, "SB26", "C-14", 1)
    stocked(wes, "RL26-R", "C-14", 1)
    assert sentences(wes) == [
        ("4 parts are short: SC14 by 300, SB26 by 7, PE131-10 by 6 and 1 more.", "/parts/?stock=short&sort=free", False)
    ]
    assert "4 parts are short" in words(client_for(olive).get("/"))


def test_one_short_part_is_one(wes):
    a_confirmed(a_structure(feet=48), by=wes)
    for part in Part.objects.exclude(number="SB26"):
        stocked(wes, part.number, "C-14", 2000)
    assert [news[0] for news in sentences(wes)] == ["1 part is short: SB26 by 8."]


def test_what_was_due_and_has_not_come_stands_in_red(wes):
    _, day = on_order(make_part("BC190"), wes, -3)
    assert sentences(wes) == [
        (f"1 delivery has not come: 2,000 of BC190 from Ostvik Clamps, due {day:%-d %B}.", "/on-order/", True)
    ]
    on_order(make_part("BC166"), wes, -2)
    assert sentences(wes)[0][0] == f"2 deliveries have not come: 2,000 of BC190 from Ostvik Clamps, due {day:%-d %B}, first."


def test_support_is_not_told(sue, wes, client_for):
    on_order(make_part("BC190"), wes, -3)
    assert "not come" not in words(client_for(sue).get("/"))


def test_two_queries_however_much_is_short(wes, django_assert_num_queries):
    for feet in (24, 48):
        a_confirmed(a_structure(feet=feet), by=wes)
        with django_assert_num_queries(2):
            list(stock_news(wes))
