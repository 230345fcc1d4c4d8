"""Every page that links lead to, once for each kind, with the demo's data: as each role on a phone, then once at a desk."""

from collections import deque

import pytest
from django.test import Client
from django.urls import Resolver404, resolve

import inspections.demo_data
import inventory.demo_data
import structures.demo_data
from structures.models import User
from tests.browser.conftest import DESK, PHONE

ROLES = ("owner", "support", "warehouse", "grower")
# Nothing of ours: Django's own admin, and files.
NOT_PAGES = ("/admin/", "/static/")


@pytest.fixture
def demo(transactional_db):
    """The demo's own data."""
    for app in (structures, inventory, inspections):
        app.demo_data.load(lambda line: None)


@pytest.mark.parametrize("screen", [PHONE], ids=["390, then 1280"])
def test_every_page_that_can_be_reached(demo, visitor_for, screen):
    wrong, pages = [], {}
    for role in ROLES:
        user = User.objects.get(username=role)
        kinds, found = walk_round(visitor_for(user), user, pages)
        wrong += [f"{role}: {words}" for words in found]
        wrong += [f"{role}: no link led to {kind}" for kind in sorted(FIRST[role] - kinds)]
    # At a desk a page sticks out more rarely, and its words and roles are as on the phone: one of each kind tells.
    visitors = {role: visitor_for(User.objects.get(username=role), at=DESK) for role in ROLES}
    for role, path in pages.values():
        wrong += [f"{role} at a desk: {words}" for words in look_over(visitors[role], path)]
    assert not wrong, "\n".join(wrong)


# What each role must come upon from its first page by following links, or it might as well not be there.
FIRST = {
    "owner": {"structures:home", "structures:size", "structures:family-list", "inventory:part-list", "inventory:order-list"},
    "support": {"structures:home", "inventory:order-list", "structures:structure-list"},
    "warehouse": {"structures:home", "inventory:bin-list", "inventory:movement-list"},
    "grower": {"inspections:home", "inspections:leave-now", "inspections:structure-visits"},
}


def walk_round(visitor, user, pages: dict[str, tuple[str, str]]) -> tuple[set[str], list[str]]:
    """Follow links from the first page, to one page of each kind; give the kinds that were seen and what was wrong.

    `pages` gathers who found the first page of each kind, and where; what is no page but a file is only asked for.
    """
    client = Client()
    client.force_login(user)
    waiting, seen, wrong = deque(["/"]), set(), []
    while waiting:
        path = waiting.popleft()
        kind = kind_of(path)
        if kind is None or kind in seen:
            continue
        seen.add(kind)
        if kind not in pages:
            answer = client.get(path, follow=True)
            if answer.status_code != 200:
                wrong.append(f"led to {path}, which answered {answer.status_code}")
                continue
            if not answer["Content-Type"].startswith("text/html"):
                continue
        wrong += look_over(visitor, path)
        landed = kind_of(visitor.page.url.removeprefix(visitor.address)) or kind
        pages.setdefault(landed, (user.username, path))
        seen.add(landed)
        waiting.extend(links_on(visitor))
    return seen, wrong


def look_over(visitor, path: str) -> list[str]:
    """Open a page in the browser; give what is wrong with it."""
    try:
        visitor.goto(path)
    except AssertionError as found:
        visitor.wrong.clear()
        return [str(found)]
    return []


def links_on(visitor) -> list[str]:
    """The addresses within the product that this page links to."""
    links = visitor.page.eval_on_selector_all("a[href]", "(all) => all.map((one) => one.href.split('#')[0])")
    return [link.removeprefix(visitor.address) for link in links if link.startswith(visitor.address)]


def kind_of(path: str) -> str | None:
    """The name of the page at this address; None where there is no page of ours."""
    if path.startswith(NOT_PAGES):
        return None
    try:
        return resolve(path.split("?")[0]).view_name
    except Resolver404:
        return f"nothing at {path}"
