"""What strangers get: nothing of what is another's, by any method, no form without its token, no file by its path."""

import re
from pathlib import Path

import pytest
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from inspections.models import Photo
from inventory.models import InvoicePhoto
from structures.uploads import MOST_BYTES
from tests.bad_input.asking import signed_in
from tests.bad_input.junk import contents
from tests.factories import ADDRESSES, World
from tests.pages import keyed, words
from tests.resolver import ALL, Address, each_address

pytestmark = pytest.mark.django_db
METHODS = ("get", "head", "post", "put", "patch", "delete", "options", "trace")
# Where there is nothing: another tag, number or key of the same kind.
NOBODYS = {"tag": "T-9999", "number": "99999", "pk": 99999, "code": "Z-99", "username": "nobody", "revision": "Z", "sheet": 99999,
           "ordinal": 99, "stretch": "B1-R", "size": "small", "part": "NO-99"}
NO_UUID = "00000000-0000-4000-8000-000000000000"

about_something = pytest.mark.parametrize("address", [one for one in ALL if one.about_something], ids=lambda one: one.name)


def nobodys(address: Address, world: World) -> str:
    """The same address about something that is not there."""
    wanted = {}
    for name, value in ADDRESSES[address.name](world).items():
        nothing = NOBODYS[name]
        wanted[name] = NO_UUID if "-" in str(value) and len(str(value)) == 36 else nothing
    return reverse(address.name, kwargs=wanted)


@about_something
def test_what_is_anothers_answers_as_if_nothing_was_there(address: Address, world: World):
    client = signed_in(world.gil)
    before = contents()
    for method in METHODS:
        body = {"data": keyed()} if method == "post" else {}
        theirs, nothing = getattr(client, method)(address.url(world), **body), getattr(client, method)(nobodys(address, world), **body)
        assert (theirs.status_code, words(theirs).replace(address.url(world), "")) == (
            nothing.status_code, words(nothing).replace(nobodys(address, world), "")
        ), method
        assert theirs.status_code in (404, 405), method
    assert contents() == before


@each_address
def test_no_form_is_taken_without_its_token(address: Address, world: World):
    assert not getattr(address.pattern.callback, "csrf_exempt", False)
    client = Client(enforce_csrf_checks=True)
    client.force_login(world.olive)
    before = contents()
    assert client.post(address.url(world), keyed()).status_code in (403, 405)
    assert contents() == before


HEADERS = {"X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY", "Referrer-Policy": "same-origin",
           "Cross-Origin-Opener-Policy": "same-origin"}


def hold_headers(answer) -> None:
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "object-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert {name: answer.headers.get(name) for name in HEADERS} == HEADERS


@each_address
def test_every_answer_carries_the_policy(address: Address, world: World):
    for person in (world.olive, world.gil, None):
        client = signed_in(person)
        hold_headers(client.get(address.url(world)))
        hold_headers(client.post(address.url(world), {"request_key": "none"}))


def test_so_do_the_pages_of_errors(world: World, monkeypatch):
    client = signed_in(world.sue)
    hold_headers(client.get("/nowhere/"))
    hold_headers(client.get("/people/"))
    hold_headers(client.get("/static/nothing.css"))
    monkeypatch.setattr("structures.views.doors.first_room", lambda user: 1 / 0)
    broken = client.get("/")
    assert broken.status_code == 500
    hold_headers(broken)


def test_an_original_is_only_saved_and_never_shown(world: World):
    client = signed_in(world.olive)
    for name, kwargs in (
        ("inspections:photo-original", ADDRESSES["inspections:photo-original"](world)),
        ("inventory:invoice-photo", {**ADDRESSES["inventory:invoice-photo"](world), "size": "original"}),
    ):
        answer = client.get(reverse(name, kwargs=kwargs))
        assert answer.headers["Content-Type"] == "application/octet-stream"
        assert answer.headers["Content-Disposition"].startswith("attachment; ")


def test_no_file_is_handed_out_by_its_path(world: World):
    photo, invoice = Photo.objects.first(), InvoicePhoto.objects.first()
    files = [photo.original, photo.shown, photo.small, invoice.original, invoice.shown, invoice.thumbnail]
    client = signed_in(world.olive)
    for file in files:
        assert default_storage.exists(file.name)
        for path in (f"/media/{file.name}", f"/{file.name}", f"/.data/media/{file.name}", f"/static/../{file.name}"):
            assert client.get(path).status_code == 404, path
        assert re.search(r"[0-9a-f]{8}-?[0-9a-f]{4}-?[0-9a-f]{4}", file.name), f"{file.name} can be guessed"
        assert Path(file.path).stat().st_mode & 0o077 == 0, file.name


@pytest.mark.parametrize("back", ["//elsewhere.example/", "https://elsewhere.example", "javascript:alert(1)", "/\\elsewhere.example", "\0"])
def test_signing_in_leads_to_our_own_pages_only(back, world: World):
    answer = Client().post(reverse("structures:sign-in"), {"username": "sue", "password": "a long spoken word", "next": back})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/")


def test_a_made_up_header_neither_locks_somebody_out_nor_lets_one_try_on(world: World):
    client, url = Client(), reverse("structures:sign-in")
    for number in range(6):
        tried = client.post(url, {"username": "sue", "password": "wrong"}, headers={"x-forwarded-for": f"203.0.113.{number}"})
    assert "5 tries with this name have failed" in words(tried)
    right = {"username": "sue", "password": "a long spoken word"}
    assert client.post(url, right, headers={"x-forwarded-for": "203.0.113.77"}).status_code == 200
    assert Client(REMOTE_ADDR="198.51.100.4").post(url, right).status_code == 302


def test_behind_our_proxy_only_what_it_added_itself_counts(world: World, settings):
    settings.BEHIND_PROXY = True
    client, url = Client(), reverse("structures:sign-in")

    def tried(password, said_by_the_caller, added_by_the_proxy):
        header = {"x-forwarded-for": f"{said_by_the_caller}, {added_by_the_proxy}"}
        return client.post(url, {"username": "sue", "password": password}, headers=header)

    for number in range(6):
        last = tried("wrong", f"203.0.113.{number}", "198.51.100.7")
    assert "5 tries with this name have failed" in words(last)
    assert tried("a long spoken word", "198.51.100.7", "198.51.100.8").status_code == 302


def test_more_than_one_photo_may_weigh_is_not_even_read(world: World):
    url = reverse("inspections:corner-keep", kwargs=ADDRESSES["inspections:corner-keep"](world))
    client = signed_in(world.ada)
    before = contents()
    big = SimpleUploadedFile("big.jpg", b"\xff" * (MOST_BYTES + 1), "image/jpeg")
    answer = client.post(url, keyed(corner="tag right", photo=big))
    assert answer.status_code == 400
    assert "a photo may have 25 megabytes" in words(answer)
    assert contents() == before
