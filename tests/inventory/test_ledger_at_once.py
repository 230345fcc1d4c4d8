"""Several at a time on one stock: nothing is lost, nothing is doubled, nothing goes below zero.

On SQLite the database is a file in WAL mode, as it is in use; with DATABASE_URL the same tests run on PostgreSQL.
"""

import signal
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path
from threading import Barrier
from uuid import uuid4

import pytest
from django.db import connection, connections
from django.db.models import Sum

from inventory import ledger
from inventory.actions.parts import sync_parts
from inventory.actions.stock import hold_back
from inventory.actions.supply import Arrived, take_in
from inventory.ledger import Entry
from inventory.models import Holding, Movement, Part, PartUse, Receipt
from structures.refusals import Conflict, Refuse
from tests.factories import family_revision
from tests.inventory.stock import make_bin, make_part, stocked

pytestmark = pytest.mark.django_db(transaction=True)
PICKED, RECEIVED = Movement.Kind.PICKED, Movement.Kind.RECEIVED
ROOT = Path(__file__).resolve().parents[2]


def at_once(*acts):
    """Start every act at the same moment in a thread of its own; give results and refusals in the acts' order."""
    gate = Barrier(len(acts))

    def run(act):
        try:
            gate.wait(timeout=20)
            return act()
        except Refuse as refusal:
            return refusal
        finally:
            connections.close_all()

    with ThreadPoolExecutor(len(acts)) as pool:
        return list(pool.map(run, acts))


def test_the_test_database_is_as_in_use():
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            assert cursor.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def test_eight_pickers_on_one_bin_take_what_is_there_and_no_more(wes):
    part, bin = stocked(wes, "SB26", "C-14", 20)
    take = [
        lambda: ledger.post([Entry(part, bin, -3)], key=uuid4(), by=wes, kind=PICKED) for _ in range(8)
    ]
    results = at_once(*take)
    refused = [result for result in results if isinstance(result, ledger.NotThere)]
    assert len(refused) == 2
    assert {refusal.there for refusal in refused} == {2}
    assert Holding.objects.get().quantity == 2
    assert Movement.objects.aggregate(all=Sum("quantity"))["all"] == 2


def test_one_key_sent_eight_times_at_once_is_stored_once(wes):
    part, bin = stocked(wes, "SB26", "C-14", 20)
    key = uuid4()
    results = at_once(*[
        lambda: ledger.post([Entry(part, bin, -8)], key=key, by=wes, kind=PICKED) for _ in range(8)
    ])
    assert {tuple(m.pk for m in stored) for stored in results} == {(Movement.objects.get(kind="picked").pk,)}
    assert Holding.objects.get().quantity == 12


def test_one_key_with_two_bodies_at_once_stores_one_and_refuses_the_other(wes):
    first, second = make_part("SB26"), make_part("SB20")
    bin, key = make_bin("C-14"), uuid4()
    results = at_once(*[
        lambda part=part: ledger.post([Entry(part, bin, 5)], key=key, by=wes, kind=RECEIVED) for part in (first, second)
    ])
    assert sorted(type(result) for result in results if isinstance(result, Refuse)) == [Conflict]
    assert Movement.objects.count() == 1
    assert Holding.objects.aggregate(all=Sum("quantity"))["all"] == 5


def test_the_first_stock_of_a_part_from_many_at_once_is_added_up(wes):
    part, bin = make_part("SB26"), make_bin("C-14")
    at_once(*[lambda: ledger.post([Entry(part, bin, 7)], key=uuid4(), by=wes, kind=RECEIVED) for _ in range(8)])
    assert Holding.objects.get().quantity == 56


def test_moves_in_opposite_directions_never_wait_for_each_other_for_ever(wes):
    part, bin = stocked(wes, "SB26", "C-14", 50)
    other = make_bin("C-30")
    ledger.post([Entry(part, other, 50)], key=uuid4(), by=wes, kind=RECEIVED)

    def there():
        for _ in range(5):
            ledger.move(part, lot="unknown", quantity=1, from_bin=bin, to_bin=other, key=uuid4(), by=wes)

    def back():
        for _ in range(5):
            ledger.move(part, lot="unknown", quantity=2, from_bin=other, to_bin=bin, key=uuid4(), by=wes)

    at_once(there, back, there, back)
    assert dict(Holding.objects.values_list("bin__code", "quantity")) == {"C-14": 60, "C-30": 40}


