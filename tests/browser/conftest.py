"""A real browser against a live server, at the width of a phone and of a desk."""

import os

import pytest
from django.conf import settings
from django.test import Client
from playwright.sync_api import Browser, sync_playwright

from structures.project.browser import find_chromium
from tests.browser.visitor import Visitor

# The browser is driven from an event loop, in which Django would refuse every look into the database.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"

PHONE = {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 2, "is_mobile": True, "has_touch": True}
DESK = {"viewport": {"width": 1280, "height": 900}}


@pytest.fixture(scope="session")
def browser():
    """One Chromium for the whole run."""
    chromium = find_chromium()
    assert chromium is not None, "Browser tests need a Chromium: python3 manage.py test installs one where it may."
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=str(chromium))
        yield started
        started.close()


@pytest.fixture(params=[PHONE, DESK], ids=["390", "1280"])
def screen(request) -> dict:
    """The screen that a test runs at; every test runs at both."""
    return request.param


@pytest.fixture
def visitor_for(browser: Browser, screen: dict, live_server):
    """Give a visitor signed in as somebody: `visitor_for(ada)`; `visitor_for(None)` is at the door; `at` another screen than the test's."""
    contexts, visitors = [], []

    def come(user=None, *, at: dict | None = None) -> Visitor:
        context = browser.new_context(**(at or screen), locale="en-US", timezone_id="UTC")
        contexts.append(context)
        context.set_default_timeout(15_000)
        if user is not None:
            context.add_cookies([_session_of(user, live_server.url)])
        visitors.append(Visitor(context.new_page(), live_server.url))
        return visitors[-1]

    yield come
    reports = [line for visitor in visitors for line in visitor.reported()]
    for context in contexts:
        context.close()
    assert reports == []


def _session_of(user, address: str) -> dict:
    client = Client()
    client.force_login(user)
    return {"name": settings.SESSION_COOKIE_NAME, "value": client.cookies[settings.SESSION_COOKIE_NAME].value, "url": address}
