"""Forms about what comes in."""

from __future__ import annotations

from typing import Any

from django import forms

from inventory.actions.supply import Arrived
from inventory.forms.stock_fields import BinField, DayField, LotField, PartField, PiecesField

LINES = 6
MOST_RECEIPT_LINES = 60


class ReceiptForm(forms.Form):
    """From whom, when, under which paper."""

    supplier = forms.CharField(
        label="From whom", max_length=120, error_messages={"required": "From whom is missing: write the name on their paper."}
    )
    received_on = DayField(label="Day it came")
    paper = forms.CharField(label="Their paper's number", max_length=60, required=False)
    note = forms.CharField(label="Anything seen on it, like a torn strap", max_length=200, required=False)


class ReceiptLineForm(forms.Form):
    """One part and lot. A line with nothing in it is no line; one with anything in it is looked at whole."""

    part = PartField(required=False)
    lot = LotField()
    quantity = PiecesField(required=False)
    bin = BinField(label="Into bin", required=False)

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["lot"].must_be_said = False

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if not self.has_anything:
            return values
        for name, sentence in (
            ("part", "The part is missing: write its number."),
            ("lot", "The lot is missing: write it as it stands on the tag, or say unknown."),
            ("quantity", "How many is missing: write a whole number, 1 or more."),
            ("bin", "The bin is missing: write its code."),
        ):
            if name not in self.errors and values.get(name) in (None, ""):
                self.add_error(name, sentence)
        return values

    @property
    def has_anything(self) -> bool:
        """Whether anything was typed in this line."""
        return any(str(self.data.get(self.add_prefix(name), "")).strip() for name in self.fields)

    def arrived(self) -> Arrived:
        """The line as the action takes it."""
        values = self.cleaned_data
        return Arrived(values["part"], values["bin"], values["lot"], values["quantity"])


class ReceiptLines:
    """The lines of a receipt as they were typed, by number."""

    def __init__(self, data: Any = None, *, lines: int = LINES):
        self.forms = [ReceiptLineForm(data, prefix=f"line-{number}") for number in range(1, lines + 1)]

    def is_valid(self) -> bool:
        """Whether every line that has anything in it can be read."""
        return all([form.is_valid() for form in self.forms])

    @property
    def unread(self) -> list[int]:
        """The numbers of the lines that can't be read."""
        return [number for number, form in enumerate(self.forms, start=1) if form.is_bound and form.errors]

    def arrived(self) -> list[Arrived]:
        """The lines that say something, in order."""
        return [form.arrived() for form in self.forms if form.has_anything]


class ExpectedForm(forms.Form):
    """A part on order."""

    part = PartField()
    quantity = PiecesField()
    supplier = forms.CharField(
        label="From whom", max_length=120, error_messages={"required": "From whom is missing: write the supplier's name."}
    )
    due_on = DayField(label="Due on")
    reference = forms.CharField(label="Our order's number", max_length=60, required=False)
