"""The list of orders, one order, and taking one down from size and options."""

from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.urls import reverse
from django.utils import timezone

from inventory.actions.orders import LineSpec, cancel_order
from inventory.models import Customer, Order, Part
from tests.inventory.selling import a_confirmed, a_customer, a_draft, a_family, a_paper_order, a_structure, pick_all, stock_for
from tests.pages import queries, value_of, words

pytestmark = pytest.mark.django_db
SIZE = {"family": "G26-D", "length": "48-0", "spacing": "4-0", "base": "fixed", "tag_end": "framed", "far_end": "framed"}
WHO = {"name": "Ada Quill", "farm": "Quillmere Croft", "town": "Quillmere", "phone": "(207) 555-0117", "promised_on": "2026-03-10"}


def post(client, to, *args, key=None, **data):
    return client.post(reverse(f"inventory:{to}", args=args), {"request_key": str(key or uuid4()), **data})


@pytest.fixture
def family():
    return a_family()


@pytest.mark.parametrize("who", ["sue", "olive"])
def test_a_chosen_size_becomes_a_draft(who, client_for, family, request):
    client = client_for(request.getfixturevalue(who))
    page = client.get(reverse("inventory:order-new"), SIZE)
    assert "12 bays of 4-0. Included: side braces, roof braces, collar ties, wire channel, base fixed" in words(page)
    done = post(client, "order-take", **SIZE, **WHO)
    order = Order.objects.get()
    assert done.headers["Location"] == reverse("inventory:order-detail", args=[order.label])
    assert (order.customer.said, order.promised_on, order.status) == ("Ada Quill, Quillmere Croft", date(2026, 3, 10), "draft")
    assert order.version.lines.get().configuration["length_in"] == 576.0


def test_options_travel_with_the_size(client_for, family, sue):
    post(client_for(sue), "order-take", **SIZE, **WHO, chosen="1", option=["side-braces", "film"])
    assert Order.objects.get().version.lines.get().configuration["options"] == ["film", "side-braces"]


def test_a_size_that_can_t_be_is_refused_with_what_would_do(client_for, family, sue):
    page = post(client_for(sue), "order-take", **{**SIZE, "length": "50-0"}, **WHO)
    assert page.status_code == 422
    assert "Length 50-0 is no whole number of 4-0 bays: 48-0 or 52-0 would do." in words(page)
    assert not Order.objects.exists()


@pytest.mark.parametrize(("said", "sentence"), [
    ({"name": ""}, "The name is missing: who is it for?"), ({"promised_on": "soon"}, "soon is no day: write it like 2026-03-12."),
])
def test_what_is_missing_is_said_and_the_rest_stays_typed(said, sentence, client_for, family, sue):
    page = post(client_for(sue), "order-take", **SIZE, **{**WHO, **said})
    assert page.status_code == 422
    assert sentence in words(page)
    assert value_of(page, "town") == "Quillmere"
    assert not Customer.objects.exists()


def test_the_same_person_is_kept_once(client_for, family, sue):
    for phone in ("(207) 555-0117", "+1 207 555 0117", ""):
        post(client_for(sue), "order-take", **SIZE, **{**WHO, "phone": phone})
    assert (Customer.objects.count(), Order.objects.count()) == (1, 3)
    post(client_for(sue), "order-take", **SIZE, **{**WHO, "phone": "207 555 0199"})
    assert Customer.objects.count() == 2


def test_one_more_structure_onto_a_draft(client_for, family, sue):
    order = a_draft(by=sue)
    assert post(client_for(sue), "order-put", **{**SIZE, "length": "72-0"}, order=order.label).status_code == 302
    assert [line.size for line in order.version.lines.all()] == ["G26 × 48", "G26 × 72"]


def test_a_size_in_place_of_a_line_comes_back_to_its_order(client_for, family, sue):
    order, client = a_draft(by=sue), client_for(sue)
    there = client.get(reverse("inventory:order-line-size", args=[order.label, 1]))
    assert there.headers["Location"].startswith("/size/?family=G26-D&length=48-0")
    sizes = client.get(there.headers["Location"])
    assert f"For order {order.label}, line 1 Size and options" in words(sizes)
    assert f'<a href="/orders/{order.label}/">' in sizes.content.decode()
    assert (value_of(sizes, "order"), value_of(sizes, "line")) == (order.label, "1")
    kept = client.get(reverse("structures:size-keep"), {**SIZE, "order": order.label, "line": "1"})
    page = client.get(kept.headers["Location"])
    assert (value_of(page, "order"), value_of(page, "line")) == (order.label, "1")
    post(client, "order-put", **{**SIZE, "length": "96-0"}, order=order.label, line="1")
    assert [line.size for line in order.version.lines.all()] == ["G26 × 96"]


