"""What people type about orders. Every form hands over domain values and has one sentence for each refusal."""

from __future__ import annotations

from typing import Any

from django import forms

from inventory.forms.stock_fields import DayField, PartField, PiecesField
from inventory.models import Order, OrderLine


class WhoForm(forms.Form):
    """Who the order is for, and when it is promised."""

    name = forms.CharField(label="Name", max_length=120, error_messages={"required": "The name is missing: who is it for?"})
    farm = forms.CharField(label="Farm, if it has a name", max_length=120, required=False)
    town = forms.CharField(label="Town", max_length=120, required=False)
    phone = forms.CharField(label="Phone, as it is said", max_length=60, required=False)
    promised_on = DayField(label="Promised for, empty while open", required=False)


class CustomerForm(forms.Form):
    """What is known about somebody who ordered."""

    name = forms.CharField(label="Name", max_length=120, error_messages={"required": "The name is missing: unknown is a name too."})
    farm = forms.CharField(label="Farm, if it has a name", max_length=120, required=False)
    town = forms.CharField(label="Town", max_length=120, required=False)
    phone = forms.CharField(label="Phone, as it is said", max_length=60, required=False)
    note = forms.CharField(label="Note", max_length=2000, required=False, widget=forms.Textarea(attrs={"rows": 3}))


class WhereToForm(forms.Form):
    """Onto which order a chosen size goes: as another structure, or in the place of one of its lines."""

    order = forms.CharField(label="Order", max_length=12)
    line = forms.IntegerField(
        label="In place of line, empty to add", required=False, min_value=1,
        error_messages={"invalid": "The line is no whole number: write it like 1, or leave it empty."},
    )
    why = forms.CharField(label="Why, for an order that is confirmed", max_length=200, required=False)

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        label = data.get("order", "")
        order = Order.objects.labelled(label).first()
        if order is None:
            self.add_error("order", f"There is no order {label}: look at the list of orders for its number.")
            return data
        data["order"] = order
        line = data.get("line")
        if line and not OrderLine.objects.current().filter(
            version__order=order, ordinal=line, family_revision__isnull=False
        ).exists():
            self.add_error("line", f"Line {line} of order {order.label} is no structure: leave it empty to add one.")
        return data


class DraftForm(forms.Form):
    """The plain facts of a draft."""

    promised_on = DayField(label="Promised for", required=False)
    note = forms.CharField(label="Note", required=False, max_length=2000, widget=forms.Textarea(attrs={"rows": 3}))


class LooseForm(forms.Form):
    """So many of one loose part."""

    part = PartField(label="Loose part, its number")
    quantity = PiecesField(label="How many")
    why = forms.CharField(label="Why, for an order that is confirmed", max_length=200, required=False)


class PromiseForm(forms.Form):
    """Another day for an open order."""

    promised_on = DayField(label="Promised for")
    why = forms.CharField(
        label="Why", max_length=200, error_messages={"required": "Say why the day changes: a few words are enough."}
    )


class WhyForm(forms.Form):
    """A reason, and nothing else."""

    why = forms.CharField(label="Why", max_length=200, error_messages={"required": "Say why: a few words are enough."})