def test_an_entry_reversed_by_two_at_once_is_reversed_once(wes):
    stocked(wes, "SB26", "C-14", 44)
    stocked(wes, "SB26", "C-14", 44)
    entry = Movement.objects.order_by("pk")[0]
    results = at_once(*[lambda: ledger.reverse(entry, key=uuid4(), by=wes, cause="wrong bin") for _ in range(2)])
    assert [result.sentence for result in results if isinstance(result, Refuse)] == [
        f"Movement {entry.pk} was reversed before: look at the movements of SB26."
    ]
    assert Holding.objects.get().quantity == 44


def test_a_count_and_a_pick_at_once_leave_a_true_holding(wes):
    part, bin = stocked(wes, "NT516", "E-09", 100)
    at_once(
        lambda: ledger.count(part, bin=bin, lot="unknown", counted=90, cause="ten short", key=uuid4(), by=wes),
        lambda: ledger.post([Entry(part, bin, -5)], key=uuid4(), by=wes, kind=PICKED),
    )
    # Counted first: 90 - 5. Picked first: the count then says 90 of the 95 in the books.
    assert Holding.objects.get().quantity in (85, 90)
    assert Holding.objects.get().quantity == Movement.objects.aggregate(all=Sum("quantity"))["all"]


POSTER = """
import django, os, sys
os.environ["DJANGO_SETTINGS_MODULE"] = "structures.project.settings"
from structures.project import settings
settings.DATABASES["default"]["NAME"] = sys.argv[1]
django.setup()
from uuid import uuid4
from inventory import ledger
from inventory.models import Bin, Part
from structures.models import User
part, bin, by = Part.objects.get(), Bin.objects.get(), User.objects.get()
while True:
    key = uuid4()
    ledger.post([ledger.Entry(part, bin, 3), ledger.Entry(part, bin, -1)], key=key, by=by, kind="received")
    print(key, flush=True)
"""


def test_a_kill_in_the_middle_leaves_whole_postings_only(wes):
    stocked(wes, "SB26", "C-14", 10)
    command = [sys.executable, "-c", POSTER, str(connection.settings_dict["NAME"])]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as poster:
        said = [poster.stdout.readline().strip() for _ in range(20)]
        poster.send_signal(signal.SIGKILL)
        said += [line.strip() for line in poster.stdout if len(line) == 37]
    postings = Movement.objects.filter(kind="received").exclude(quantity=10).values_list("posting", flat=True)
    assert set(said) <= set(postings)
    assert len(postings) == 2 * len(set(postings))
    assert len(set(postings)) - len(said) in (0, 1)
    assert Holding.objects.get().quantity == 10 + 2 * len(set(postings))


def test_a_receipt_sent_by_two_at_once_with_one_key_is_taken_in_once(wes):
    part, bin = make_part("BC190"), make_bin("D-05")
    facts = {"supplier": "Ostvik Clamps", "paper": "", "received_on": date(2026, 3, 2), "note": ""}
    results = at_once(*[lambda: take_in([Arrived(part, bin, "C-1", 5)], **facts, key="r-1", by=wes) for _ in range(4)])
    assert {receipt.pk for receipt in results} == {Receipt.objects.get().pk}
    assert Holding.objects.get().quantity == 5


def test_a_lot_held_back_while_it_is_picked_loses_nothing(wes):
    part, bin = stocked(wes, "BC190", "D-05", 60, lot="C-0417")
    cage = make_bin("Q-01", held_back=True)
    take = [lambda: ledger.post([Entry(part, bin, -1, "C-0417")], key=uuid4(), by=wes, kind=PICKED) for _ in range(4)]
    hold = [lambda: hold_back(part, lot="C-0417", to_bin=cage, why="red rust", key=uuid4(), by=wes) for _ in range(2)]
    results = at_once(*take, *hold)
    picked = sum(1 for result in results[:4] if not isinstance(result, Refuse))
    held = Holding.objects.filter(bin=cage).aggregate(all=Sum("quantity"))["all"] or 0
    left = Holding.objects.get(bin=bin).quantity
    assert held + left + picked == 60
    assert any(not isinstance(result, Refuse) for result in results[4:])


def test_two_families_that_share_parts_are_taken_up_at_once(wes):
    revisions = [family_revision("G26", letter) for letter in ("C", "D")]
    results = at_once(*[lambda revision=revision: sync_parts(revision, by=wes) for revision in revisions])
    assert not [result for result in results if isinstance(result, Refuse)]
    assert PartUse.objects.filter(part__number="SB26").count() == 2
    assert Part.objects.filter(number="SB26").count() == 1
