"""Fields that turn what people type about stock into parts, bins, lots and counts, each with its own sentence."""

from __future__ import annotations

import re
from typing import Any

from django import forms

from inventory.lots import LotError, read_lot
from inventory.models import Bin, Part
from inventory.stock_file import MOST_PIECES, unknown_words

BIN_CODE = re.compile(r"[A-Z0-9][A-Z0-9-]{0,19}")


class PartField(forms.CharField):
    """A part by its number; a number that is not there names the nearest one."""

    def __init__(self, **kwargs: Any):
        kwargs.setdefault("label", "Part")
        kwargs.setdefault("error_messages", {"required": "The part is missing: write its number."})
        super().__init__(max_length=40, **kwargs)
        self.widget.attrs.setdefault("list", "part-numbers")

    def clean(self, value: Any) -> Part | None:
        number = super().clean(value).upper()
        if not number:
            return None
        part = Part.objects.filter(number=number).first()
        if part is None:
            known = list(Part.objects.values_list("number", flat=True))
            raise forms.ValidationError(unknown_words("Part", number, known))
        return part


class BinField(forms.CharField):
    """A bin by its code; a code that is not there names the nearest one."""

    def __init__(self, **kwargs: Any):
        kwargs.setdefault("label", "Bin")
        kwargs.setdefault("error_messages", {"required": "The bin is missing: write its code."})
        super().__init__(max_length=20, **kwargs)
        self.widget.attrs.setdefault("list", "bin-codes")

    def clean(self, value: Any) -> Bin | None:
        code = super().clean(value).upper()
        if not code:
            return None
        bin = Bin.objects.filter(code=code).first()
        if bin is None:
            raise forms.ValidationError(unknown_words("Bin", code, list(Bin.objects.values_list("code", flat=True))))
        return bin


class LotField(forms.CharField):
    """A lot as it stands on the tag, or the word unknown."""

    def __init__(self, **kwargs: Any):
        kwargs.setdefault("label", "Lot, or unknown")
        kwargs.setdefault("required", False)
        super().__init__(**kwargs)
        self.must_be_said = True

    def clean(self, value: Any) -> str:
        text = super().clean(value)
        if not text and not self.must_be_said:
            return ""
        try:
            return read_lot(text)
        except LotError as error:
            raise forms.ValidationError(str(error)) from None


class PiecesField(forms.CharField):
    """A whole number of pieces from `least` up."""

    def __init__(self, *, least: int = 1, **kwargs: Any):
        kwargs.setdefault("label", "How many")
        kwargs.setdefault("error_messages", {"required": f"How many is missing: write a whole number, {least} or more."})
        super().__init__(max_length=20, **kwargs)
        self.least = least
        self.widget.attrs.setdefault("inputmode", "numeric")
        self.widget.attrs.setdefault("autocomplete", "off")

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        digits = text.replace(",", "").replace(" ", "")
        if not (digits.isascii() and digits.lstrip("-").isdigit()):
            raise forms.ValidationError(f"{text} is no whole number: write it like 44.")
        number = int(digits)
        if number < self.least:
            raise forms.ValidationError(f"{number:,} is less than {self.least}: {self.least} or more would do.")
        if number > MOST_PIECES:
            raise forms.ValidationError(f"{number:,} is more than {MOST_PIECES:,}: look whether a figure slipped in.")
        return number


class DayField(forms.DateField):
    """A day; what can't be read says how to write one."""

    def __init__(self, **kwargs: Any):
        label = str(kwargs.get("label", "Day"))
        kwargs.setdefault("widget", forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"))
        kwargs.setdefault("error_messages", {"required": f"{label} is missing: give a day, like 2026-03-12."})
        super().__init__(**kwargs)

    def to_python(self, value: Any) -> Any:
        try:
            return super().to_python(value)
        except forms.ValidationError:
            raise forms.ValidationError(f"{value} is no day: write it like 2026-03-12.") from None
