"""Sending a load: only what was picked, with tags, and the packing list kept as it went."""

import builtins
import hashlib
from datetime import date, timedelta
from importlib import import_module
from io import BytesIO
from uuid import uuid4

import pytest
from django.apps import apps
from django.db import DatabaseError, transaction
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from inventory.actions.orders import LineSpec
from inventory.actions.picking import record_pick, undo_pick
from inventory.actions.shipments import Stands, next_tag, ship
from inventory.models import Order, Package, PackageLine, Part, SentStructure, Shipment, StoredPaper
from structures.models import Structure
from structures.refusals import Refuse
from tests.factories import structure
from tests.inventory.selling import a_confirmed, a_family, a_structure, pick_all, stock, stock_for
from tests.pages import value_of, words

pytestmark = pytest.mark.django_db
DAY = date(2026, 3, 9)


@pytest.fixture
def order(sue, wes):
    """Everything of a G26 x 48 picked."""
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    return order


def send(client, order, key=None, **data):
    url = reverse("inventory:order-send", args=[order.label])
    facts = {"shipped_on": "2026-03-09", "tag_1": "", "name_1": "", "town_1": "Quillmere", "place_1": "Quillmere Croft"}
    return client.post(url, {"request_key": str(key or uuid4()), **facts, **data})


def pages_of(paper):
    return [page.extract_text() for page in PdfReader(BytesIO(bytes(paper.content))).pages]


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_what_was_picked_is_sent_with_its_tag(who, client_for, order, request):
    client = client_for(request.getfixturevalue(who))
    done = send(client, order, tag_1="t-0412", name_1="Long field", carrier="our own truck")
    assert done.headers["Location"] == reverse("inventory:order-packages", args=[order.label])
    structure = Structure.objects.get()
    assert (structure.tag, structure.name, structure.place, structure.order_number, structure.left_on) == (
        "T-0412", "Long field", "Quillmere Croft", order.label, DAY,
    )
    assert SentStructure.objects.get().order == order
    order.refresh_from_db()
    assert (order.status, Shipment.objects.get().carrier) == ("shipped", "our own truck")


def test_every_piece_that_was_picked_is_in_one_package_with_its_lot(order, wes):
    ship(order, by=wes, shipped_on=DAY)
    sent = {}
    for line in PackageLine.objects.select_related("part"):
        key = (line.part.number, line.lot)
        sent[key] = sent.get(key, 0) + line.count
    taken = {}
    for line in order.pick.lines.select_related("part"):
        for entry in line.entries.all():
            taken[line.part.number, entry.lot] = taken.get((line.part.number, entry.lot), 0) + entry.count
    assert sent == taken


def test_the_packing_list_is_kept_byte_for_byte(client_for, order, wes):
    ship(order, by=wes, shipped_on=DAY)
    paper = StoredPaper.objects.get()
    assert (paper.kind, paper.name) == ("packing list", f"packing-list-{order.label}.pdf")
    served = client_for(wes).get(reverse("inventory:paper-file", args=[paper.pk]))
    assert served.headers["Content-Type"] == "application/pdf"
    assert served.content == bytes(paper.content)
    assert hashlib.sha256(served.content).hexdigest() == paper.sha256


def test_order_customer_date_revision_and_page_stand_on_every_page(order, wes):
    ship(order, by=wes, shipped_on=DAY)
    pages = pages_of(StoredPaper.objects.get())
    assert len(pages) > 1
    for n, text in enumerate(pages, 1):
        assert f"Order {order.label}, Ada Quill. G26 × 48 ft, revision D, 2021. Shipped 9 Mar 2026" in text
        assert f"page {n} of {len(pages)}" in text


def test_the_packing_list_says_items_lengths_counts_places_and_leftovers(order, wes):
    ship(order, by=wes, shipped_on=DAY)
    text = " ".join(" ".join(pages_of(StoredPaper.objects.get())).split())
    for said in (
        "1. Bundle, hoop side sections, left", "left legs, H1 to H13", "4-1 3/8", "6-7 3/16", "each corner, H1-brace-hip to",
        "3 offcuts of about 4-6, one from each run. They are not missing pieces.", "look up before lifting",
        "Not in this order:", "Snow pack (5 pieces, 10 bands)", "offered and not bought",
    ):
        assert said in text
    for line in PackageLine.objects.all():
        assert line.lot in text


