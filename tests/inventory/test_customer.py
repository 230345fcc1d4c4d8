"""Somebody who ordered: their page, and putting right what is known about them."""

from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.models import Customer
from inventory.queries.found import find
from structures.models import Event
from tests.inventory.selling import a_customer, a_draft, a_structure
from tests.pages import queries, value_of, words

pytestmark = pytest.mark.django_db
FACTS = {"name": "Ada Quill", "farm": "Quillmere Croft", "town": "Tarn Mills", "phone": "207 555 0188", "note": ""}


@pytest.fixture
def customer():
    return a_customer()


def keep(client, customer, key=None, **facts):
    url = reverse("inventory:customer-keep", args=[customer.pk])
    return client.post(url, {"request_key": str(key or uuid4()), **FACTS, **facts})


def test_the_page_lists_what_they_ordered(client_for, customer, sue):
    order = a_draft(customer=customer, by=sue)
    said = words(client_for(sue).get(reverse("inventory:customer-detail", args=[customer.pk])))
    assert f"{order.label} G26 × 48, D" in said
    assert "Phone 207 555 0117" in said


@pytest.mark.parametrize("who", ["sue", "olive"])
def test_what_is_known_is_put_right_and_found_by_it(who, client_for, customer, request):
    assert keep(client_for(request.getfixturevalue(who)), customer).status_code == 302
    customer.refresh_from_db()
    assert (customer.town, customer.phone_digits) == ("Tarn Mills", "12075550188")
    assert [hit.row for hit in find("tarn-mills").people] == [customer]
    event = Event.objects.get(verb="customer changed")
    assert (event.before["town"], event.after["town"]) == ("Quillmere", "Tarn Mills")


def test_nothing_that_differs_writes_nothing(client_for, customer, sue):
    keep(client_for(sue), customer)
    keep(client_for(sue), customer)
    assert Event.objects.filter(verb="customer changed").count() == 1


def test_without_a_name_it_is_refused_and_stays_typed(client_for, customer, sue):
    page = keep(client_for(sue), customer, name="")
    assert page.status_code == 422
    assert "The name is missing: unknown is a name too." in words(page)
    assert value_of(page, "town") == "Tarn Mills"
    assert Customer.objects.get().town == "Quillmere"


def test_sent_twice_it_is_kept_once(client_for, customer, sue):
    client, key = client_for(sue), uuid4()
    assert [keep(client, customer, key).status_code for _ in range(2)] == [302, 302]
    assert keep(client, customer, key, town="Elsewhere").status_code == 409
    assert Customer.objects.get().town == "Tarn Mills"


def test_roles(client_for, customer, wes, ada, olive):
    assert [keep(client_for(who), customer).status_code for who in (wes, ada, None)] == [403, 404, 302]
    assert client_for(wes).get(reverse("inventory:customer-detail", args=[customer.pk])).status_code == 200
    assert client_for(olive).get(reverse("inventory:customer-keep", args=[customer.pk])).status_code == 405
    assert Customer.objects.get().town == "Quillmere"


def test_the_queries_do_not_grow_with_the_orders(client_for, customer, sue):
    client, page = client_for(sue), reverse("inventory:customer-detail", args=[customer.pk])
    a_draft(customer=customer, by=sue)
    few = queries(client, page)
    for _ in range(3):
        a_draft(a_structure(feet=72), customer=customer, by=sue)
    assert queries(client, page) == few
