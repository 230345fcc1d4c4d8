"""One world for all of these tests, made once: each test changes it inside a transaction that is rolled back."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

import pytest
import weasyprint
from django.conf import settings
from django.contrib.auth import get_user_model
from django.db import transaction
from django.test import Client
from django.urls import Resolver404, resolve

from structures.refusals import Refuse
from tests.bad_input.asking import signed_in
from tests.bad_input.shown_forms import Form, Shown, shown_forms
from tests.factories import ADDRESSES, World
from tests.resolver import ALL

CAST = {"wes": "warehouse", "sue": "support", "ada": "grower", "gil": "grower", "olive": "owner"}


@pytest.fixture(scope="package")
def shared_media(tmp_path_factory):
    return tmp_path_factory.mktemp("media")


@pytest.fixture(scope="package")
def shared_world(django_db_setup, django_db_blocker, shared_media) -> Iterator[World]:
    """Everything that every address is about, made once."""
    before = settings.MEDIA_ROOT
    with django_db_blocker.unblock(), transaction.atomic():
        settings.MEDIA_ROOT = shared_media
        try:
            make = get_user_model().objects.create_user
            world = World(**{name: make(username=name, password="a long spoken word", role=role) for name, role in CAST.items()})
            for address in ALL:
                if address.about_something:
                    ADDRESSES[address.name](world)
            settings.MEDIA_ROOT = before
            yield world
        finally:
            settings.MEDIA_ROOT = before
            transaction.set_rollback(True)


@pytest.fixture
def world(shared_world, shared_media, settings, _media_of_its_own, db) -> World:
    settings.MEDIA_ROOT = shared_media
    return shared_world


@pytest.fixture(scope="package")
def posted_forms(shared_world, shared_media, django_db_blocker) -> dict[str, list[tuple[str, Form, Shown]]]:
    """For each address that is posted to, the forms that lead there from any page, with the page they stand on."""
    found = defaultdict(list)
    before = settings.MEDIA_ROOT
    settings.MEDIA_ROOT = shared_media
    with django_db_blocker.unblock(), pytest.MonkeyPatch.context() as patched:
        # A paper has no form, and a dozen of them take longer to make than all the pages. Refused, none is kept for later.
        patched.setattr(weasyprint.HTML, "write_pdf", _no_paper)
        client = signed_in(shared_world.olive)
        for address in ALL:
            url = address.url(shared_world)
            for page in _looks(client, url):
                for form in page.forms:
                    action = form.action or url
                    if form.method == "post" and (name := _name_of(action)):
                        found[name].append((action, form, page))
    settings.MEDIA_ROOT = before
    return found


def _no_paper(html: weasyprint.HTML) -> bytes:
    raise Refuse("No paper is made here.")


def _looks(client: Client, url: str) -> Iterator[Shown]:
    """A page, and how it looks by the first of its links that asks it for something, as a place on a walk."""
    first = shown_forms(client.get(url))
    yield first
    asking = next((link for link in first.links if link.startswith((f"{url}?", "?"))), "")
    if asking:
        yield shown_forms(client.get(asking if asking.startswith("/") else url + asking))


def _name_of(action: str) -> str:
    try:
        return resolve(action.split("?")[0]).view_name
    except Resolver404:
        return ""