def test_the_pdf_library_has_nothing_to_complain_of(order, wes, caplog):
    with caplog.at_level("WARNING", logger="weasyprint"):
        ship(order, by=wes, shipped_on=DAY)
    assert [record.message for record in caplog.records if record.name.startswith("weasyprint")] == []


def test_without_the_pdf_libraries_nothing_is_sent(order, wes, monkeypatch):
    real = builtins.__import__

    def without(name, *args, **kwargs):
        if name == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", without)
    with pytest.raises(Refuse, match=r"The PDF can't be made here"):
        ship(order, by=wes, shipped_on=DAY)
    assert not Shipment.objects.exists()
    assert Order.objects.get().status == "picking"


def test_the_page_says_how_many_lines_stay_behind(client_for, order, wes):
    page = reverse("inventory:order-ship", args=[order.label])
    assert "Stays to come nothing" in words(client_for(wes).get(page))
    undo_pick(order.pick.lines.get(part__number="CH10"), key=uuid4(), by=wes)
    assert "Stays to come 1 line" in words(client_for(wes).get(page))


def test_a_short_order_is_sent_in_two_loads(client_for, sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    channel = order.pick.lines.get(part__number="CH10")
    for line in order.pick.lines.exclude(pk=channel.pk):
        record_pick(line, line.to_pick, key=uuid4(), by=wes)
    ship(order, by=wes, shipped_on=DAY)
    order.refresh_from_db()
    assert order.status == "part shipped"
    first = " ".join(" ".join(pages_of(StoredPaper.objects.get())).split())
    assert "Still to come on this order: 18 Wire channel with wire, 10 ft (CH10)" in first
    record_pick(channel, channel.to_pick, key=uuid4(), by=wes)
    second = ship(order, by=wes, shipped_on=DAY + timedelta(days=23))
    order.refresh_from_db()
    assert (second.part, order.status) == (2, "shipped")
    assert [line.part.number for line in PackageLine.objects.filter(package__shipment=second)] == ["CH10"]
    assert Structure.objects.get().left_on == DAY
    assert f"Order {order.label}, part 2, Ada Quill." in pages_of(second.papers.get())[0]


def test_two_structures_have_a_tag_each(sue, wes):
    revision = a_family()
    order = a_confirmed(a_structure(revision), a_structure(revision, 24), by=sue)
    for line in order.pick.lines.select_related("part"):
        stock(line.part, line.to_pick, by=wes, bin="C-14")
    pick_all(order, by=wes)
    ship(order, by=wes, shipped_on=DAY, structures={1: Stands(tag="T-0500"), 2: Stands(name="Small one")})
    assert {s.tag: s.design.read().measures.hoops for s in Structure.objects.all()} == {"T-0500": 13, "T-0501": 7}


def test_those_shipped_before_the_day_was_kept_get_it_from_their_first_load(sue, wes):
    revision = a_family()
    order = a_confirmed(a_structure(revision), a_structure(revision, 24), by=sue)
    for line in order.pick.lines.select_related("part"):
        stock(line.part, line.to_pick, by=wes, bin="C-14")
    for ordinal in (1, 2):
        for line in order.pick.lines.filter(order_line__ordinal=ordinal):
            record_pick(line, line.to_pick, key=uuid4(), by=wes)
        ship(order, by=wes, shipped_on=DAY + timedelta(days=ordinal), structures={ordinal: Stands(tag=f"T-050{ordinal}")})
    Structure.objects.update(left_on=None)
    structure("T-0600")  # no order brought it
    fill = import_module("inventory.migrations.0004_structures_left_on").fill
    fill(apps, None)
    assert dict(Structure.objects.values_list("tag", "left_on")) == {
        "T-0501": date(2026, 3, 10), "T-0502": date(2026, 3, 11), "T-0600": None,
    }


def test_a_finishing_day_from_before_the_load_left_is_not_touched_by_the_filling(order, wes):
    ship(order, by=wes, shipped_on=DAY)
    Structure.objects.update(left_on=None, finished_on=DAY - timedelta(days=1))
    import_module("inventory.migrations.0004_structures_left_on").fill(apps, None)
    assert (Structure.objects.get().left_on, Structure.objects.get().finished_on) == (None, date(2026, 3, 8))


def test_loose_parts_alone_make_no_structure(sue, wes):
    a_confirmed(by=sue)
    order = a_confirmed(LineSpec(part=Part.objects.get(number="SB26"), quantity=3), by=sue)
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    ship(order, by=wes, shipped_on=DAY)
    assert not Structure.objects.exists()
    assert "loose parts" in pages_of(StoredPaper.objects.get())[0]


@pytest.mark.parametrize(("data", "field", "sentence"), [
    ({"tag_1": "tag one"}, "tag_1", "'tag one' can't be a tag: letters, figures and dashes would do, like T-0001."),
    ({"shipped_on": "2026-33-01"}, "shipped_on", "2026-33-01 is no day: write it like 2026-03-12."),
    ({"shipped_on": ""}, "shipped_on", "Leaves on is missing: give a day, like 2026-03-12."),
])
def test_what_can_t_be_is_one_sentence_and_stays_typed(data, field, sentence, client_for, order, wes):
    page = send(client_for(wes), order, **data)
    assert page.status_code == 422
    assert sentence in words(page)
    assert value_of(page, field) == data[field]
    assert not Shipment.objects.exists()


def test_a_day_that_has_not_come_is_refused(client_for, order, wes):
    day = timezone.localdate() + timedelta(days=1)
    page = send(client_for(wes), order, shipped_on=day.isoformat())
    assert f"{day} has not come yet: give the day on which the load really leaves." in words(page)


def test_a_tag_in_use_names_a_free_one(client_for, order, wes):
    Structure.objects.create(tag="T-0412", name="Long field")
    page = send(client_for(wes), order, tag_1="T-0412")
    assert "Tag T-0412 is on another structure already: T-0413 is free." in words(page)


def test_nothing_picked_is_nothing_sent(sue, wes):
    order = a_confirmed(by=sue)
    with pytest.raises(Refuse, match=r"Nothing was picked for order \d+ that is not sent yet: pick first, then ship\."):
        ship(order, by=wes, shipped_on=DAY)


def test_what_was_sent_is_not_undone(sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    line = order.pick.lines.get(part__number="SB26")
    record_pick(line, 8, key=uuid4(), by=wes)
    ship(order, by=wes, shipped_on=DAY)
    with pytest.raises(Refuse, match="were shipped: they can't be undone here"):
        undo_pick(line, key=uuid4(), by=wes)


def test_sent_twice_it_goes_once(client_for, order, wes):
    client, key = client_for(wes), uuid4()
    assert [send(client, order, key).status_code for _ in range(2)] == [302, 302]
    assert (Shipment.objects.count(), StoredPaper.objects.count(), Structure.objects.count()) == (1, 1, 1)


def test_roles(client_for, order, wes, sue, ada):
    assert [send(client_for(who), order).status_code for who in (sue, ada, None)] == [403, 404, 302]
    assert client_for(wes).get(reverse("inventory:order-send", args=[order.label])).status_code == 405
    assert client_for(ada).get(reverse("inventory:order-packages", args=[order.label])).status_code == 404
    assert not Shipment.objects.exists()


@pytest.mark.parametrize("model", [Shipment, Package, PackageLine, StoredPaper, SentStructure])
def test_the_database_itself_refuses_to_change_what_was_sent(model, order, wes):
    ship(order, by=wes, shipped_on=DAY)
    field = {"Shipment": "note", "Package": "title", "PackageLine": "goes", "StoredPaper": "name"}.get(model.__name__)
    change = {field: "other"} if field else {"ordinal": 9}
    with pytest.raises(DatabaseError), transaction.atomic():
        model.objects.update(**change)
    with pytest.raises(DatabaseError), transaction.atomic():
        model.objects.first().delete()


def test_the_next_tag_follows_the_highest():
    Structure.objects.bulk_create([Structure(tag=tag, name="x") for tag in ("T-0009", "T-0412", "P-0093", "T-12")])
    assert next_tag() == "T-0413"
