"""Which braces came with an order, and where each goes: said, drawn, listed, and marked when nobody checked."""

import re
from datetime import date
from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.actions.orders import cancel_order, confirm_order
from inventory.actions.picking import record_pick, undo_pick
from inventory.actions.shipments import Stands, ship
from structures.actions.structures import append_change
from tests.inventory.selling import a_confirmed, a_draft, a_family, a_paper_order, a_structure, pick_all, stock_for
from tests.pages import queries, words

pytestmark = pytest.mark.django_db
DAY = date(2024, 3, 12)


def page(client, order, **asked):
    return client.get(reverse("inventory:order-answer", args=[order.label]), asked)


@pytest.fixture
def shipped(sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    ship(order, by=wes, shipped_on=DAY, structures={1: Stands(tag="T-0412", name="Long field")})
    order.refresh_from_db()
    return order


@pytest.mark.parametrize("who", ["sue", "wes", "olive"])
def test_it_answers_in_one_or_two_sentences(who, client_for, shipped, request):
    said = words(page(client_for(request.getfixturevalue(who)), shipped))
    assert (
        "This order included 16 corner brace pieces: 8 side and 8 roof, two chains in each corner. The lower roof pieces are "
        "turned, 2 to the left and 2 to the right. It did not include double film with a blower, film, ground "
        "anchors, hip and base boards, roll-up sides or snow pack."
    ) in said


def test_the_block_says_order_structure_revision_date_and_tag(client_for, shipped, sue):
    said = words(page(client_for(sue), shipped))
    assert (
        f"Order {shipped.label} for Ada Quill, Quillmere Croft Braces, and where each goes Structure G26 × 48 ft "
        "Revision D, 2021 Shipped 12 Mar 2024 Tag T-0412"
    ) in said


def test_every_piece_has_its_mark_length_count_places_and_package(client_for, shipped, sue):
    said = words(page(client_for(sue), shipped))
    for row in (
        "A Side brace SB26 4-1 3/8 8 H1-brace-hip to H2-mid to H3-foot hoop 1 hip to hoop 2 middle to hoop 3 foot, left and right alike "
        "H13-brace-hip to H12-mid to H11-foot hoop 13 hip to hoop 12 middle to hoop 11 foot, left and right alike bundle 6",
        "B Roof brace, lower, left twist RL26-L 6-7 3/16 2 H1-R-shoulder to H2-R-roof "
        "hoop 1 right shoulder to hoop 2 right middle H13-L-shoulder to H12-L-roof hoop 13 left shoulder to hoop 12 left middle bundle 6",
        "C Roof brace, lower, right twist RL26-R 6-7 3/16 2 H1-L-shoulder to H2-L-roof "
        "hoop 1 left shoulder to hoop 2 left middle H13-R-shoulder to H12-R-roof hoop 13 right shoulder to hoop 12 right middle bundle 6",
        "D Roof brace, upper RU26 6-7 3/16 4 H2-roof to H3-high hoop 2 middle to hoop 3 high, left and right alike "
        "H12-roof to H11-high hoop 12 middle to hoop 11 high, left and right alike bundle 6",
        "E Collar tie TI26 13-6 6 across H2, H4, H6, H8, H10 and H12 bundle 6",
    ):
        assert row in said


def test_the_kinds_of_no_stand_last_each_in_its_words(client_for, shipped, sue):
    said = words(page(client_for(sue), shipped))
    assert "Snow pack none Offered, not bought. It would add 5 pieces, 10 bands. Draw it" in said
    assert "Mid-length side braces none Not made for this size: G30 has it, over 72 ft." in said


def test_what_was_replaced_says_by_what(client_for, sue):
    order = a_confirmed(a_structure(a_family("g30-b"), 96), by=sue)
    assert "Snow pack none Replaced by ties on every inner hoop, standard from revision B." in words(page(client_for(sue), order))


def test_its_own_drawing_is_lit(client_for, shipped, sue):
    html = page(client_for(sue), shipped).content.decode()
    assert "Lit: A side brace, 8 of 4-1 3/8; " in html
    assert "B roof brace, lower, left twist, 2 of 6-7 3/16" in html
    assert len(re.findall(r"<svg[^>]*\bdw\b", html)) == 12   # frame, corner, section, joint, side and laid flat, each wide and narrow


def test_one_part_alone_may_be_lit(client_for, shipped, sue):
    html = page(client_for(sue), shipped, lit="TI26").content.decode()
    assert "Lit: E collar tie, 6 of 13-6." in html


def test_what_was_not_bought_is_drawn_when_asked(client_for, shipped, sue):
    drawn = page(client_for(sue), shipped, offer="snow-ties")
    assert "Offered, drawn as phantom lines: E collar tie, 5 of 13-6." in drawn.content.decode()
    assert "Leave it off the drawing" in words(drawn)


@pytest.mark.parametrize("asked", [{"offer": "nothing"}, {"offer": "mid-braces"}, {"lit": "XX"}, {"side": "up"}, {"offer": "x" * 900},
                                   {"corner": "up"}, {"corner": "mid-left"}, {"joint": "x" * 900}])
def test_odd_addresses_answer_all_the_same(asked, client_for, shipped, sue):
    assert page(client_for(sue), shipped, **asked).status_code == 200


def test_the_left_side_is_drawn_when_asked(client_for, shipped, sue):
    assert "Left side, seen from outside" in words(page(client_for(sue), shipped, side="left"))


def section(response, name: str) -> str:
    return re.search(rf'<section id="{name}">.*?</section>', response.content.decode(), re.S)[0]


def test_its_parts_stand_in_the_order_in_which_one_asks(client_for, shipped, sue):
    html = page(client_for(sue), shipped).content.decode()
    parts = re.findall(r'<section id="([a-z]+)">', html)
    assert parts == ["pieces", "corner", "marks", "joint", "side", "flat"]
    assert html.index("This order included") < html.index("<figure") < html.index('id="pieces"')


@pytest.mark.parametrize("corner", ["tag-left", "tag-right", "far-left", "far-right"])
def test_each_corner_is_drawn_from_inside_with_its_bands_in_words(corner, client_for, shipped, sue):
    drawn = page(client_for(sue), shipped, corner=corner)
    shown = section(drawn, "corner")
    assert f'aria-labelledby="inside-{corner}-wide-t' in shown
    assert re.findall(r'href="\?corner=([a-z-]+)#corner"', shown) == ["tag-left", "tag-right", "far-left", "far-right"]
    assert re.findall(r'corner=([a-z-]+)#corner" aria-current', shown) == [corner]
    hoop, side = ("H1" if corner.startswith("tag") else "H13"), corner[4].upper()
    assert f"{hoop}-{side}-brace-hip" in words_of(shown)


def words_of(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def test_a_part_that_is_asked_for_brings_the_corner_and_the_joint_that_it_is_in(client_for, shipped, sue):
    """The right-twist lower piece stands in the tag end's left corner (design of this family), a tie in a joint of its own."""
    client = client_for(sue)
    assert "inside-tag-right-wide-t" in section(page(client, shipped, lit="RL26-L"), "corner")
    assert "inside-tag-left-wide-t" in section(page(client, shipped, lit="RL26-R"), "corner")
    assert "Roof brace, shoulder: one band</a>" in (drawn := section(page(client, shipped, lit="RL26-R"), "joint"))
    assert 'joint=roof+shoulder#joint" aria-current="true"' in drawn
    assert 'joint=tie#joint" aria-current="true"' in section(page(client, shipped, lit="TI26"), "joint")


def test_what_was_chosen_stays_while_something_else_is_chosen(client_for, shipped, sue):
    drawn = page(client_for(sue), shipped, lit="RL26-R", corner="far-right", side="left", joint="side mid")
    links = [link.replace("&amp;", "&") for link in re.findall(r'href="(\?[^"]*)"', drawn.content.decode())]
    corner = next(link for link in links if "corner=tag-left" in link)
    for kept in ("lit=RL26-R", "side=left", "joint=side+mid"):
        assert kept in corner


def test_an_order_of_braces_and_bands_leads_to_its_drawings(client_for, shipped, sue):
    html = page(client_for(sue), shipped).content.decode()
    drawings = reverse("structures:structure-drawings", args=["T-0412"])
    assert f'href="{drawings}"' in html
    assert f'href="{drawings}?view=inside-tag-left"' in html
    assert f'href="{drawings}?view=joint:brace-band:side%20mid"' in html


def test_what_is_still_to_come_is_said(client_for, sue, wes):
    order = a_confirmed(by=sue)
    stock_for(order, by=wes)
    pick_all(order, by=wes)
    braces = order.pick.lines.get(part__number="SB26")
    undo_pick(braces, key=uuid4(), by=wes)
    record_pick(braces, 6, key=uuid4(), by=wes)
    ship(order, by=wes, shipped_on=DAY)
    assert "Side brace: 6 of 8 were picked and shipped; 2 are still to come." in words(page(client_for(sue), order))


def test_before_anything_was_sent_it_says_so(client_for, sue):
    said = words(page(client_for(sue), a_confirmed(by=sue)))
    assert "This order includes 16 corner brace pieces" in said
    assert "Nothing was shipped yet; 0 of 20 lines are picked." in said


def test_a_draft_says_that_it_is_one(client_for, sue):
    assert "This order is a draft: this is what it would be." in words(page(client_for(sue), a_draft(by=sue)))


def test_a_cancelled_order_says_so(client_for, sue):
    order = a_confirmed(by=sue)
    cancel_order(order, by=sue, why="another year")
    assert "This order was cancelled and nothing of it was sent." in words(page(client_for(sue), order))


def test_an_order_from_paper_says_so_everywhere(client_for, sue):
    order = a_paper_order(by=sue)
    client = client_for(sue)
    assert "From paper, not checked: the paper says revision C." in words(page(client, order))
    assert "From paper, not checked." in words(client.get(reverse("inventory:order-detail", args=[order.label])))
    assert "from paper, not checked" in words(client.get(reverse("inventory:order-list")))
    assert "from paper, not checked" in words(client.get(reverse("inventory:find"), {"q": order.label}))
    assert "From paper, not checked." in words(client.get(reverse("structures:structure-detail", args=[order.label])))


def test_what_was_changed_on_the_farm_since_is_said(client_for, shipped, sue):
    structure = shipped.sent_structures.get().structure
    append_change(structure, act="moved", place="H4-tie", words="8 in. down, to clear the sprayer", seen_on=DAY, by=sue)
    assert "As it stands: H4-tie moved, seen 12 Mar 2024. 8 in. down, to clear the sprayer" in words(page(client_for(sue), shipped))


def test_lengths_are_in_a_persons_own_units(client_for, shipped, sue):
    sue.units = "metric"
    sue.save()
    assert "A Side brace SB26 1254 mm 8" in words(page(client_for(sue), shipped))


def test_each_structure_of_an_order_has_its_own_answer(client_for, sue):
    revision = a_family()
    order = confirm_order(a_draft(a_structure(revision), a_structure(revision, 24), by=sue), by=sue)
    client = client_for(sue)
    second = client.get(reverse("inventory:order-answer-line", args=[order.label, 2]))
    assert "Structure G26 × 24 ft" in words(second)
    assert client.get(reverse("inventory:order-answer-line", args=[order.label, 3])).status_code == 404


def test_a_grower_and_a_stranger_find_nothing(client_for, shipped, ada):
    assert page(client_for(ada), shipped).status_code == 404
    assert page(client_for(None), shipped).status_code == 302


def test_the_queries_do_not_grow_with_the_order(client_for, sue):
    revision = a_family()
    one = a_confirmed(a_structure(revision), by=sue)
    three = a_confirmed(*[a_structure(revision)] * 3, by=sue)
    client = client_for(sue)
    assert len({queries(client, reverse("inventory:order-answer", args=[order.label])) for order in (one, three)}) == 1
