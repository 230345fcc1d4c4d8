"""Addresses and queries that nobody should send: never a 500, whatever stands in them."""

from uuid import uuid4

import pytest
from django.urls import NoReverseMatch, reverse
from django.utils.http import urlencode

from tests.bad_input.asking import fell_over, signed_in, who_may
from tests.bad_input.junk import HUGE, JUNK, LIST_NAMES, asked_names
from tests.factories import ADDRESSES, World
from tests.pages import words
from tests.resolver import ALL, Address, each_address

pytestmark = pytest.mark.django_db
IN_PATH = {
    "int": (0, 2**31, 2**63, 10**30),
    "uuid": (uuid4(), "00000000-0000-0000-0000-000000000000"),
    "slug": ("-", "x" * 3000, "0", HUGE, "P-", "P-" + HUGE, "__class__"),
    "part_number": ("X", "Z" * 40, "0.-", HUGE),
    "str": ("a\0b", "x" * 3000, "..", "%00", "🌧️", "'\";--", "<b>", HUGE, " ", "B999-R", "H1-L", "B0-R", "B" + HUGE + "-R", "B²-R"),
}


def test_every_kind_of_part_of_an_address_is_tried():
    kinds = {kind for address in ALL for kind in kinds_of(address).values()}
    assert kinds <= set(IN_PATH)


def kinds_of(address: Address) -> dict[str, str]:
    """The name of each part of an address and its converter, as it stands in the route."""
    parts = [part.strip("<>").split(":") for part in str(address.pattern.pattern).split("/") if ":" in part]
    return {name.split(">")[0]: kind.split("<")[-1] for kind, name in parts}


@pytest.mark.parametrize("address", [one for one in ALL if one.about_something], ids=lambda one: one.name)
def test_an_address_of_nothing_is_no_accident(address: Address, world: World):
    good = ADDRESSES[address.name](world)
    wrong = []
    for person in who_may(world, address):
        client = signed_in(person)
        for name, kind in kinds_of(address).items():
            for junk in IN_PATH[kind]:
                try:
                    url = reverse(address.name, kwargs={**good, name: junk})
                except NoReverseMatch:
                    continue
                answer = client.get(url)
                if answer.status_code == 405:
                    answer = client.post(url, {"request_key": str(uuid4())})
                if said := fell_over(answer):
                    wrong.append((str(person), name, str(junk)[:30], said))
    assert wrong == []


@each_address
def test_a_query_of_junk_is_no_accident(address: Address, world: World):
    url = address.url(world)
    wrong = []
    for person in who_may(world, address):
        client = signed_in(person)
        with asked_names() as names:
            first = client.get(url)
        if first.status_code == 405:
            continue
        for query in queries(sorted(names), is_list="per_page" in names):
            answer = client.get(f"{url}?{urlencode(query, doseq=True)}")
            if said := fell_over(answer):
                wrong.append((str(person), {name: str(value)[:30] for name, value in query.items()}, said))
    assert wrong == []


def queries(names: list[str], *, is_list: bool):
    """Junk for all names at once, each name with other junk, then for each name alone."""
    yield {**dict.fromkeys(LIST_NAMES, "-1"), "": "", "a[]": ["1", "2"]}
    if not names:
        return
    for turn in range(0, len(JUNK), 4 if is_list else 2):
        yield {name: JUNK[(turn + at * 5) % len(JUNK)] for at, name in enumerate(names)}
    for name in names:
        for junk in ("a\0b", HUGE, "-1", ["1", "x", ""]):
            yield {name: junk}


@pytest.mark.parametrize("url", ["/structures/a%00b/", "/find/?q=a%00b", "/sign-in/?next=%00"])
def test_a_nul_in_an_address_is_refused_before_anything_is_looked_up(url, world: World, django_assert_num_queries):
    client = signed_in(world.olive)
    with django_assert_num_queries(0):
        answer = client.get(url)
    assert answer.status_code == 400
    assert "This could not be read" in words(answer)
