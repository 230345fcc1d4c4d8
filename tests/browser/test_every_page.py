"""Every page that links lead to, once for each kind, as each role, with the demo's data: looked over at both widths."""

from collections import deque

import pytest
from django.test import Client
from django.urls import Resolver404, resolve

import inspections.demo_data
import inventory.demo_data
import structures.demo_data
from structures.models import User

ROLES = ("owner", "support", "warehouse", "grower")
# Nothing of ours: Django's own admin, and files.
NOT_PAGES = ("/admin/", "/static/")


@pytest.fixture
def demo(transactional_db):
    """The demo's own data."""
    for app in (structures, inventory, inspections):
        app.demo_data.load(lambda line: None)


def test_every_page_that_can_be_reached(demo, visitor_for):
    wrong = []
    for role in ROLES:
        user = User.objects.get(username=role)
        kinds, found = walk_round(visitor_for(user), user)
        wrong += [f"{role}: {words}" for words in found]
        wrong += [f"{role}: no link led to {kind}" for kind in sorted(FIRST[role] - kinds)]
    assert not wrong, "\n".join(wrong)


# What each role must come upon from its first page by following links, or it might as well not be there.
FIRST = {
    "owner": {"structures:home", "structures:size", "structures:family-list", "inventory:part-list", "inventory:order-list"},
    "support": {"structures:home", "inventory:order-list", "structures:structure-list"},
    "warehouse": {"structures:home", "inventory:bin-list", "inventory:movement-list"},
    "grower": {"inspections:home", "inspections:leave-now", "inspections:structure-visits"},
}


def walk_round(visitor, user) -> tuple[set[str], list[str]]:
    """Follow links from the first page, to one page of each kind; give the kinds that were seen and what was wrong."""
    client = Client()
    client.force_login(user)
    waiting, seen, wrong = deque(["/"]), set(), []
    while waiting:
        path = waiting.popleft()
        kind = kind_of(path)
        if kind is None or kind in seen:
            continue
        answer = client.get(path, follow=True)
        seen.add(kind)
        if answer.status_code != 200:
            wrong.append(f"led to {path}, which answered {answer.status_code}")
        elif answer["Content-Type"].startswith("text/html"):
            try:
                visitor.goto(path)
            except AssertionError as found:
                wrong.append(str(found))
                visitor.wrong.clear()
            seen.add(kind_of(visitor.page.url.removeprefix(visitor.address)) or kind)
            waiting.extend(links_on(visitor))
    return seen, wrong


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
