"""Several at one moment: the same key changes once, and equal designs still share a row."""

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection
from django.urls import reverse

from structures.actions.designs import freeze_design
from structures.frame.choose import choose
from structures.models import AsBuiltChange, Design, Event
from structures.queries.families import family_of
from tests.factories import family_revision, structure
from tests.pages import keyed

pytestmark = pytest.mark.django_db(transaction=True)
AT_ONCE = 4


def all_at_once(act):
    """Call `act` in several threads that start together, each with a connection of its own."""
    start = Barrier(AT_ONCE)

    def one(number):
        start.wait()
        try:
            return act(number)
        finally:
            connection.close()

    with ThreadPoolExecutor(AT_ONCE) as pool:
        return list(pool.map(one, range(AT_ONCE)))


def test_a_double_tap_notes_once_and_everybody_gets_the_same_answer(ada, client_for):
    made = structure(belongs_to=ada, design=None)
    clients = [client_for(ada) for _ in range(AT_ONCE)]
    body = keyed(act="moved", place="H4-tie", words="moved up", seen_on="2024-06-01")
    url = reverse("structures:structure-differs", args=[made.tag])
    answers = all_at_once(lambda number: clients[number].post(url, body))
    assert {(answer.status_code, answer.headers["Location"]) for answer in answers} == {(302, "/structures/T-0412/")}
    assert AsBuiltChange.objects.count() == 1
    assert Event.objects.filter(verb="noted as built").count() == 1


def test_different_keys_lose_nothing(ada, client_for):
    made = structure(belongs_to=ada, design=None)
    clients = [client_for(ada) for _ in range(AT_ONCE)]
    url = reverse("structures:structure-differs", args=[made.tag])

    def note(number):
        return clients[number].post(url, keyed(act="moved", place=f"H{number + 1}-tie", words="moved up", seen_on="2024-06-01"))

    assert [answer.status_code for answer in all_at_once(note)] == [302] * AT_ONCE
    assert sorted(AsBuiltChange.objects.values_list("place", flat=True)) == ["H1-tie", "H2-tie", "H3-tie", "H4-tie"]


def test_one_design_frozen_by_several_at_once_is_one_row(olive):
    revision = family_revision("R14", "A")
    configuration = choose(family_of(revision))
    frozen = all_at_once(lambda number: freeze_design(revision, configuration, by=olive).pk)
    assert len(set(frozen)) == 1
    assert Design.objects.count() == 1
    assert Event.objects.filter(verb="froze").count() == 1
