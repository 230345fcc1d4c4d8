"""What people type about orders. Every form hands over domain values and has one sentence for each refusal."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from inventory.forms.stock_fields import DayField, PartField, PiecesField
from inventory.models import Order, OrderLine
from structures.frame.family import OneOff as FrameOneOff
from structures.frame.lengths import LengthError, read_length

ACTS = [("leave out", "Leave a piece out"), ("add", "Add a piece"), ("move", "Move a piece along its tube")]


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


class OneOffForm(forms.Form):
    """The maker's own change to one structure of an order, signed and dated."""

    line = forms.TypedChoiceField(label="Structure", coerce=int)
    act = forms.ChoiceField(label="What is changed", choices=ACTS)
    target = forms.CharField(
        label="Which piece, or for a new one the place where it begins", max_length=80,
        help_text="A place like B1-R-side:brace:1 for a piece, or H3-R-foot for a hoop's station.",
        error_messages={"required": "The place is missing: write it like B1-R-side:brace:1."},
    )
    target_2 = forms.CharField(label="Where a new piece ends, or the hoop that a tie is moved to", max_length=80, required=False)
    part = PartField(label="Part of a new piece", required=False)
    by = forms.CharField(
        label="How far a brace is moved, up the tube", max_length=20, required=False,
        help_text="Like 1 in or 25 mm; -2 in is down the tube.",
    )
    who = forms.CharField(
        label="Whose decision", max_length=120, error_messages={"required": "A one-off is signed: whose decision is it?"}
    )
    why = forms.CharField(label="Why", max_length=300, error_messages={"required": "A one-off needs its reason."})
    on = DayField(label="Decided on")

    def __init__(self, *args: Any, lines: list[OrderLine], **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["line"].choices = [(line.ordinal, f"{line.ordinal}. {line.size}") for line in lines]

    def clean_by(self) -> float:
        text = self.cleaned_data["by"].strip()
        if not text:
            return 0.0
        try:
            return read_length(text)
        except LengthError as error:
            raise forms.ValidationError(str(error)) from None

    def change(self) -> FrameOneOff:
        """What was typed, as the frame takes it."""
        data = self.cleaned_data
        on: date = data["on"]
        return FrameOneOff(
            act=data["act"], target=data["target"].strip(), who=data["who"].strip(), why=data["why"].strip(),
            on=on.isoformat(), target_2=data["target_2"].strip(), part=data["part"].number if data["part"] else "",
            by_in=data["by"],
        )
