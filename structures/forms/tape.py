"""A length as it is read off a tape on site: inches or millimetres as a bare number, or any length in words."""

from __future__ import annotations

import re
from typing import Any

from django import forms

from structures.frame.lengths import LengthError, read_length

_BARE = re.compile(r"^\d+(?:\.\d+)?(?:[\s-]+\d+/\d+)?$|^\d+/\d+$")
MOST_IN = 12_000.0


class TapeField(forms.CharField):
    """An optional length in inches. A bare number is inches, or millimetres where the reader counts in them.

    Unlike in an order form nobody types feet without saying so here: a tape's own figure is what stands on it.
    """

    def __init__(self, *, units: str = "us", **kwargs: Any):
        self.units = units
        kwargs.setdefault("required", False)
        super().__init__(max_length=24, **kwargs)
        self.widget.attrs.setdefault("autocomplete", "off")
        if units == "metric":
            self.widget.attrs.setdefault("inputmode", "decimal")

    def clean(self, value: Any) -> float | None:
        words = super().clean(value)
        if not words:
            return None
        bare = words if self.units == "us" or "/" not in words else ""
        try:
            inches = read_length(f"{words} {'mm' if self.units == 'metric' else 'in'}" if _BARE.match(bare) else words)
        except (LengthError, OverflowError):
            would = "1184 mm or 1184 would do" if self.units == "metric" else "46 1/8, 3-10 1/8 or 46.125 in would do"
            raise forms.ValidationError(f"{words} is no length: {would}.") from None
        if not 0 <= inches <= MOST_IN:
            raise forms.ValidationError(f"{words} is longer than anything here: give what the tape shows.")
        return inches
