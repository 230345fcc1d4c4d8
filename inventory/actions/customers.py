"""Taking down who somebody is."""

from __future__ import annotations

from django.db import transaction

from inventory.models import Customer
from inventory.phones import phone_digits
from structures.events import record
from structures.models import User
from structures.refusals import Refuse


def keep_customer(*, name: str, by: User | None, farm: str = "", town: str = "", phone: str = "", note: str = "") -> Customer:
    """The customer of this name, town and phone: the one we have, else a new one.

    Somebody of the same name in another town, or with another number, is somebody else until a person says otherwise.
    Raises `Refuse` for an empty name.
    """
    said = " ".join(name.split())
    if not said:
        raise Refuse("The order has no name on it: give the name of the person or the farm.", field="name")
    with transaction.atomic():
        wanted = Customer(name=said, farm=farm.strip(), town=town.strip(), phone=phone.strip(), note=note.strip())
        for known in Customer.objects.named(said, wanted.town):
            if not wanted.phone or not known.phone or _same_phone(wanted, known):
                return _completed(known, wanted, by)
        wanted.save()
        record("customer kept", f"customer {wanted.pk}", who=by, after={"name": said, "town": wanted.town})
        return wanted


FIELDS = ("name", "farm", "town", "phone", "note")


def change_customer(customer: Customer, values: dict[str, str], *, by: User) -> Customer:
    """Put right what is known about a customer: all of `FIELDS`. Nothing is written when nothing differs."""
    with transaction.atomic():
        customer = Customer.objects.select_for_update().get(pk=customer.pk)
        before = {field: getattr(customer, field) for field in FIELDS}
        after = {field: values[field].strip() for field in FIELDS}
        if before == after:
            return customer
        for field, value in after.items():
            setattr(customer, field, value)
        customer.save(update_fields=FIELDS)
        record("customer changed", f"customer {customer.pk}", who=by, before=before, after=after)
        return customer


def _same_phone(one: Customer, other: Customer) -> bool:
    return phone_digits(one.phone) == phone_digits(other.phone)


def _completed(known: Customer, wanted: Customer, by: User | None) -> Customer:
    """Fill what was not known before; never overwrite what somebody was told."""
    new = {
        field: getattr(wanted, field)
        for field in ("farm", "town", "phone")
        if getattr(wanted, field) and not getattr(known, field)
    }
    if new:
        for field, value in new.items():
            setattr(known, field, value)
        known.save(update_fields=list(new))
        record("customer completed", f"customer {known.pk}", who=by, after=new)
    return known
