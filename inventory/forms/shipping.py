"""What people type when a load leaves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms

from inventory.actions.shipments import Stands, next_tag
from inventory.forms.stock_fields import DayField
from inventory.models import Order, OrderLine


class ShipForm(forms.Form):
    """The load, and for each structure that begins with it where it goes."""

    shipped_on = DayField(label="Leaves on")
    carrier = forms.CharField(label="Carried by", max_length=120, required=False)
    note = forms.CharField(label="Note on the packing list", max_length=300, required=False)

    def __init__(self, *args: Any, order: Order, lines: Sequence[OrderLine], **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.lines = list(lines)
        free = next_tag() if self.lines else ""
        for n, line in enumerate(self.lines):
            size = f"{line.ordinal}. {line.size}"
            fields = {
                "tag": forms.CharField(
                    label=f"Tag of {size}", max_length=24, required=False, initial=free if n == 0 else "",
                    help_text="Empty takes the next free one.",
                ),
                "name": forms.CharField(label=f"What it is called, {size}", max_length=80, required=False),
                "town": forms.CharField(label=f"Town of {size}", max_length=80, required=False, initial=order.customer.town),
                "place": forms.CharField(label=f"Where it will stand, {size}", max_length=160, required=False, initial=order.customer.farm),
            }
            for name, field in fields.items():
                self.fields[f"{name}_{line.ordinal}"] = field

    def stands(self) -> dict[int, Stands]:
        """Where each structure goes, by order line."""
        data = self.cleaned_data
        return {
            line.ordinal: Stands(**{name: data[f"{name}_{line.ordinal}"] for name in ("tag", "name", "town", "place")})
            for line in self.lines
        }
