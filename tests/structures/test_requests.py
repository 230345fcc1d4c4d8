"""One key, one change."""

from uuid import uuid4

import pytest
from django.contrib.sessions.backends.db import SessionStore
from django.http import HttpResponse
from django.shortcuts import redirect
from django.test import RequestFactory

from structures.events import record
from structures.models import Event, KeyedRequest
from structures.refusals import Conflict, Refuse
from structures.requests import changes

pytestmark = pytest.mark.django_db


@changes
def rename(request, thing="shed"):
    name = request.POST["name"]
    record("renamed", thing, who=request.user, after=name)
    if name == "taken":
        raise Refuse("The name taken is in use: choose another.")
    if name == "late":
        raise Conflict("Somebody renamed it a moment ago: look again.")
    if name == "more":
        return HttpResponse(f"form again {request.POST['why']}")
    if name == "empty":
        return HttpResponse("form again", status=422)
    return redirect("/things/")


@pytest.fixture
def send(olive):
    def post(body, user=olive):
        request = RequestFactory().post("/rename/", body)
        request.user = user
        request.session = SessionStore()
        return rename(request)

    return post


def test_the_same_key_and_body_changes_once_and_gets_the_same_answer(send):
    body = {"request_key": str(uuid4()), "name": "barn"}
    first, again = send(body), send(body)
    assert (first.status_code, first.headers["Location"]) == (again.status_code, again.headers["Location"]) == (302, "/things/")
    assert Event.objects.count() == 1


def test_a_form_shown_again_may_hold_what_no_database_takes(send):
    body = {"request_key": str(uuid4()), "name": "more", "why": "a\0b"}
    first, again = send(body), send(body)
    assert (first.content, again.content.decode()) == (b"form again a\0b", "form again a\ufffdb")


def test_the_same_key_with_another_body_is_a_conflict(send):
    key = str(uuid4())
    send({"request_key": key, "name": "barn"})
    answer = send({"request_key": key, "name": "byre"})
    assert answer.status_code == 409
    assert b"already sent with other words in it" in answer.content
    assert Event.objects.count() == 1


def test_another_persons_key_is_a_conflict(send, sue):
    key = str(uuid4())
    send({"request_key": key, "name": "barn"})
    assert send({"request_key": key, "name": "barn"}, user=sue).status_code == 409


def test_a_refused_request_keeps_nothing_and_may_be_sent_again(send):
    key = str(uuid4())
    refused = send({"request_key": key, "name": "empty"})
    assert refused.status_code == 422
    assert not Event.objects.exists()
    assert not KeyedRequest.objects.exists()
    assert send({"request_key": key, "name": "barn"}).status_code == 302


def test_a_refusal_that_no_form_shows_gets_a_page_with_its_sentence(send):
    refused = send({"request_key": str(uuid4()), "name": "taken"})
    assert refused.status_code == 422
    assert b"The name taken is in use: choose another." in refused.content
    assert send({"request_key": str(uuid4()), "name": "late"}).status_code == 409
    assert not Event.objects.exists()


@pytest.mark.parametrize("key", ["", "seven", "123"])
def test_without_a_key_nothing_is_changed(send, key):
    answer = send({"request_key": key, "name": "barn"})
    assert answer.status_code == 400
    assert b"sent without its key" in answer.content
    assert not Event.objects.exists()


def test_an_event_outside_a_transaction_is_refused(olive, transactional_db):
    with pytest.raises(RuntimeError, match="outside a transaction"):
        record("renamed", "shed", who=olive)
