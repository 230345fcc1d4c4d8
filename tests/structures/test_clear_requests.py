"""Old answers go, and nothing else does."""

from datetime import timedelta
from io import StringIO
from uuid import uuid4

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from structures.models import AsBuiltChange, Event, KeyedRequest
from tests.factories import structure
from tests.pages import keyed

pytestmark = pytest.mark.django_db


def answered(days: float):
    kept = KeyedRequest.objects.create(key=uuid4(), body_sha256="0" * 64, status=302, location="/")
    KeyedRequest.objects.filter(pk=kept.pk).update(at=timezone.now() - timedelta(days=days))
    return kept


def clear(*arguments: str) -> str:
    said = StringIO()
    call_command("clear_requests", *arguments, stdout=said)
    return said.getvalue().strip()


def test_what_is_older_goes_and_what_is_younger_stays():
    answered(91)
    young = answered(89)
    assert clear() == "1 answer older than 90 days deleted."
    assert list(KeyedRequest.objects.all()) == [young]
    event = Event.objects.get()
    assert (event.verb, event.who, event.after) == ("forgot", None, {"count": 1, "older than days": 90})


def test_the_days_can_be_said():
    answered(31)
    answered(29)
    assert clear("--older-than", "30") == "1 answer older than 30 days deleted."
    assert clear("--older-than", "30") == "0 answers older than 30 days deleted."
    assert Event.objects.count() == 1


def test_a_dry_run_counts_and_deletes_nothing():
    answered(91)
    answered(92)
    assert clear("--dry-run") == "2 answers older than 90 days would be deleted."
    assert KeyedRequest.objects.count() == 2
    assert not Event.objects.exists()


@pytest.mark.parametrize("days", ["13", "0", "-5"])
def test_too_few_days_are_refused(days):
    kept = answered(20)
    with pytest.raises(CommandError) as refused:
        clear("--older-than", days)
    assert str(refused.value) == f"{days} days were given: 14 or more would do, since a phone may send again what it kept so long."
    assert refused.value.returncode == 2
    assert list(KeyedRequest.objects.all()) == [kept]


def test_more_days_than_there_ever_were_find_nothing():
    answered(400)
    assert clear("--older-than", "9" * 12) == "0 answers older than 999,999,999,999 days deleted."


def test_what_the_request_changed_stays(ada, client_for):
    made = structure(belongs_to=ada, design=None)
    client, body = client_for(ada), keyed(act="moved", place="H4-tie", words="moved up", seen_on="2024-06-01")
    url = f"/structures/{made.tag}/differs/"
    client.post(url, body)
    KeyedRequest.objects.update(at=timezone.now() - timedelta(days=100))
    clear()
    assert AsBuiltChange.objects.count() == 1
    assert not KeyedRequest.objects.exists()
