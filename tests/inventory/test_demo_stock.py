"""The demo's shelf: what lies there adds up to the invented maker's own table, and a second run changes nothing."""

import re

import pytest
from django.db.models import Sum

import structures.demo_data
from inventory.demo_data import stock
from inventory.models import Bin, Holding, Movement, Part, Receipt
from inventory.queries.parts import parts_with_stock
from structures.actions.families import load_family
from tests.inventory.stock import make_bin

pytestmark = pytest.mark.django_db

# The invented maker's own figures of an ordinary morning in spring: pieces on hand.
ON_HAND = {
    "TB131-24": 410, "SB14": 60, "SB20": 128, "SB26": 44, "SB30": 96, "RU26": 60, "RL26-L": 41, "RL26-R": 9, "BC166": 1900,
    "BC190": 900, "CC190-131": 1420, "PE131-10": 240, "BT516-1": 3900, "BT516-2": 2300, "NT516": 5950, "FR44-100": 11, "CH10": 620,
}
REORDER = {"TB131-24": 300, "SB26": 40, "RU26": 30, "BC166": 800, "BC190": 1200, "CC190-131": 900, "PE131-10": 100, "CH10": 300}


@pytest.fixture
def said():
    return []


@pytest.fixture
def loaded(said):
    structures.demo_data.load(said.append)
    stock.load(said.append)


def test_what_lies_there_is_what_the_maker_says(loaded):
    assert {part.number: part.on_hand for part in parts_with_stock().filter(number__in=ON_HAND)} == ON_HAND
    assert dict(Part.objects.filter(number__in=REORDER).values_list("number", "reorder_point")) == REORDER
    sections = parts_with_stock().filter(number__in=["HS26-S", "HS26-R"])
    assert sum(part.on_hand for part in sections) == 330
    assert sum(part.on_hand for part in parts_with_stock().filter(number__in=["HS30-S", "HS30-R"])) == 150


def test_the_soft_lot_is_held_back_and_nothing_else(loaded):
    held = Holding.objects.there().filter(bin__held_back=True)
    assert list(held.values_list("part__number", "lot", "quantity", "bin__code")) == [("BC190", "C-0417", 460, "Q-01")]
    assert not Holding.objects.there().filter(lot="C-0417", bin__held_back=False).exists()


def test_every_holding_is_the_sum_of_its_movements(loaded):
    sums = Movement.objects.order_by().values_list("part", "bin", "lot").annotate(Sum("quantity"))
    assert set(sums) == set(Holding.objects.values_list("part", "bin", "lot", "quantity"))


def test_every_part_of_the_families_has_a_bin_one_can_walk_to(loaded):
    homeless = Part.objects.exclude(holdings__bin__held_back=False)
    assert list(homeless.values_list("number", flat=True)) == []
    walks = list(Bin.objects.order_by("code").values_list("walk", flat=True))
    assert walks == sorted(walks)


def test_a_second_run_adds_what_is_missing_and_changes_nothing_that_a_person_changed(loaded, said):
    part = Part.objects.get(number="SB26")
    part.note, part.reorder_point = "ask Piet", 55
    part.save()
    Bin.objects.filter(code="C-14").update(zone="by the window")
    before = (Movement.objects.count(), Receipt.objects.count(), Bin.objects.count(), Part.objects.count())
    structures.demo_data.load(said.append)
    stock.load(said.append)
    assert (Movement.objects.count(), Receipt.objects.count(), Bin.objects.count(), Part.objects.count()) == before
    part.refresh_from_db()
    assert (part.note, part.reorder_point) == ("ask Piet", 55)
    assert make_bin("C-14").zone == "by the window"
    assert said[-1] == "stock: 68 parts in 69 bins"


def test_a_database_with_older_family_files_is_filled_with_the_parts_it_has(said):
    def older(text):
        return re.sub(r"\n\[parts\.GA30\]\n(?:\w.*\n)+", "\n", text).replace("{ GA30 = 1, BT38-3 = 1", "{ BT38-3 = 1")
    for path in sorted(structures.demo_data.FAMILIES.glob("*.toml")):
        load_family(older(path.read_text()), source=path.name, by=None)
    structures.demo_data.load(said.append)
    stock.load(said.append)
    assert not Part.objects.filter(number="GA30").exists()
    assert said[-1] == "stock: 67 parts in 69 bins"
