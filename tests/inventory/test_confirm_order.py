"""Taking an order down, and confirming it: designs are frozen, parts are spoken for."""

from datetime import date
from uuid import uuid4

import pytest
from django.db import DatabaseError, transaction
from django.urls import reverse

from inventory.actions.orders import LineSpec, confirm_order, new_draft, set_draft, specs_of
from inventory.models import Order, OrderLine, Part, PickLine
from structures.actions.families import load_family
from structures.models import Design, Event
from structures.refusals import Refuse
from tests.inventory.selling import PROMISED, a_confirmed, a_customer, a_draft, a_family, a_structure

pytestmark = pytest.mark.django_db


def confirm(client, order, key=None):
    return client.post(reverse("inventory:order-confirm", args=[order.label]), {"request_key": str(key or uuid4())})


@pytest.mark.parametrize("who", ["sue", "olive"])
def test_it_is_confirmed_and_its_design_frozen(who, client_for, request):
    person = request.getfixturevalue(who)
    order = a_draft(by=person)
    assert confirm(client_for(person), order).status_code == 302
    order.refresh_from_db()
    line = order.version.lines.get()
    assert (order.status, order.version.confirmed_at is not None) == ("confirmed", True)
    assert line.design.read().measures.length_in == 576.0
    assert Event.objects.filter(verb="order confirmed", about=f"order {order.label}", who=person).count() == 1


def test_the_pick_has_a_line_for_every_part_of_the_kit(sue):
    order = a_confirmed(by=sue)
    wanted = {line.part: line.quantity for line in order.version.lines.get().design.read().lines}
    lines = order.pick.lines.select_related("part")
    assert {line.part.number: line.to_pick for line in lines} == wanted
    assert {(line.picked, line.promised_on) for line in lines} == {(0, PROMISED)}


def test_parts_are_spoken_for_from_the_confirmation_on(sue):
    order = a_draft(by=sue)
    assert not PickLine.objects.spoken_for().exists()
    confirm_order(order, by=sue)
    assert {line.part.number: line.wanted for line in PickLine.objects.spoken_for().select_related("part")}["SB26"] == 8


def test_two_structures_and_loose_parts_have_lines_of_their_own(sue):
    revision = a_family()
    a_confirmed(a_structure(revision), by=sue)
    loose = LineSpec(part=Part.objects.get(number="SB26"), quantity=3)
    order = a_confirmed(a_structure(revision), a_structure(revision, 72), loose, by=sue)
    lines = order.pick.lines.filter(part__number="SB26").order_by("order_line__ordinal")
    assert [(line.order_line.ordinal, line.to_pick) for line in lines] == [(1, 8), (2, 8), (3, 3)]


def test_equal_structures_share_a_design(sue):
    revision = a_family()
    a_confirmed(a_structure(revision), a_structure(revision), by=sue)
    a_confirmed(a_structure(revision), by=sue)
    assert Design.objects.count() == 1


@pytest.mark.parametrize(("make", "sentence"), [
    (lambda sue: a_draft(by=sue, promised_on=None), "No date is promised: give the day on which it is to leave here."),
    (lambda sue: new_draft(a_customer(), [], by=sue, number=1300), "Order 1300 has no line yet: give it a structure or loose parts first."),
])
def test_what_is_missing_is_said_and_nothing_is_confirmed(make, sentence, client_for, sue):
    order = make(sue)
    answer = confirm(client_for(sue), order)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert Order.objects.get().status == "draft"


def test_a_confirmed_order_is_not_confirmed_again(sue):
    order = a_confirmed(by=sue)
    with pytest.raises(Refuse, match="is confirmed and no draft any more: change it instead"):
        confirm_order(order, by=sue)


def test_sent_twice_it_is_confirmed_once(client_for, sue):
    order, key = a_draft(by=sue), uuid4()
    client = client_for(sue)
    assert [confirm(client, order, key).status_code for _ in range(2)] == [302, 302]
    assert Event.objects.filter(verb="order confirmed").count() == 1


def test_the_warehouse_may_not_and_a_grower_finds_nothing(client_for, sue, wes, ada):
    order = a_draft(by=sue)
    assert confirm(client_for(wes), order).status_code == 403
    assert confirm(client_for(ada), order).status_code == 404
    assert confirm(client_for(None), order).status_code == 302
    assert client_for(sue).get(reverse("inventory:order-confirm", args=[order.label])).status_code == 405
    assert Order.objects.get().status == "draft"


@pytest.mark.parametrize("change", [
    lambda order: OrderLine.objects.filter(version__order=order).update(quantity=2),
    lambda order: OrderLine.objects.filter(version__order=order).delete(),
    lambda order: order.versions.update(why="something else"),
    lambda order: order.versions.get().delete(),
])
def test_the_database_itself_refuses_to_change_what_was_confirmed(change, sue):
    order = a_confirmed(by=sue)
    with pytest.raises(DatabaseError), transaction.atomic():
        change(order)


def test_a_draft_may_be_written_anew(sue):
    order = a_draft(by=sue)
    set_draft(order, [a_structure(feet=72)], by=sue, promised_on=date(2026, 4, 1), note="asked for 72")
    order.refresh_from_db()
    assert (order.version.lines.get().size, order.promised_on, order.note) == ("G26 × 72", date(2026, 4, 1), "asked for 72")
    assert specs_of(order.version)[0].configuration.length_in == 864.0


def test_a_changed_family_does_not_move_what_was_sold(sue, olive):
    order = a_confirmed(by=sue)
    design = order.version.lines.get().design
    before = design.document
    changed = design.family.text + "\n# another text\n"
    with pytest.raises(Refuse, match="was sold already"):
        load_family(changed, source="g26-d.toml", by=olive)
    assert Design.objects.get(pk=design.pk).document == before


def test_numbers_follow_each_other(sue):
    first, second = a_draft(by=sue), a_draft(by=sue)
    assert second.number == first.number + 1
