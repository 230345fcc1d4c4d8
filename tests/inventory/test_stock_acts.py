"""Moving, holding back, releasing and counting again, each through its page."""

import re
from uuid import uuid4

import pytest
from django.urls import reverse

from inventory.models import Movement
from structures.models import Event
from tests.inventory.stock import errors, make_bin, quantities, said, send, stocked

pytestmark = pytest.mark.django_db
ACTS = {
    "move": ("inventory:stock-move", "inventory:stock-moved"),
    "hold back": ("inventory:stock-hold-back", "inventory:stock-held-back"),
    "release": ("inventory:stock-release", "inventory:stock-released"),
    "count": ("inventory:stock-count", "inventory:stock-counted"),
}
MOVE = {"part": "sb26", "lot": "p-304", "from_bin": "C-14", "to_bin": "C-30", "quantity": "20", "why": "room for the new batch"}
HOLD = {"part": "SB26", "lot": "P-304", "to_bin": "Q-01", "why": "red rust at the bend"}
RELEASE = {"part": "SB26", "lot": "P-304", "to_bin": "C-14", "why": "only two were bad"}
COUNT = {"part": "SB26", "bin": "C-14", "lot": "P-304", "counted": "42", "cause": "two bent, scrapped unsaid"}
GOOD = {"move": MOVE, "hold back": HOLD, "release": RELEASE, "count": COUNT}


@pytest.fixture
def shelves(wes):
    stocked(wes, "SB26", "C-14", 44, lot="P-304")
    make_bin("C-30")
    make_bin("Q-01", held_back=True)


def do(client, act, data, key=None):
    return send(client, ACTS[act][1], data, key=key)


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_pieces_are_moved(who, client_for, request, shelves):
    person = request.getfixturevalue(who)
    done = do(client_for(person), "move", MOVE)
    assert (done.status_code, done.headers["Location"]) == (302, reverse("inventory:part-detail", kwargs={"number": "SB26"}))
    assert said(done) == ["20 of SB26, lot P-304, lie in C-30 now."]
    assert quantities() == {("SB26", "C-14", "P-304"): 24, ("SB26", "C-30", "P-304"): 20}
    event = Event.objects.get(verb="moved")
    assert event.after == {
        "lot": "P-304", "why": "room for the new batch",
        "entries": [{"bin": "C-14", "quantity": -20}, {"bin": "C-30", "quantity": 20}],
    }
    assert event.who == person


def test_a_lot_is_held_back_from_every_bin_it_lies_in(wes, client_for, shelves):
    stocked(wes, "SB26", "C-30", 6, lot="P-304")
    stocked(wes, "SB26", "C-30", 5, lot="P-309")
    done = do(client_for(wes), "hold back", HOLD)
    assert said(done) == ["All of SB26, lot P-304, is held back in Q-01."]
    assert quantities() == {("SB26", "Q-01", "P-304"): 50, ("SB26", "C-30", "P-309"): 5}
    assert set(Movement.objects.filter(kind="held back").values_list("cause", flat=True)) == {"red rust at the bend"}
    assert Event.objects.get(verb="held back").who == wes


def test_what_is_held_back_is_released(wes, client_for, shelves):
    client = client_for(wes)
    do(client, "hold back", HOLD)
    done = do(client, "release", RELEASE)
    assert said(done)[-1] == "All of SB26, lot P-304, that was held back is free to sell in C-14."
    assert quantities() == {("SB26", "C-14", "P-304"): 44}
    assert Movement.objects.filter(kind="released").count() == 2


def test_a_count_changes_the_books_by_the_difference(wes, client_for, shelves):
    done = do(client_for(wes), "count", COUNT)
    assert said(done) == ["42 of SB26, lot P-304, are counted in C-14."]
    assert quantities() == {("SB26", "C-14", "P-304"): 42}
    entry = Movement.objects.get(kind="counted")
    assert (entry.quantity, entry.counted, entry.book, entry.cause) == (-2, 42, 44, "two bent, scrapped unsaid")
    event = Event.objects.get(verb="counted")
    assert (event.before["books"], event.after["counted"]) == (44, 42)


def test_a_count_that_agrees_needs_no_cause(wes, client_for, shelves):
    do(client_for(wes), "count", {**COUNT, "counted": "44", "cause": ""})
    assert Movement.objects.get(kind="counted").quantity == 0


def test_whoever_counts_is_not_told_what_the_books_say(wes, client_for, shelves):
    page = client_for(wes).get(reverse("inventory:stock-count") + "?part=SB26&bin=C-14&lot=P-304")
    assert page.context["form"]["lot"].value() == "P-304"
    # Tokens and keys are drawn at random and may hold any figure.
    shown = re.sub(r'<input type="hidden"[^>]*>', "", page.content.decode().split("<main", 1)[1])
    assert "44" not in shown


