"""The visitor sees what is wrong with a page: each fault is served on purpose, and none may pass."""

import pytest

from tests.browser.conftest import DESK

pytestmark = pytest.mark.parametrize("screen", [DESK], ids=["1280"], indirect=True)

PAGE = "<!doctype html><html lang='en'><title>A page</title><main><h1>A page</h1>{fault}</main></html>"
POLICY = {"content-type": "text/html", "content-security-policy": "default-src 'self'; script-src 'self'"}

FAULTS = {
    "an inline style": ("<p style='color: #111111'>Words</p>", "content policy: style-src-attr refused inline"),
    "an inline script": ("<script>1</script>", "content policy: script-src-elem refused inline"),
    "a picture of somebody else's": ("<img alt='' src='http://127.0.0.1:9/a.png'>", "content policy: img-src refused"),
    "a missing file": ("<img alt='' src='/no-such-picture.png'>", "the server responded with a status of 404"),
    "a server error behind the page": ("<img alt='' src='/broken.png'>", "/broken.png answered 500"),
    "a picture without words": ("<svg role='img' width='10' height='10'></svg>", "svg-img-alt"),
    "what sticks out": ("<pre>" + "wide " * 400 + "</pre>", "sticks out to"),
}


@pytest.fixture
def shown(visitor_for):
    """Show a page with a fault and give the visitor who stands before it."""

    def show(fault: str):
        visitor = visitor_for(None)
        visitor.page.route("**/faulty/", lambda route: route.fulfill(body=PAGE.format(fault=fault), headers=POLICY))
        visitor.page.route("**/broken.png", lambda route: route.fulfill(status=500))
        visitor.page.goto(visitor.address + "/faulty/")
        visitor.page.wait_for_load_state("networkidle")
        return visitor

    return show


def test_a_sound_page_passes(shown):
    shown("<p>Words</p>").look()


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_seen(shown, name):
    fault, words = FAULTS[name]
    visitor = shown(fault)
    with pytest.raises(AssertionError) as seen:
        visitor.look()
    assert words in str(seen.value)
    visitor.wrong.clear()  # it was seen, and the end of the test has nothing to add


def test_a_script_that_stops_is_seen(shown):
    visitor = shown("<p>Words</p>")
    with visitor.page.expect_event("pageerror"):
        visitor.page.evaluate("() => { setTimeout(() => { missing(); }, 0); }")
    with pytest.raises(AssertionError, match="missing is not defined"):
        visitor.look()
    visitor.wrong.clear()


def test_a_page_that_fails_is_seen(visitor_for):
    visitor = visitor_for(None)
    visitor.page.route("**/failing/", lambda route: route.fulfill(status=500, body="No."))
    with pytest.raises(AssertionError, match="answered 500"):
        visitor.goto("/failing/")
    visitor.wrong.clear()
