"""An old order known only from paper: six fields at most, answered at once, marked as not checked."""

from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import IntegrityError, transaction
from django.urls import reverse

from inventory.forms.paper_orders import PaperOrderForm, read_options
from inventory.models import InvoicePhoto, Order
from structures.models import Structure
from structures.queries.families import family_of
from tests.inventory.selling import a_family, a_paper_order, a_photo
from tests.pages import value_of, words

pytestmark = pytest.mark.django_db
SAID = {"name": "Dunmarsh Farm", "family": "G26", "made": "C", "length": "96", "options": ""}


@pytest.fixture(autouse=True)
def families():
    for name in ("g26-a", "g26-b", "g26-c", "g26-d"):
        a_family(name)


def enter(client, key=None, photo=None, **said):
    data = {"request_key": str(key or uuid4()), **SAID, **said}
    if photo is not None:
        data["photo"] = photo
    return client.post(reverse("inventory:paper-order-enter"), data)


def test_it_has_six_fields_and_no_more():
    assert list(PaperOrderForm().fields) == ["name", "family", "made", "length", "options", "photo"]


@pytest.mark.parametrize("who", ["sue", "olive"])
def test_it_is_kept_and_answered_at_once(who, client_for, request):
    client = client_for(request.getfixturevalue(who))
    done = enter(client)
    order = Order.objects.get()
    assert (order.label, order.status, order.unchecked, order.stated) == ("P-0001", "from paper", True, "revision C")
    assert done.headers["Location"] == reverse("inventory:order-answer", args=["P-0001"])
    assert "This order included 8 corner brace pieces" in words(client.get(done.headers["Location"]))
    structure = Structure.objects.get()
    assert (structure.tag, structure.unchecked, structure.design.read().measures.hoops) == ("P-0001", True, 25)


@pytest.mark.parametrize(("made", "revision", "stated"), [
    ("C", "C", "revision C"), ("rev. b", "B", "revision B"), ("Revision D", "D", "revision D"), ("2020", "C", "year 2020"),
    ("about 2018", "B", "year 2018"), ("2017", "A", "year 2017"), ("2025", "D", "year 2025"),
])
def test_a_revision_is_said_by_letter_or_year(made, revision, stated, client_for, sue):
    length = "72" if revision == "A" else "96"
    assert enter(client_for(sue), made=made, length=length).status_code == 302
    order = Order.objects.get()
    assert (order.version.lines.get().family_revision.revision, order.stated) == (revision, stated)


@pytest.mark.parametrize(("words_", "with_", "without", "unknown"), [
    ("snow pack, no film", ("snow-ties",), ("film",), []),
    ("Rafter Braces; collar ties", ("roof-braces", "ties"), (), []),
    ("without side braces", (), ("side-braces",), []),
    ("poly", ("film",), (), []),
    ("gold leaf", (), (), ["gold leaf"]),
    ("", (), (), []),
])
def test_options_are_read_in_the_words_of_the_trade(words_, with_, without, unknown):
    family = family_of(a_family("g26-d"))
    assert read_options(words_, family) == (with_, without, unknown)


@pytest.mark.parametrize(("said", "field", "sentence"), [
    ({"name": ""}, "name", "The name is missing: unknown is a name too."),
    ({"made": "Z"}, "made", "G26 has no revision Z: there is A from 2016, B from 2018, C from 2019, D from 2021."),
    ({"made": "1999"}, "made", "G26 has no year 1999: there is A from 2016"),
    ({"length": "long"}, "length", "'long' is no length: write it like 4ft 6in, 4-6, 104 3/4 in or 2660 mm."),
    ({"length": "97"}, "length", "Length 97-0 is no whole number of 4-0 bays: 96-0 or 100-0 would do."),
    ({"options": "gold leaf"}, "options", "“gold leaf” is no option here: there is side braces"),
    ({"options": "roof braces"}, "options", "can't be had on this"),
])
def test_what_can_t_be_is_one_sentence_and_stays_typed(said, field, sentence, client_for, sue):
    page = enter(client_for(sue), **said)
    assert page.status_code == 422
    assert sentence in words(page)
    assert value_of(page, field) == said[field]
    assert not Order.objects.exists()


def test_the_photo_is_kept_upright_and_its_original_apart(client_for, sue):
    data = a_photo()
    enter(client_for(sue), photo=SimpleUploadedFile("invoice.jpg", data, "image/jpeg"))
    photo = InvoicePhoto.objects.get()
    client = client_for(sue)
    shown = client.get(reverse("inventory:invoice-photo", args=[photo.pk, "shown"]))
    original = client.get(reverse("inventory:invoice-photo", args=[photo.pk, "original"]))
    assert shown.headers["Content-Type"] == "image/jpeg"
    assert original.content == data
    assert original.headers["Content-Disposition"] == 'attachment; filename="invoice-P-0001-original"'
    assert client.get(reverse("inventory:invoice-photo", args=[photo.pk, "other"])).status_code == 404


@pytest.mark.parametrize(("name", "content", "sentence"), [
    ("invoice.jpg", b"%PDF-1.7 not a photo", "is a PDF and no photo"),
    ("invoice.jpg", a_photo()[:-300], "came only in part"),
    ("invoice.jpg", b"", "The photo is empty, 0 bytes: take it again, or leave it out."),
    ("notes.txt", b"only words", "is no photo that can be read here"),
])
def test_what_is_no_photo_is_one_sentence_and_nothing_is_kept(name, content, sentence, client_for, sue):
    page = enter(client_for(sue), photo=SimpleUploadedFile(name, content))
    assert page.status_code == 422
    assert sentence in words(page)
    assert value_of(page, "name") == "Dunmarsh Farm"
    assert not Order.objects.exists()


def test_sent_twice_it_is_kept_once(client_for, sue):
    client, key = client_for(sue), uuid4()
    assert [enter(client, key).status_code for _ in range(2)] == [302, 302]
    assert Order.objects.count() == 1


def test_its_number_and_a_real_one_may_be_the_same(sue):
    assert [a_paper_order(by=sue).label, a_paper_order(by=sue).label] == ["P-0001", "P-0002"]


def test_the_database_itself_ties_the_state_to_the_mark(sue):
    order = a_paper_order(by=sue)
    with pytest.raises(IntegrityError), transaction.atomic():
        Order.objects.filter(pk=order.pk).update(unchecked=False)


def test_roles(client_for, wes, ada):
    assert [enter(client_for(who)).status_code for who in (wes, ada, None)] == [403, 404, 302]
    assert not Order.objects.exists()
