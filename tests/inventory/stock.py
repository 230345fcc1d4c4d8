"""Parts, bins and stock for tests, each as plain as it can be."""

from uuid import uuid4

from django.contrib.messages import get_messages
from django.urls import reverse

from inventory import ledger
from inventory.ledger import Entry
from inventory.models import Bin, Holding, Movement, Part


def make_part(number, **fields):
    """A part; one that is there already is given back."""
    made = {"name": f"Part {number}", "role": "side brace", "kind": "tube", "tube": "1.315 x .058", "ends": "flat both ends"}
    return Part.objects.get_or_create(number=number, defaults={**made, **fields})[0]


def make_bin(code, **fields):
    """A bin, in walking order of being made."""
    return Bin.objects.get_or_create(code=code, defaults={"walk": Bin.objects.count() + 1, **fields})[0]


def stocked(who, number, code, quantity, lot="unknown", **fields):
    """A part with so many in a bin, through the ledger."""
    part, bin = make_part(number, **fields), make_bin(code)
    ledger.post([Entry(part, bin, quantity, lot)], key=uuid4(), by=who, kind=Movement.Kind.RECEIVED)
    return part, bin


def send(client, name, data=None, *, key=None, **about):
    """Send a page's form with its key; `about` is what stands in its address."""
    return client.post(reverse(name, kwargs=about), {"request_key": str(key or uuid4()), **(data or {})})


def said(response):
    """The messages that the next page will show."""
    return [str(message) for message in get_messages(response.wsgi_request)]


def errors(response, form="form"):
    """Each refusal of a form by its field, as words."""
    return {field: list(sentences) for field, sentences in response.context[form].errors.items()}


def quantities():
    """What lies where: (part, bin, lot) to pieces."""
    rows = Holding.objects.there().values_list("part__number", "bin__code", "lot", "quantity")
    return {row[:3]: row[3] for row in rows}
