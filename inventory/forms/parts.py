"""Forms about parts."""

from __future__ import annotations

from typing import Any

from django import forms

from inventory.forms.stock_fields import PiecesField
from inventory.models import Part


class PartForm(forms.Form):
    """What is ours to change about a part: when to make or buy more, and how long that takes."""

    reorder_point = PiecesField(label="Make or buy more under", least=0, required=False)
    lead_weeks = PiecesField(label="Weeks until they come", least=0, required=False)
    lead_weeks_spring = PiecesField(label="Weeks in spring", least=0, required=False)
    note = forms.CharField(label="Note", max_length=200, required=False)

    def __init__(self, *args: Any, part: Part, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.initial = {name: "" if (value := getattr(part, name)) is None else value for name in self.fields}
