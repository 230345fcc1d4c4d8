"""A stock file through its pages: looked at first, stored once, taken away and brought back."""

from hashlib import sha256
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from inventory.models import Movement
from structures.models import Event
from tests.inventory.stock import errors, make_bin, make_part, quantities, said, send, stocked
from tests.pages import words

pytestmark = pytest.mark.django_db
HEAD = "part,bin,lot,quantity\n"
LINES = f"{HEAD}SB26,C-14,P-304,40\nSB20,C-15,P-311,128\nSB26,C-30,unknown,6\n"
SAYS = f"as the file says, SHA-256 {sha256(LINES.encode()).hexdigest()[:12]}"


@pytest.fixture
def shelf(wes):
    stocked(wes, "SB26", "C-14", 44, lot="P-304")
    stocked(wes, "SB20", "C-15", 128, lot="P-311")
    make_bin("C-30")


def look(client, text, name="stock.csv"):
    upload = SimpleUploadedFile(name, text if isinstance(text, bytes) else text.encode(), content_type="text/csv")
    return client.post(reverse("inventory:stock-import-look"), {"file": upload})


def store(client, looked, *, key=None, **other):
    context = looked.context
    data = {"text": context["text"], "name": context["name"], "shown": context["plan"].stamp, **other}
    return send(client, "inventory:stock-imported", data, key=key)


def test_looking_shows_every_line_and_stores_nothing(wes, client_for, shelf):
    looked = look(client_for(wes), f"{HEAD}SB26,C-14,P-304,50\nSB20,C-15,P-311,128\nSB26,C-30,P-309,6\nSB20,C-15,P-311,1\n")
    assert looked.status_code == 422
    assert [(row.line.number, row.now, row.will, row.says) for row in looked.context["plan"].lines] == [
        (2, 44, 50, "6 more"),
        (3, 128, 128, "stays as it is"),
        (4, 0, 6, "6 more"),
        (5, None, None, "Line 3 already says what C-15 holds of SB20, lot P-311: leave one of the two out."),
    ]
    assert Movement.objects.filter(kind="counted").count() == 0


@pytest.mark.parametrize("who", ["wes", "olive"])
def test_the_file_that_was_looked_at_is_stored(who, client_for, shelf, request):
    person = request.getfixturevalue(who)
    client = client_for(person)
    looked = look(client, LINES)
    assert looked.status_code == 200
    stored = store(client, looked)
    assert (stored.status_code, stored.headers["Location"]) == (302, reverse("inventory:movement-list"))
    assert said(stored) == ["stock.csv: 2 lines changed the stock, 1 agreed with it."]
    assert quantities() == {
        ("SB26", "C-14", "P-304"): 40, ("SB20", "C-15", "P-311"): 128, ("SB26", "C-30", "unknown"): 6,
    }
    made = Movement.objects.filter(kind="counted").order_by("pk")
    assert {(m.quantity, m.counted, m.book, m.cause, m.who) for m in made} == {
        (-4, 40, 44, SAYS, person), (6, 6, 0, SAYS, person),
    }
    assert set(made.values_list("reference", flat=True)) == {"stock file stock.csv"}
    assert f"stock file stock.csv; {SAYS}" in words(client.get(reverse("inventory:movement-list")))
    event = Event.objects.get(verb="imported stock")
    assert (event.about, event.after["changed"], event.after["lines"]) == ("stock file stock.csv", 2, 3)


def test_sent_twice_it_is_stored_once(wes, client_for, shelf):
    client, key = client_for(wes), uuid4()
    looked = look(client, f"{HEAD}SB26,C-14,P-304,40\n")
    first, second = store(client, looked, key=key), store(client, looked, key=key)
    assert (first.status_code, second.status_code) == (302, 302)
    assert Movement.objects.filter(kind="counted").count() == 1