def test_two_sizes_chosen_side_by_side_stay_with_their_own_orders(client_for, family, sue):
    first, second, client = a_draft(by=sue), a_draft(by=sue), client_for(sue)
    one, other = (client.get(reverse("inventory:order-size", args=[order.label])).headers["Location"] for order in (first, second))
    assert f"For order {first.label}, one structure more" in words(client.get(one))
    assert f"For order {second.label}, one structure more" in words(client.get(other))
    fresh = client.get(reverse("inventory:order-new"), SIZE)
    assert value_of(fresh, "order") == ""


def test_a_refused_name_keeps_the_order_that_the_size_was_chosen_for(client_for, family, sue):
    order = a_draft(by=sue)
    url = f"{reverse('inventory:order-take')}?order={order.label}&line=1"
    page = client_for(sue).post(url, {"request_key": str(uuid4()), **SIZE, **WHO, "name": ""})
    assert (page.status_code, value_of(page, "order"), value_of(page, "line")) == (422, order.label, "1")


def test_onto_a_confirmed_order_a_reason_is_asked_for(client_for, family, sue):
    order, client = a_confirmed(by=sue), client_for(sue)
    page = post(client, "order-put", **SIZE, order=order.label)
    assert page.status_code == 422
    assert "Say why the order is changed: a few words are enough." in words(page)
    assert post(client, "order-put", **SIZE, order=order.label, why="wants two").status_code == 302
    assert (order.version.number, order.version.lines.count()) == (2, 2)


@pytest.mark.parametrize(("said", "sentence"), [
    ({"order": "9999"}, "There is no order 9999: look at the list of orders for its number."),
    ({"order": "x; y"}, "There is no order x; y"),
    ({"order": "1001", "line": "7"}, "Line 7 of order 1001 is no structure: leave it empty to add one."),
    ({"order": "1001", "line": "one"}, "The line is no whole number: write it like 1, or leave it empty."),
])
def test_an_order_that_is_not_there_is_one_sentence(said, sentence, client_for, family, sue):
    assert a_draft(by=sue).label == "1001"
    page = post(client_for(sue), "order-put", **SIZE, **said)
    assert page.status_code == 422
    assert sentence in words(page)


def test_loose_parts_onto_a_draft(client_for, sue):
    a_confirmed(by=sue)
    order, client = a_draft(by=sue), client_for(sue)
    assert post(client, "order-loose", order.label, part="sb26", quantity="3").status_code == 302
    assert [line.size for line in order.version.lines.all()] == ["G26 × 48", "3 of Side brace, 26 ft"]
    page = post(client, "order-loose", order.label, part="SB99", quantity="3")
    assert page.status_code == 422
    assert value_of(page, "part") == "SB99"


def test_a_line_is_taken_off_a_draft(client_for, sue):
    order = a_draft(a_structure(feet=48), a_structure(feet=72), by=sue)
    assert post(client_for(sue), "order-drop-line", order.label, 1).status_code == 302
    assert [(line.ordinal, line.size) for line in order.version.lines.all()] == [(2, "G26 × 72")]
    assert post(client_for(sue), "order-drop-line", order.label, 1).status_code == 422


def test_sent_twice_it_is_taken_down_once(client_for, family, sue):
    client, key = client_for(sue), uuid4()
    assert [post(client, "order-take", key=key, **SIZE, **WHO).status_code for _ in range(2)] == [302, 302]
    assert Order.objects.count() == 1


def test_roles(client_for, family, sue, wes, ada):
    order = a_draft(by=sue)
    for name, args in (("order-take", ()), ("order-put", ()), ("order-keep", (order.label,)), ("order-loose", (order.label,))):
        assert [post(client_for(who), name, *args, **SIZE, **WHO).status_code for who in (wes, ada, None)] == [403, 404, 302]
    assert client_for(wes).get(reverse("inventory:order-detail", args=[order.label])).status_code == 200
    assert Order.objects.count() == 1


