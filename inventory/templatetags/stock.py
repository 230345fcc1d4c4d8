"""Words of the stock pages: pieces, signed pieces, a length in huge figures, what a look-alike differs in."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString

from inventory.models import Part
from inventory.queries.parts import role_words
from inventory.twins import Twin
from structures.frame.lengths import inches_only, millimetres, show_length

register = template.Library()


@register.filter
def pieces(value: int | None) -> str:
    """A number of pieces, 1,900."""
    return "unknown" if value is None else f"{value:,}"


@register.filter
def signed(value: int) -> str:
    """A number of pieces that came or went: +44, -8, 0."""
    return f"{value:+,}" if value else "0"


@register.filter
def role(value: str) -> str:
    """A role as one says it."""
    return role_words(value)


@register.filter
def percent(value: float) -> str:
    """A fraction as a percentage, 0.03 is "3 %"."""
    return f"{value * 100:g} %"


@register.simple_tag
def big_length(inches: float, units: str = "us") -> SafeString:
    """A length for the hugest figures; only the fraction is set as one, since that type shrinks every digit it touches."""
    whole, _, fraction = show_length(inches, units).partition(" ")
    if "/" in fraction:
        return format_html('{}<span class="fr">{}</span>', whole, fraction)
    return format_html("{} {}", whole, fraction) if fraction else format_html("{}", whole)


@register.simple_tag
def twin_words(twin: Twin, part: Part, units: str = "us") -> str:
    """What tells a look-alike from this part: its length and hand beside this one's."""
    if twin.piece.length_in is None:
        return twin.piece.name
    length = show_length(twin.piece.length_in, units)
    gap = millimetres(abs(twin.longer_in)) if units == "metric" else f"{inches_only(abs(twin.longer_in))} in."
    differs = [f"{gap} {'longer' if twin.longer_in > 0 else 'shorter'}"] if twin.longer_in else []
    if twin.other_hand:
        differs.append(f"{_hand(twin.piece.hand)}, this one {_hand(part.hand)}")
    return f"{length}, {' and '.join(differs) or 'the same by tape and eye'}"


@register.simple_tag
def stock_query(**named: Any) -> str:
    """A query string, `{% stock_query part=part.number lot=lot %}`."""
    return urlencode(named)


def _hand(hand: str) -> str:
    return f"{hand} twist" if hand else "no twist"