OTHER_SIDE = "use “hold back” or “release” for that, so that it says why."


@pytest.mark.parametrize(
    ("act", "typed", "expected"),
    [
        ("move", {"part": ""}, {"part": ["The part is missing: write its number."]}),
        ("move", {"part": "SB27"}, {"part": ["Part SB27 is not here: SB26 is the nearest."]}),
        ("move", {"lot": ""}, {"lot": ["The lot is missing: write it as it stands on the tag, or say unknown."]}),
        ("move", {"quantity": "0"}, {"quantity": ["0 is less than 1: 1 or more would do."]}),
        ("move", {"to_bin": ""}, {"to_bin": ["The bin to move to is missing: write its code."]}),
        ("move", {"to_bin": "C-14"}, {"to_bin": ["Bin C-14 is where they lie already: name another bin to move to."]}),
        ("move", {"to_bin": "Q-01"}, {"to_bin": [f"Bin Q-01 is a held-back bin and C-14 is not: {OTHER_SIDE}"]}),
        ("move", {"quantity": "45"}, {"__all__": ["Bin C-14 holds 44 of SB26, lot P-304, and 45 were asked: 44 or fewer would do."]}),
        (
            "move", {"lot": "unknown"},
            {"__all__": [
                "Bin C-14 holds 0 of SB26, lot unknown, and 20 were asked: take them from another bin or lot, or count this bin again."
            ]},
        ),
        ("hold back", {"why": ""}, {"why": ["Why is missing: say it in a few words."]}),
        (
            "hold back", {"to_bin": "C-30"},
            {"to_bin": ["Bin C-30 is not a held-back bin, so its pieces would still be free to sell: name one that is."]},
        ),
        (
            "hold back", {"lot": "P-999"},
            {"lot": ["Nothing of SB26, lot P-999, lies in a bin that is not held back: look where it is on the part's page."]},
        ),
        (
            "release", {"to_bin": "Q-01"},
            {"to_bin": ["Bin Q-01 is a held-back bin, so its pieces would not be free to sell: name one that is not."]},
        ),
        ("release", {}, {"lot": ["Nothing of SB26, lot P-304, is held back: look where it is on the part's page."]}),
        ("count", {"counted": "-1"}, {"counted": ["-1 is less than 0: 0 or more would do."]}),
        ("count", {"counted": ""}, {"counted": ["How many is missing: write a whole number, 0 or more."]}),
        (
            "count", {"cause": ""},
            {"cause": ["42 were counted where the books say 44: look for the cause first, then say it."]},
        ),
    ],
)
def test_what_can_not_be_done_is_refused_and_what_was_typed_stays(wes, client_for, shelves, act, typed, expected):
    data = {**GOOD[act], **typed}
    refused = do(client_for(wes), act, data)
    assert (refused.status_code, errors(refused)) == (422, expected)
    form = refused.context["form"]
    assert {name: form[name].value() for name in form.fields} == data
    assert quantities() == {("SB26", "C-14", "P-304"): 44}
    assert Event.objects.filter(verb__in=["moved", "held back", "released", "counted"]).count() == 0


@pytest.mark.parametrize("act", ["move", "hold back", "count"])
def test_sent_twice_it_is_done_once(wes, client_for, shelves, act):
    client, key = client_for(wes), uuid4()
    assert [do(client, act, GOOD[act], key).status_code for _ in range(2)] == [302, 302]
    assert do(client, act, {**GOOD[act], "part": "SB20"}, key).status_code == 409
    assert Movement.objects.exclude(kind="received").count() == (1 if act == "count" else 2)


@pytest.mark.parametrize("act", list(ACTS))
@pytest.mark.parametrize(("who", "status"), [("sue", 403), ("ada", 404)])
def test_others_do_none_of_it(who, status, act, client_for, request, shelves):
    client = client_for(request.getfixturevalue(who))
    assert client.get(reverse(ACTS[act][0])).status_code == status
    assert do(client, act, GOOD[act]).status_code == status
    assert quantities() == {("SB26", "C-14", "P-304"): 44}


@pytest.mark.parametrize("act", list(ACTS))
def test_wrong_ways_in(wes, client_for, act):
    client = client_for(wes)
    assert client.get(reverse(ACTS[act][1])).status_code == 405
    assert client.post(reverse(ACTS[act][1]), GOOD[act]).status_code == 400


def test_a_link_fills_the_form(wes, client_for, shelves):
    page = client_for(wes).get(reverse("inventory:stock-move") + "?part=SB26&lot=P-304&from_bin=C-14&zebra=1")
    form = page.context["form"]
    assert [form[name].value() for name in ("part", "lot", "from_bin", "to_bin")] == ["SB26", "P-304", "C-14", None]
    assert "C-30" in page.context["bin_codes"]