@pytest.fixture
def listed(sue):
    """Late, next week, a draft, and one from paper."""
    today = timezone.localdate()
    late = a_confirmed(by=sue, promised_on=today - timedelta(days=4))
    soon = a_confirmed(by=sue, promised_on=today + timedelta(days=7), customer=a_customer("Bram Sallow", town="Netherfold"))
    draft = a_draft(a_structure(feet=72), by=sue, promised_on=None, customer=a_customer("Ilse Harrow", town="Ravelstow"))
    return late, soon, draft, a_paper_order(by=sue)


def rows(page):
    return [row.record.label for row in page.context["table"].page.object_list]


def test_the_soonest_promise_stands_first_and_what_has_none_last(client_for, listed, sue):
    late, soon, draft, paper = listed
    page = client_for(sue).get(reverse("inventory:order-list"))
    assert rows(page) == [late.label, soon.label, draft.label, paper.label]
    assert "Open 2 Late 1" in words(page)
    assert "From paper 1" in words(page)


@pytest.mark.parametrize(("url", "who"), [("inventory:order-list", "sue"), ("inventory:pick-list", "wes")])
def test_a_late_promise_is_red_and_says_so(url, who, client_for, listed, request):
    a_draft(a_structure(feet=72), by=None, promised_on=date(2020, 1, 1), customer=a_customer("Ilse Harrow", town="Ravelstow"))
    page = client_for(request.getfixturevalue(who)).get(reverse(url)).content.decode()
    day = timezone.localdate() - timedelta(days=4)
    assert page.count('class="late"') == 1
    assert f'<span class="late">{day:%-d %b %Y}, late</span>' in page


@pytest.mark.parametrize(("asked", "found"), [
    ({"named": "sallow"}, [1]), ({"named": "ravel"}, [2]), ({"named": "1001"}, [0]), ({"named": "P-0001"}, [3]),
    ({"status": "draft"}, [2]), ({"status": "from paper"}, [3]), ({"family": "G26"}, [0, 1, 2, 3]), ({"family": "G99"}, []),
    ({"promised_before": "2100-01-01"}, [0, 1]), ({"promised_before": "soon"}, []), ({"sort": "-number"}, [3, 2, 1, 0]),
])
def test_it_is_narrowed_and_sorted(asked, found, client_for, listed, sue):
    page = client_for(sue).get(reverse("inventory:order-list"), asked)
    assert rows(page) == [listed[n].label for n in found]


@pytest.mark.parametrize("asked", [{"page": "0"}, {"page": "x"}, {"per_page": "-5"}, {"per_page": "100000"}, {"sort": "nothing"}])
def test_odd_figures_are_clamped(asked, client_for, listed, sue):
    assert client_for(sue).get(reverse("inventory:order-list"), asked).status_code == 200


def test_all_of_it_may_be_taken_as_csv(client_for, listed, sue):
    text = client_for(sue).get(reverse("inventory:order-list"), {"export": "csv"}).content.decode()
    lines = text.strip().splitlines()
    assert lines[0] == "Order,For,Town,Structure,Promised,State,How far"
    assert len(lines) == 5
    assert any(line.startswith("P-0001,Dunmarsh Farm") for line in lines)


def test_the_queries_of_the_list_do_not_grow(client_for, sue):
    client = client_for(sue)
    a_confirmed(by=sue)
    few = queries(client, reverse("inventory:order-list"))
    for _ in range(3):
        a_confirmed(LineSpec(part=Part.objects.get(number="SB26"), quantity=2), by=sue)
    assert queries(client, reverse("inventory:order-list")) == few


def test_the_queries_of_an_order_do_not_grow_with_its_lines(client_for, sue, family):
    one = a_confirmed(a_structure(family), by=sue)
    three = a_confirmed(*[a_structure(family)] * 3, by=sue)
    client = client_for(sue)
    assert len({queries(client, reverse("inventory:order-detail", args=[order.label])) for order in (one, three)}) == 1


def test_what_was_done_is_told_once_for_twenty_lines_on_end_and_with_its_reason(client_for, sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    lines = order.pick.lines.count()
    said = words(client_for(sue).get(reverse("inventory:order-detail", args=[order.label])))
    assert said.count(": picked") == 1
    assert f": picked {lines} times, {wes.called}" in said
    other = a_confirmed(by=sue)
    cancel_order(other, by=sue, why="Changed his mind")
    said = words(client_for(sue).get(reverse("inventory:order-detail", args=[other.label])))
    assert f"order cancelled, {sue.called}. Why: Changed his mind" in said
