"""What a picker's screen sends."""

from __future__ import annotations

from typing import Any

from django import forms

from inventory.actions.picking import From
from inventory.forms.stock_fields import BinField, LotField, PiecesField


class _FromForm(forms.Form):
    """Which bin and lot; both may be left out."""

    bin = BinField(required=False)
    lot = LotField(required=False)

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["lot"].must_be_said = False

    def taken_from(self) -> From:
        return From(self.cleaned_data.get("bin"), self.cleaned_data.get("lot") or "")


class TakeForm(_FromForm):
    """So many pieces."""

    count = PiecesField(label="Pieces taken now")


class CodeForm(_FromForm):
    """The code on a label, typed or scanned."""

    code = forms.CharField(
        label="Code on the label", max_length=80, error_messages={"required": "No code was given: scan the label, or type its number."}
    )
    count = PiecesField(label="Pieces with this label", required=False)
