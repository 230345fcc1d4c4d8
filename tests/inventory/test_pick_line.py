"""The picker's screen: one line at a time, in bin order, with what was accepted always on it."""

from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.actions.orders import LineSpec
from inventory.actions.parts import sync_parts
from inventory.actions.picking import record_pick
from inventory.models import Part, PickEntry, PickLine
from tests.inventory.selling import a_confirmed, a_family, stock, stock_for
from tests.pages import queries, value_of, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def order(sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    return order


@pytest.fixture
def line(order):
    return order.pick.lines.select_related("part").get(part__number="SB26")


def url(name, line):
    return reverse(f"inventory:{name}", args=[line.pick.number, line.pk])


def send(client, name, line, key=None, **data):
    return client.post(url(name, line), {"request_key": str(key or uuid4()), **data})


def picked(line):
    return PickLine.objects.get(pk=line.pk).picked


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_it_shows_bin_part_length_and_count(who, client_for, line, request):
    page = client_for(request.getfixturevalue(who)).get(url("pick-line", line))
    shown = words(page)
    assert "bin A-17 for G26 × 48, each corner, H1-brace-hip to H2-mid to H3-foot Side brace A" in shown
    assert 'aria-label="4 feet 1 and 3/8 inches, feet-inches, hole to hole"' in page.content.decode()
    assert f"{line.pick.number}, line 17 of 20" in shown
    assert value_of(page, "count") == "8"


def test_ends_that_a_family_does_not_say_are_not_drawn_and_a_brace_stays_measured_from_hole_to_hole(client_for, line, order, wes):
    type(line.part).objects.filter(number__in=["SB26", "PS131-106"]).update(ends="")
    brace = client_for(wes).get(url("pick-line", line)).content.decode()
    assert "feet-inches, hole to hole" in brace
    assert "The end of this piece" not in brace
    stick = order.pick.lines.get(part__number="PS131-106")
    assert "feet-inches, over all" in client_for(wes).get(url("pick-line", stick)).content.decode()


def test_the_nearest_twin_is_a_warning_with_its_bin(client_for, line, wes):
    sync_parts(a_family("g20-b"), by=wes)
    stock("SB20", 60, by=wes, bin="C-15", walk=300)
    page = client_for(wes).get(url("pick-line", line))
    assert "Twin in bin C-15: SB20" in words(page)
    assert "they differ by 15/16" in page.content.decode()


def test_without_a_twin_there_is_no_frame(client_for, order, wes):
    ties = order.pick.lines.get(part__number="TI26")
    assert 'class="twin"' not in client_for(wes).get(url("pick-line", ties)).content.decode()


def test_a_count_is_taken_and_the_next_line_comes(client_for, line, wes):
    done = send(client_for(wes), "pick-take", line, count="8")
    assert (done.status_code, picked(line)) == (302, 8)
    after = line.pick.lines.get(part__number="SC14")
    assert done.headers["Location"] == url("pick-line", after)


def test_part_of_a_line_keeps_the_line(client_for, line, wes):
    done = send(client_for(wes), "pick-take", line, count="6")
    assert done.headers["Location"] == url("pick-line", line)


def test_reload_and_back_show_every_accepted_count(client_for, line, wes, olive):
    send(client_for(wes), "pick-take", line, count="5")
    send(client_for(olive), "pick-code", line, code="SB26")
    for _ in range(2):
        shown = words(client_for(wes).get(url("pick-line", line)))
        assert "now; 6 of 8 taken" in shown
        assert "5 from A-17, lot P-017, wes" in shown
        assert "1 from A-17, lot P-017, olive" in shown


def test_the_browser_keeps_no_page_of_a_pick(client_for, line, wes):
    for address in (url("pick-line", line), reverse("inventory:pick-detail", args=[line.pick.number])):
        assert "no-store" in client_for(wes).get(address).headers["Cache-Control"]


def test_the_last_line_leads_to_all_lines(client_for, order, wes):
    *rest, last = order.pick.lines.order_by("part__number")
    for row in rest:
        record_pick(row, row.to_pick, key=uuid4(), by=wes)
    done = send(client_for(wes), "pick-take", last, count=str(last.to_pick))
    assert done.headers["Location"] == reverse("inventory:pick-detail", args=[order.pick.number])


@pytest.mark.parametrize(("name", "data", "field", "sentence"), [
    ("pick-take", {"count": "9"}, "count", "0 of 8 are taken: 9 more would be 1 too many. 8 would do."),
    ("pick-take", {"count": "two"}, "count", "two is no whole number: write it like 44."),
    ("pick-take", {"count": "0"}, "count", "0 is less than 1: 1 or more would do."),
    ("pick-take", {"count": ""}, "count", "How many is missing: write a whole number, 1 or more."),
    ("pick-take", {"count": "2", "lot": "C#1"}, "lot", "Lot 'C#1' has other signs than letters"),
    ("pick-take", {"count": "2", "lot": "P-999"}, "lot", "The bins hold 0 of SB26, lot P-999, and 2 were to be taken"),
    ("pick-code", {"code": "RU26"}, "code", "That is RU26, Roof brace, upper, 26 ft, and line 17 wants SB26"),
    ("pick-code", {"code": ""}, "code", "No code was given: scan the label, or type its number."),
])
def test_what_can_t_be_is_one_sentence_and_what_was_typed_stays(name, data, field, sentence, client_for, line, wes):
    page = send(client_for(wes), name, line, **data)
    assert page.status_code == 422
    assert sentence in words(page)
    assert value_of(page, field) == data[field]
    assert (picked(line), PickEntry.objects.count()) == (0, 0)


def test_a_double_tap_takes_once(client_for, line, wes):
    client, key = client_for(wes), uuid4()
    answers = [send(client, "pick-take", line, key, count="3") for _ in range(2)]
    assert [(a.status_code, a.headers["Location"]) for a in answers] == [(302, url("pick-line", line))] * 2
    assert picked(line) == 3
    assert send(client, "pick-take", line, key, count="4").status_code == 409
    assert picked(line) == 3


def test_undo_and_short(client_for, line, wes):
    client = client_for(wes)
    send(client, "pick-take", line, count="6")
    send(client, "pick-undo", line)
    assert picked(line) == 0
    send(client, "pick-take", line, count="6")
    assert send(client, "pick-short", line).status_code == 302
    page = client.get(url("pick-line", line))
    assert "Said short at" in words(page)
    detail = words(client.get(reverse("inventory:pick-detail", args=[line.pick.number])))
    assert "2 short" in detail


def test_undo_of_nothing_is_one_sentence(client_for, line, wes):
    page = send(client_for(wes), "pick-undo", line)
    assert page.status_code == 422
    assert "Nothing was taken on line 17 that could be undone." in words(page)


def test_roles(client_for, line, sue, ada):
    for name in ("pick-take", "pick-code", "pick-undo", "pick-short"):
        assert send(client_for(sue), name, line, count="1", code="SB26").status_code == 403
        assert send(client_for(ada), name, line, count="1", code="SB26").status_code == 404
        assert send(client_for(None), name, line, count="1", code="SB26").status_code == 302
    assert client_for(None).get(url("pick-line", line)).status_code == 302
    assert picked(line) == 0


def test_a_line_of_another_pick_is_not_found(client_for, line, sue, wes):
    other = a_confirmed(by=sue)
    address = reverse("inventory:pick-line", args=[other.pick.number, line.pk])
    assert client_for(wes).get(address).status_code == 404


def test_lines_are_in_bin_order_and_keep_their_numbers_while_they_are_picked(client_for, order, line, wes):
    stock("TI26", 5, by=wes, bin="A-00", walk=0)
    page = client_for(wes).get(reverse("inventory:pick-detail", args=[order.pick.number]))
    bins = [row.bin for row in page.context["rows"]]
    assert (bins[0], bins[1:]) == ("A-00", sorted(bins[1:]))
    ties = order.pick.lines.get(part__number="TI26")
    record_pick(ties, 5, key=uuid4(), by=wes)
    rows = client_for(wes).get(reverse("inventory:pick-detail", args=[order.pick.number])).context["rows"]
    assert [(row.n, row.bin) for row in rows if row.line.part.number == "TI26"] == [(1, "A-19")]


def test_all_lines_take_the_same_queries_at_few_and_at_many(client_for, sue, wes):
    a_confirmed(by=sue)
    parts = list(Part.objects.order_by("number")[:3])
    few = a_confirmed(LineSpec(part=parts[0], quantity=2), by=sue)
    many = a_confirmed(*[LineSpec(part=part, quantity=2) for part in parts], by=sue)
    client = client_for(wes)
    counts = [queries(client, reverse("inventory:pick-detail", args=[order.pick.number])) for order in (few, many)]
    assert counts[0] == counts[1]
