"""The few words that every page needs: lengths, states as shapes, the key of a request, a drawing, the rooms."""

from __future__ import annotations

import re
from collections.abc import Mapping
from contextlib import suppress
from datetime import date
from typing import Any
from uuid import uuid4

from django import template
from django.template.context import RequestContext
from django.urls import NoReverseMatch, resolve, reverse
from django.utils.formats import date_format
from django.utils.html import escape, format_html
from django.utils.safestring import SafeString, mark_safe
from django_tables2 import Table
from django_tables2.columns import BoundColumn

from structures import making
from structures.frame.lengths import inches_only, show_length
from structures.frame.names import hoops_words
from structures.frame.said import Said
from structures.models import Event, FamilyRevision, User
from structures.queries.families import years_words
from structures.requests import FIELD
from structures.rooms import rooms_of
from structures.showing import places_said

register = template.Library()

IN_STRIP = 6
GLYPHS = {
    "well": "looks as built",
    "fault": "something wrong",
    "not": "not looked at",
    "unseen": "could not see",
    "stop": "stop and ask",
    "again": "look again",
    "twin": "easily taken for another",
    "camera": "photo",
}


@register.filter
def length(value: Any, units: str = "us") -> str | int:
    """Inches as a person reads them, `{{ x|length:request.user.units }}`; unknown is the word.

    Things that have a number of items keep Django's own meaning, so that `{{ list|length }}` still counts.
    """
    if hasattr(value, "__len__"):
        return len(value)
    return "unknown" if value is None or value == "" else show_length(float(value), units or "us")


@register.filter
def said(value: Said, units: str = "us") -> str:
    """A reason, warning or kind of no in a person's own units, `{{ because.words|said:request.user.units }}`."""
    return value.in_units(units or "us")


@register.filter
def inches(value: Any) -> str:
    """A small measure in inches and sixteenths: 1 5/8."""
    return "unknown" if value is None or value == "" else inches_only(float(value))


@register.filter
def size(value: float, units: str = "us") -> str:
    """A difference of lengths without its sign, in a person's own units; the words around it say which way."""
    return show_length(abs(value), units or "us")


@register.filter
def thousands(value: int) -> str:
    """A count with its thousands marked: 1,238."""
    return f"{value:,}"


@register.filter
def fewer(value: int) -> str:
    """A negative count without its sign, for "8 fewer"."""
    return f"{-value:,}"


@register.filter
def pounds(value: float | None) -> str:
    """A weight: whole pounds from 10 lb on, else one place; unknown is the word."""
    if value is None or value == "":
        return "unknown"
    return f"{value:,.0f}" if value >= 10 else f"{value:.1f}"


@register.filter
def hoops(value: tuple[int, ...], count: int = 0) -> str:
    """Hoop numbers in words: every hoop, or "1, 3 to 11 and 13"."""
    return "every hoop" if count and len(value) == count else hoops_words(value)


@register.filter
def years(revision: FamilyRevision) -> str:
    """The years of a revision that came with `until`: "as made 2019 to 2021"."""
    return years_words(revision.effective, revision.until)


@register.filter
def what_changed(event: Event) -> str:
    """An event's values in words, by name: "place: behind the barn; town: Quillmere, now Netherfold"."""
    before, after = (value if isinstance(value, dict) else {} for value in (event.before, event.after))
    said = []
    # In one order of our own: PostgreSQL does not keep the one in which they were written.
    for name in sorted({*before, *after}):
        was, now = before.get(name), after.get(name)
        if was != now:
            words = [_as_said(value) for value in (was, now) if value not in (None, "")]
            said.append(f"{name.replace('_', ' ')}: {', now '.join(words) or 'unknown'}")
    return "; ".join(said)


def _as_said(value: Any) -> str:
    """A kept value as pages say it: events hold days as text, 2024-05-02."""
    if isinstance(value, str) and _DAY.match(value):
        with suppress(ValueError):
            return date_format(date.fromisoformat(value), "DATE_FORMAT")
    return str(value)


@register.filter
def code_of(place_id: str) -> str:
    """The location code of a place id."""
    return making.code_of(place_id)


@register.filter
def places(value: tuple[str, ...]) -> str:
    """The location codes of place ids, each once; a great many are counted."""
    return places_said(value)


