"""Phone numbers as people say them, and as digits that can be compared."""

from __future__ import annotations

import re

import phonenumbers

REGION = "US"   # what a number without a country code is read as


def phone_digits(typed: str) -> str:
    """The digits of a phone number, in one form whatever the punctuation.

    A whole number comes back with its country code ("(207) 555-0412" and "+1 207 555 0412" are both "12075550412"); a
    local one as its bare digits ("555-0412" is "5550412"); words without digits as "".
    """
    # What follows a word is an extension; letters would else be read as the keys that they stand on.
    typed = re.split(r"(?<=\d)\s*[A-Za-z]", typed)[0]
    digits = re.sub(r"\D", "", typed)
    if not digits:
        return ""
    try:
        number = phonenumbers.parse(typed, REGION)
    except phonenumbers.NumberParseException:
        return digits
    # A local number would be given a country code and no area code, which nobody would ever dial.
    if phonenumbers.is_possible_number_with_reason(number) != phonenumbers.ValidationResult.IS_POSSIBLE:
        return digits
    whole = phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)
    return whole.removeprefix("+")
