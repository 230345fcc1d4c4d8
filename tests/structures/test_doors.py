"""Signing in and out, everybody's first page, and the pages that say no."""

import re
from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from structures import rooms
from structures.models import SignInTry
from structures.rooms import News
from tests.pages import words

pytestmark = pytest.mark.django_db
SIGN_IN = "/sign-in/"


def test_a_right_password_opens_the_page_that_was_asked_for(sue, client):
    answer = client.post(SIGN_IN, {"username": "sue", "password": "a long spoken word", "next": "/structures/"})
    assert answer.headers["Location"] == "/structures/"


def test_it_never_leads_to_another_site(sue, client):
    answer = client.post(SIGN_IN, {"username": "sue", "password": "a long spoken word", "next": "https://elsewhere.example/"})
    assert answer.headers["Location"] == "/"


@pytest.mark.parametrize("name", ["sue", "nobody"])
def test_a_wrong_password_and_an_unknown_name_get_the_same_sentence(name, sue, client):
    answer = client.post(SIGN_IN, {"username": name, "password": "wrong"})
    assert answer.status_code == 200
    assert "This name and password do not fit together." in words(answer)
    assert f'value="{name}"' in answer.content.decode()


def test_after_five_tries_nobody_is_looked_at_for_a_quarter_of_an_hour(sue, client, monkeypatch):
    def tried(password):
        return words(client.post(SIGN_IN, {"username": "Sue", "password": password}))

    assert "After 4 more tries you wait 15 minutes." in tried("wrong")
    assert "After 3 more tries" in tried("wrong")
    assert "After 2 more tries" in tried("wrong")
    assert "After 1 more try you wait 15 minutes." in tried("wrong")
    assert "Now you wait 15 minutes." in tried("wrong")
    sentence = "5 tries with this name have failed, so the next one is looked at in 15 minutes: nothing else was changed."
    assert sentence in tried("wrong")
    assert sentence in words(client.post(SIGN_IN, {"username": "sue", "password": "a long spoken word"}))
    SignInTry.objects.update(at=timezone.now() - timedelta(minutes=16))
    assert client.post(SIGN_IN, {"username": "sue", "password": "a long spoken word"}).status_code == 302


def test_signing_in_forgets_the_tries_before(sue, client):
    for password in ("wrong", "wrong", "a long spoken word"):
        client.post(SIGN_IN, {"username": "sue", "password": password})
    assert not SignInTry.objects.exists()


def test_signing_out_takes_a_post(sue, client_for):
    client = client_for(sue)
    assert client.get(reverse("structures:sign-out")).status_code == 405
    client.post(reverse("structures:sign-out"))
    assert client.get("/").headers["Location"] == "/sign-in/?next=/"


ROOMS = {
    "wes": {"Structures": False, "People": False, "Families": False},
    "sue": {"Structures": True, "People": False, "Size and options": True, "Families": True},
    "olive": {"Structures": True, "People": True, "Size and options": True, "Families": True},
}


@pytest.mark.parametrize("who", list(ROOMS))
def test_the_first_page_names_the_rooms_of_a_role(who, request, client_for):
    html = client_for(request.getfixturevalue(who)).get("/").content.decode()
    named = set(re.findall(r"<li><a [^>]+>([^<]+)</a>", html))
    assert {room: room in named for room in ROOMS[who]} == ROOMS[who]


def test_the_strip_holds_a_few_rooms_and_leads_to_the_rest(olive, client_for):
    strip = client_for(olive).get("/me/").content.decode().split("</nav>")[0]
    assert re.findall(r">([^<]+)</a>", strip)[-1] == "More"
    assert "People" not in strip


def test_a_grower_comes_straight_to_what_is_theirs(ada, client_for):
    assert client_for(ada).get("/").headers["Location"] == reverse("inspections:home")


def test_the_current_room_is_marked(sue, client_for):
    html = client_for(sue).get("/families/").content.decode()
    assert re.findall(r'aria-current="page">([^<]+)<', html) == ["Families"]


def test_news_lead_to_their_page_and_late_ones_stand_first(sue, client_for, monkeypatch):
    told = [News("Two things wait.", "/a/"), News("One is late.", "/b/", late=True)]
    monkeypatch.setattr(rooms, "_NEWS", [(frozenset({"support"}), lambda user: told)])
    html = client_for(sue).get("/").content.decode()
    assert html.index("One is late.") < html.index("Two things wait.")
    assert 'href="/b/" class="late"' in html


def test_nothing_stands_here_and_a_letter_o_is_noticed(sue, client_for):
    answer = client_for(sue).get("/families/12O7/")
    assert answer.status_code == 404
    assert "The address /families/12O7/ leads nowhere. Perhaps a letter O was meant as a nought: /families/1207/." in words(answer)


def test_not_yours_says_whose_who_you_are_and_whom_to_ask(wes, olive, client_for):
    answer = client_for(wes).get("/people/")
    assert answer.status_code == 403
    said = words(answer)
    assert "It belongs to the owner, and you are signed in as wes, warehouse. Nothing was changed." in said
    assert "Should you see it? Ask olive, who keeps the list of people." in said


def test_a_page_that_stood_open_too_long(sue):
    client = Client(enforce_csrf_checks=True)
    client.force_login(sue)
    answer = client.post("/me/keep/", {"units": "us"})
    assert answer.status_code == 403
    assert "The page had stood open for too long, or cookies are switched off, so nothing was changed." in words(answer)


def test_our_own_mistake_says_that_nothing_was_changed(sue, client_for, monkeypatch):
    def broken(user):
        raise RuntimeError("a mistake of ours")

    monkeypatch.setattr(rooms, "_NEWS", [(frozenset({"support"}), broken)])
    client = client_for(sue)
    client.raise_request_exception = False
    answer = client.get("/")
    assert answer.status_code == 500
    assert "Something went wrong on our side" in words(answer)


@pytest.mark.parametrize("path", ["/", "/sign-in/", "/structures/", "/size/", "/nowhere/"])
def test_no_page_has_anything_inline(path, sue, client_for):
    html = client_for(sue).get(path, follow=True).content.decode()
    assert not re.search(r"<[^>]+\s(?:style|on[a-z]+)=", html)
    assert not re.search(r"<script(?![^>]*\bsrc=)", html)