def test_stock_that_moved_since_is_looked_at_again(wes, client_for, shelf):
    client = client_for(wes)
    looked = look(client, f"{HEAD}SB26,C-14,P-304,40\n")
    stocked(wes, "SB26", "C-14", 2, lot="P-304")
    stored = store(client, looked)
    assert stored.status_code == 422
    assert stored.context["refused"] == (
        "The stock has moved since this was shown, so nothing was stored: look at the lines as they are now."
    )
    assert stored.context["plan"].lines[0].now == 46
    assert quantities()[("SB26", "C-14", "P-304")] == 46


def test_a_bad_line_stores_nothing_even_when_it_is_sent(wes, client_for, shelf):
    client = client_for(wes)
    looked = look(client, f"{HEAD}SB26,C-14,P-304,40\nSB27,C-14,P-304,40\n")
    assert "Store these" not in looked.content.decode()
    stored = store(client, looked)
    assert stored.context["refused"] == "1 of 2 lines can't be read, so nothing was stored: mend them first."
    assert quantities()[("SB26", "C-14", "P-304")] == 44


def test_a_file_that_agrees_has_nothing_to_store(wes, client_for, shelf):
    client = client_for(wes)
    looked = look(client, f"{HEAD}SB26,C-14,P-304,44\n")
    assert "there is nothing to change" in looked.content.decode()
    assert store(client, looked).context["refused"] == "The books say the same on every line, so there is nothing to change."


def test_what_is_taken_away_comes_back_unchanged(wes, client_for, shelf):
    client = client_for(wes)
    taken = client.get(reverse("inventory:stock-export"))
    assert taken.headers["Content-Disposition"] == 'attachment; filename="stock.csv"'
    assert taken.content.decode().splitlines() == [
        "part,name,bin,lot,quantity", "SB26,Part SB26,C-14,P-304,44", "SB20,Part SB20,C-15,P-311,128",
    ]
    looked = look(client, taken.content)
    assert (looked.context["plan"].agreeing, looked.context["plan"].changing, looked.context["plan"].wrong) == (2, 0, 0)


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"part\xff", "The file is no UTF-8 text: save it as CSV UTF-8 and choose it again."),
        (b"", "The file is empty: its first line names the columns part, bin, lot, quantity."),
        (b"part,bin\n", "Column lot is missing: the first line names part, bin, lot, quantity."),
        (b"x" * 2_000_001, "stock.csv has 2,000,001 bytes: split it into files of 2,000,000 bytes or fewer."),
    ],
)
def test_a_file_that_can_not_be_read_is_refused_with_a_sentence(wes, client_for, shelf, content, sentence):
    looked = look(client_for(wes), content)
    assert (looked.status_code, errors(looked)) == (422, {"file": [sentence]})


def test_no_file_and_a_file_that_did_not_come_back(wes, client_for, shelf):
    client = client_for(wes)
    assert errors(client.post(reverse("inventory:stock-import-look"))) == {"file": ["No file was chosen: choose a CSV file."]}
    lost = send(client, "inventory:stock-imported", {"text": "", "name": "stock.csv", "shown": "x"})
    assert (lost.status_code, errors(lost)) == (
        422, {"file": ["The file did not come back whole, so nothing was stored: choose it again."]},
    )
    broken = send(client, "inventory:stock-imported", {"text": "part,bin", "name": "stock.csv", "shown": "x"})
    assert errors(broken) == {"file": ["Column lot is missing: the first line names part, bin, lot, quantity."]}


def test_support_may_take_it_away_and_no_more(sue, client_for, shelf):
    client = client_for(sue)
    assert client.get(reverse("inventory:stock-export")).status_code == 200
    assert client.get(reverse("inventory:stock-import")).status_code == 403
    assert look(client, HEAD).status_code == 403


def test_looking_takes_as_many_queries_for_three_lines_as_for_one(wes, client_for, shelf, django_assert_num_queries):
    client = client_for(wes)
    make_part("SB30")
    # session, person, parts, bins, holdings, and the rooms' own questions: none
    for rows in ("SB26,C-14,P-304,50\n", "SB26,C-14,P-304,50\nSB20,C-15,P-311,3\nSB30,C-30,P-1,4\n"):
        with django_assert_num_queries(5):
            look(client, HEAD + rows)
