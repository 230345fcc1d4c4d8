"""Every address, asked by everybody: each role, a stranger, and a grower to whom the thing does not belong.

The addresses come from the resolver, so a page without a rule, or one about something that no `addresses.py` can make,
fails here on the day it is added.
"""

from uuid import uuid4

import pytest
from django.urls import get_resolver, reverse

from structures.access import Rule, everyone, for_roles, signed_in, structure_for, structures_of
from structures.admin_site import OwnersSite
from structures.models import Event
from tests.factories import ADDRESSES, World, structure
from tests.resolver import ALL, Address, addresses, each_address

CAST = ("anonymous", "wes", "sue", "ada", "gil", "olive")
STAFF = ("wes", "sue", "olive")


@pytest.fixture
def world(wes, sue, ada, gil, olive):
    return World(wes, sue, ada, gil, olive)


@pytest.fixture
def ask(world, client_for):
    def answer(address: Address, who: str):
        client = client_for(getattr(world, who, None))
        url = address.url(world)
        response = client.get(url)
        # What only takes a POST is asked for one that carries nothing but its key.
        return client.post(url, {"request_key": str(uuid4())}) if response.status_code == 405 else response

    return answer


def test_the_resolver_was_walked():
    assert {"structures:home", "structures:structure-detail", "structures:sign-in"} <= {address.name for address in ALL}


def test_every_address_has_a_rule():
    assert [address.name for address in ALL if address.rule is None] == []


def test_every_address_about_something_says_about_what():
    assert [address.name for address in ALL if address.about_something and address.name not in ADDRESSES] == []


@each_address
@pytest.mark.django_db
def test_who_may_come_in_and_who_may_not(address, world, ask):
    wrong = {}
    for who in CAST:
        status, expected = verdict(address, world, who, ask(address, who))
        if not expected:
            wrong[who] = status
    assert wrong == {}


def verdict(address: Address, world: World, who: str, response) -> tuple[str, bool]:
    """What came back, in words, and whether the rule of the address allows exactly that."""
    status = response.status_code
    to_sign_in = status == 302 and response.headers["Location"].startswith(reverse("structures:sign-in"))
    told = "sent to sign in" if to_sign_in else str(status)
    if status >= 500:
        return told, False
    if address.rule.open:
        return told, not to_sign_in and status not in (401, 403)
    if who == "anonymous":
        return told, to_sign_in
    if not address.rule.admits(getattr(world, who)):
        return told, status == (403 if who in STAFF else 404)
    if who == "gil" and address.about_something:
        return told, status == 404
    return told, not to_sign_in and status not in (401, 403, 404)


ADMIN_PAGES = ("admin:index", "admin:structures_user_changelist", "admin:structures_design_changelist")


@pytest.mark.parametrize("name", ADMIN_PAGES)
@pytest.mark.django_db
def test_the_admin_is_the_owners_alone(name, world, client_for):
    for who in CAST:
        response = client_for(getattr(world, who, None)).get(reverse(name))
        expected = {"olive": 200, "anonymous": 302, "ada": 404, "gil": 404}.get(who, 403)
        assert response.status_code == expected, who


def test_every_page_of_the_admin_carries_the_owners_rule():
    site = next(entry for entry in get_resolver().url_patterns if entry.namespace == "admin")
    pages = [address for address in addresses(site) if not address.name.endswith("login")]
    assert len(pages) > 40
    assert [page.name for page in pages if not asks_for_an_owner(page)] == []


def asks_for_an_owner(page: Address) -> bool:
    """Most pages of the admin are wrapped anew at each call by the site they carry, so no rule hangs on their address."""
    view = page.pattern.callback
    site = getattr(view, "admin_site", None) or getattr(getattr(view, "model_admin", None), "admin_site", None)
    return isinstance(site, OwnersSite) if site else page.rule == Rule(roles=frozenset({"owner"}))


@pytest.mark.django_db
def test_the_admin_sends_to_the_one_door(client):
    answer = client.get(reverse("admin:login"))
    assert answer.headers["Location"] == "/sign-in/?next=%2Fadmin%2F"


@pytest.mark.django_db
def test_what_was_frozen_or_happened_can_only_be_looked_at_in_the_admin(olive, client_for):
    client = client_for(olive)
    made = structure()
    design = made.design
    for model, pk in (("design", design.pk), ("familyrevision", design.family.pk), ("event", Event.objects.first().pk)):
        page = reverse(f"admin:structures_{model}_change", args=[pk])
        assert client.get(page).status_code == 200, model
        assert client.post(page, {"engine": "2"}).status_code == 403, model
        assert client.get(reverse(f"admin:structures_{model}_add")).status_code == 403, model
        assert client.post(reverse(f"admin:structures_{model}_delete", args=[pk]), {"post": "yes"}).status_code == 403, model
    design.refresh_from_db()
    assert design.engine != "2"
    assert client.get(reverse("admin:structures_structure_change", args=[made.pk])).status_code == 200


@pytest.mark.django_db
def test_a_rule_that_names_no_role_or_an_unknown_one_is_refused():
    for roles in ((), ("guest",)):
        with pytest.raises(ValueError, match="the roles are warehouse, support, grower, owner"):
            for_roles(*roles)


@pytest.mark.django_db
def test_rules_as_a_table(wes, sue, ada, olive, client):
    from django.contrib.auth.models import AnonymousUser  # no model may be imported before the database is ready

    def view(request):
        raise RuntimeError("nobody calls it here")

    table = [
        (everyone(view), {"wes", "sue", "ada", "olive", "nobody"}),
        (signed_in(view), {"wes", "sue", "ada", "olive"}),
        (for_roles("warehouse")(view), {"wes", "olive"}),
        (for_roles("grower")(view), {"ada", "olive"}),
        (for_roles("support", "grower")(view), {"sue", "ada", "olive"}),
    ]
    cast = {"wes": wes, "sue": sue, "ada": ada, "olive": olive, "nobody": AnonymousUser()}
    for guarded, expected in table:
        assert {name for name, user in cast.items() if guarded.access_rule.admits(user)} == expected


@pytest.mark.django_db
def test_a_structure_is_seen_by_whoever_belongs_to_it_and_by_the_staff(ada, gil, sue):
    from django.http import Http404  # beside its one use

    mine = structure("T-1", belongs_to=ada, design=None)
    structure("T-2", belongs_to=gil, design=None)
    assert list(structures_of(ada)) == [mine]
    assert structures_of(sue).count() == 2
    assert structure_for(ada, "T-1") == mine
    for tag in ("T-2", "T-3"):
        with pytest.raises(Http404):
            structure_for(ada, tag)


@pytest.mark.django_db
def test_somebody_who_left_and_came_back_sees_a_structure_once(ada):
    mine = structure("T-1", belongs_to=ada, design=None)
    mine.belongings.update(until="2025-01-01")
    assert list(structures_of(ada)) == []
    mine.belongings.create(user=ada, since="2025-06-01")
    assert list(structures_of(ada)) == [mine]


@pytest.mark.django_db
def test_a_stranger_comes_back_to_the_page_after_signing_in_but_not_to_an_act(client, ada):
    page = reverse("structures:structure-list")
    assert client.get(page).headers["Location"] == f"{reverse('structures:sign-in')}?next={page}"
    act = reverse("structures:person-let-in")
    assert client.post(act).headers["Location"] == f"{reverse('structures:sign-in')}?next=/"