@register.filter
def at(mapping: Mapping[str, Any], key: str) -> Any:
    """What a mapping holds for a key that is itself a variable; "" when it holds nothing."""
    return mapping.get(key, "")


_DAY = re.compile(r"^\d{4}-\d{2}-\d{2}$")
_LENGTH = re.compile(r"\b\d+-\d+(?: \d+/\d+)?")


@register.filter
def whole_lengths(sentence: str) -> SafeString:
    """A sentence whose lengths don't break at a line's end: 4-1 3/8 stays in one piece."""
    return mark_safe(_LENGTH.sub(r'<span class="nowrap">\g<0></span>', escape(sentence)))


@register.simple_tag
def glyph(name: str, words: str = "") -> SafeString:
    """The shape of a state. With `words` it is read aloud; without, the word stands beside it."""
    if name not in GLYPHS:
        raise template.TemplateSyntaxError(f"glyph {name!r} is not drawn: the shapes are {', '.join(GLYPHS)}.")
    if words:
        return format_html(
            '<svg class="glyph" role="img" aria-label="{}"><use href="#g-{}"/></svg>', words, name
        )
    return format_html('<svg class="glyph" aria-hidden="true"><use href="#g-{}"/></svg>', name)


@register.simple_tag
def request_key() -> SafeString:
    """A hidden field that makes this form's request count once."""
    return format_html('<input type="hidden" name="{}" value="{}">', FIELD, uuid4())


@register.simple_tag
def drawing(svg: str) -> SafeString:
    """An SVG of our own drawing code, put on the page as it is: every text in it was escaped when it was drawn."""
    return mark_safe(svg)


@register.inclusion_tag("structures/_rooms.html", takes_context=True)
def rooms(context: RequestContext) -> dict[str, Any]:
    """The rooms of the signed-in person; the one whose address the page's own begins with is the current one.

    The strip holds a few and leads to the rest; the current room is always among them.
    """
    request = context.get("request")
    user = getattr(request, "user", None)
    if user is None or not user.is_authenticated:
        return {"rooms": []}
    found = [(reverse(room.url_name), room.words) for room in rooms_of(user)]
    here = max((url for url, _ in found if request.path.startswith(url)), key=len, default="")
    shown = [(url, words) for place, (url, words) in enumerate(found) if place < IN_STRIP or url == here]
    return {
        "rooms": [{"url": url, "words": words, "current": url == here} for url, words in shown],
        "more": len(shown) < len(found),
    }


@register.simple_tag(takes_context=True)
def query_with(context: RequestContext, **changed: Any) -> str:
    """The page's own address with some parameters changed: `{% query_with page=2 %}`; None takes one away."""
    query = context["request"].GET.copy()
    for name, value in changed.items():
        if value is None:
            query.pop(name, None)
        else:
            query[name] = value
    return f"?{query.urlencode()}"


@register.simple_tag
def is_first_order(table: Table, column: BoundColumn) -> bool:
    """Whether a list is sorted by this column before all others: only its head is marked, for the others just break ties."""
    first = next(iter(table.order_by or ()), None)
    return first is not None and first.bare == column.order_by_alias.bare


@register.inclusion_tag("structures/_find_box.html", takes_context=True)
def find_box(context: RequestContext, where: str = "strip") -> dict[str, Any]:
    """The one search box, for those who may use it. The page that answers belongs to an app above this one."""
    request = context.get("request")
    user = getattr(request, "user", None)
    if user is None or not user.is_authenticated:
        return {}
    try:
        url = reverse("inventory:find")
    except NoReverseMatch:
        return {}
    rule = getattr(resolve(url).func, "access_rule", None)
    if rule is None or not rule.admits(user):
        return {}
    return {"url": url, "row": where == "door", "asked": request.GET.get("q", "") if request.path == url else ""}


@register.simple_tag
def with_noughts(path: str) -> str:
    """The address with each letter O beside a digit read as a nought; "" when there is none."""
    meant = re.sub(r"(?<=\d)[Oo]|[Oo](?=\d)", "0", path)
    return "" if meant == path else meant


@register.simple_tag
def keeper() -> str:
    """The name of the owner who keeps the list of people, "" while there is none."""
    owner = User.objects.filter(role=User.Role.OWNER, is_active=True).order_by("id").first()
    return owner.called if owner else ""
