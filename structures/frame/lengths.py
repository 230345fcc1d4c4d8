"""Lengths in words: feet-inches-sixteenths and millimetres, read and shown.

Inside the program every length is a float of inches. One inch is exactly 25.4 mm (NIST SP 811, appendix B).
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

MM_PER_INCH = 25.4
_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
_FRACTION = r"(?:\d+/\d+)"
_AMOUNT = rf"(?:(?P<whole>{_NUMBER})(?:[\s-]+(?P<part>{_FRACTION}))?|(?P<only>{_FRACTION}))"
_FEET_DASH = re.compile(rf"^(?P<feet>\d+)\s*-\s*{_AMOUNT}$")
_INCHES = re.compile(rf"^{_AMOUNT}\s*(?:in\.?|inch|inches|\"|″)$")
_FEET = re.compile(rf"^(?P<feet>{_NUMBER})\s*(?:ft\.?|feet|foot|'|′)\s*(?:{_AMOUNT}\s*(?:in\.?|inch|inches|\"|″)?)?$")
_METRIC = re.compile(rf"^(?P<value>{_NUMBER})\s*(?P<unit>mm|cm|m)$")
_METRIC_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0}


class LengthError(ValueError):
    """The words are no length."""


def read_length(words: str) -> float:
    """Read a length, in inches, from words: "4ft 6in", "104 3/4 in", "8-11 1/4", "2660 mm", "1.9 in".

    A bare number is refused, since nobody can tell feet from inches. Raises `LengthError`.
    """
    text = " ".join(str(words).strip().lower().split())
    negative = text.startswith("-") and not text.startswith("- ")
    body = text[1:] if negative else text
    inches = _read_plain(body)
    if inches is None:
        raise LengthError(f"{words!r} is no length: write it like 4ft 6in, 4-6, 104 3/4 in or 2660 mm.")
    return -inches if negative else inches


def _read_plain(text: str) -> float | None:
    if found := _METRIC.match(text):
        return float(found["value"]) * _METRIC_MM[found["unit"]] / MM_PER_INCH
    if found := _FEET_DASH.match(text):
        return 12 * int(found["feet"]) + _amount(found)
    if found := _INCHES.match(text):
        return _amount(found)
    if found := _FEET.match(text):
        return 12 * float(found["feet"]) + _amount(found)
    return None


def _amount(found: re.Match[str]) -> float:
    whole, part, only = found["whole"], found["part"], found["only"]
    try:
        return float(whole or 0) + float(Fraction(part or only or 0))
    except ZeroDivisionError:
        raise LengthError(f"{found[0]!r} divides by zero: write it like 4-6 3/8.") from None


def sixteenths(inches: float) -> int:
    """The nearest whole number of sixteenths of an inch; halves go away from zero, as on a tape."""
    return int(math.copysign(math.floor(abs(inches) * 16 + 0.5), inches))


def feet_inches(inches: float) -> str:
    """Show a length as feet-inches-sixteenths: 49.375 is "4-1 3/8", 0.625 is "0-0 5/8"."""
    total = sixteenths(inches)
    sign = "-" if total < 0 else ""
    feet, rest = divmod(abs(total), 16 * 12)
    whole, part = divmod(rest, 16)
    fraction = f" {Fraction(part, 16)}" if part else ""
    return f"{sign}{feet}-{whole}{fraction}"


def inches_only(inches: float) -> str:
    """Show a small measure in inches and sixteenths: 1.625 is "1 5/8", 0.625 is "5/8"."""
    total = sixteenths(inches)
    sign = "-" if total < 0 else ""
    whole, part = divmod(abs(total), 16)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {Fraction(part, 16)}" if whole else f"{sign}{Fraction(part, 16)}"


def millimetres(inches: float) -> str:
    """Show a length in whole millimetres: 49.375 is "1254 mm"."""
    return f"{math.floor(inches * MM_PER_INCH + 0.5)} mm"


def show_length(inches: float, units: str = "us") -> str:
    """Show a length in a person's own units, "us" or "metric"."""
    return millimetres(inches) if units == "metric" else feet_inches(inches)
