"""Forms about bins and what people do with stock."""

from __future__ import annotations

from typing import Any

from django import forms

from inventory.forms.stock_fields import BIN_CODE, BinField, LotField, PartField, PiecesField
from inventory.models import Bin


class BinForm(forms.Form):
    """A bin. Its code is said once and stays."""

    code = forms.CharField(
        label="Code, as it stands on the label", max_length=20, error_messages={"required": "The code is missing: write it like C-14."}
    )
    walk = PiecesField(
        label="Turn in walking order, lowest first", least=0,
        error_messages={"required": "The turn in walking order is missing: write a whole number, like 140."},
    )
    zone = forms.CharField(label="Where that is, in words", max_length=60, required=False)
    held_back = forms.BooleanField(label="What lies here is held back: not to be sold", required=False)

    def __init__(self, *args: Any, bin: Bin | None = None, **kwargs: Any):
        super().__init__(*args, **kwargs)
        if bin is not None:
            del self.fields["code"]
            self.initial = {"walk": bin.walk, "zone": bin.zone, "held_back": bin.held_back}

    def clean_code(self) -> str:
        code = self.cleaned_data["code"].upper()
        if not BIN_CODE.fullmatch(code):
            raise forms.ValidationError(f"{code} is no code for a bin: use letters, figures and - only, like C-14.")
        if Bin.objects.filter(code=code).exists():
            raise forms.ValidationError(f"Bin {code} is there already: choose another code.")
        return code


class MoveForm(forms.Form):
    """So many of a lot from one bin to another."""

    part = PartField()
    lot = LotField()
    from_bin = BinField(label="From bin")
    to_bin = BinField(label="To bin", error_messages={"required": "The bin to move to is missing: write its code."})
    quantity = PiecesField()
    why = forms.CharField(label="Why, if it is worth knowing", max_length=200, required=False)


class ShiftForm(forms.Form):
    """All of a lot into a bin that is held back, or out of there."""

    part = PartField()
    lot = LotField()
    to_bin = BinField(label="Into bin")
    why = forms.CharField(label="Why", max_length=200, error_messages={"required": "Why is missing: say it in a few words."})


class CountForm(forms.Form):
    """What was counted. The books' figure is never on this form: who sees it counts it."""

    part = PartField()
    bin = BinField()
    lot = LotField()
    counted = PiecesField(label="Counted", least=0)
    cause = forms.CharField(label="Cause, if it may differ from the books", max_length=200, required=False)


class ReverseForm(forms.Form):
    """Why an entry is taken back."""

    cause = forms.CharField(
        label="Why it is taken back", max_length=200, error_messages={"required": "Why is missing: say what was entered wrong."}
    )


class StockFileForm(forms.Form):
    """A stock file to look at before anything is stored."""

    MOST_BYTES = 2_000_000

    file = forms.FileField(
        label="Stock file, CSV",
        widget=forms.FileInput(attrs={"accept": ".csv,text/csv"}),
        error_messages={
            "required": "No file was chosen: choose a CSV file.",
            "empty": "The file is empty: its first line names the columns part, bin, lot, quantity.",
        },
    )

    def clean_file(self) -> Any:
        upload = self.cleaned_data["file"]
        if upload.size > self.MOST_BYTES:
            raise forms.ValidationError(
                f"{upload.name} has {upload.size:,} bytes: split it into files of {self.MOST_BYTES:,} bytes or fewer."
            )
        return upload


class StockFileAgainForm(forms.Form):
    """The file that was looked at, coming back to be stored."""

    text = forms.CharField(widget=forms.HiddenInput, strip=False, max_length=StockFileForm.MOST_BYTES)
    name = forms.CharField(widget=forms.HiddenInput, max_length=80)
    shown = forms.CharField(widget=forms.HiddenInput, max_length=64)
