"""The few words that the pages of a walk need."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django import template
from django.urls import reverse
from django.utils.http import urlencode
from django.utils.safestring import SafeString

from inspections.checklist import ITEMS
from inspections.forms.walk import SeenForm
from inspections.mending import stand_words
from inspections.models import Visit
from inspections.places import Stretch
from inspections.states import AGAINST, CLASSES, STATES, STORM
from inspections.walk import Tally, count_words
from structures.frame.drawing import family_icon
from structures.frame.lengths import show_length
from structures.models import Structure

register = template.Library()


@dataclass(frozen=True, slots=True)
class Choice:
    """One button of a set: its value, word and shape, what it suggests, and whether it is chosen."""

    code: str
    words: str
    glyph: str
    suggests: str
    chosen: bool


@register.filter
def in_words(count: Tally) -> str:
    """The counts of the four states in one line."""
    return count_words(count)


@register.filter
def lower_first(text: str) -> str:
    """A title in the middle of a sentence: "After the gusts of 9 March" becomes "after the gusts of 9 March"."""
    return text[:1].lower() + text[1:]


@register.filter
def begin_words(visit: Visit) -> str:
    """What the button says that begins a visit."""
    title = lower_first(visit.title)
    if visit.kind == STORM:
        return f"Walk round {title}"
    return f"Begin the {title}"


@register.filter
def stands(step: str) -> str:
    """Where a request stands, in words."""
    return stand_words(step)


@register.filter
def short(stretch: Stretch, here: Stretch | None = None) -> str:
    """A stretch in a word or two, for a link to it from `here`; the other side of the same bay is named by its side, an end
    wall without what people call it."""
    if here is not None and stretch.bay and stretch.bay == here.bay:
        return f"Bay {stretch.bay}, {stretch.side}"
    return f"Bay {stretch.bay}" if stretch.bay else stretch.words.partition(" (")[0]


@register.filter
def made_of(structure: Structure) -> str:
    """Family, length and revision in one line: "G26 × 48 ft, revision D"; unknown is the word."""
    if structure.design is None:
        return "made of: unknown"
    document = structure.design.read()
    feet, rest = divmod(document.measures.length_in, 12)
    length = f"{feet:.0f} ft" if not rest else show_length(document.measures.length_in)
    return f"{document.family_name or document.family} × {length}, revision {document.revision}"


@register.simple_tag
def place_url(visit: Visit, stretch: Stretch, place_id: str) -> str:
    """Where a place is taken in hand. A whole address, since the page also answers at the one that keeps."""
    here = reverse("inspections:walk-stretch", kwargs={"pk": visit.pk, "stretch": stretch.key})
    return f"{here}?{urlencode({'place': place_id})}#in-hand"


@register.simple_tag
def hoop_icon(structure: Structure) -> SafeString:
    """The structure's hoop as a small drawing; nothing for one whose shape is unknown."""
    if structure.design is None:
        return SafeString("")
    return SafeString(family_icon(structure.design.read(), name=f"hoop-{structure.pk}"))


@register.filter
def state_choices(form: SeenForm) -> list[Choice]:
    """The four states as buttons."""
    return _words(form, "state", STATES)


@register.filter
def class_choices(form: SeenForm) -> list[Choice]:
    """The three classes as buttons."""
    return _words(form, "fault_class", CLASSES)


@register.filter
def finding_choices(form: SeenForm) -> list[Choice]:
    """What may be wrong at this place, as buttons; each says which class it suggests."""
    lines = [form.item] if form.item else list(ITEMS.values())
    findings = {finding.code: finding for item in lines for finding in item.findings}
    value = form["what"].value()
    return [Choice(one.code, one.words, "", one.suggests, one.code == value) for one in findings.values()]


@register.filter
def against_choices(form: SeenForm) -> list[Choice]:
    """Same, worse, fixed."""
    value = form["against"].value()
    return [Choice(code, words, "", "", code == value) for code, words in AGAINST.items()]


def _words(form: SeenForm, name: str, words: Any) -> list[Choice]:
    value = form[name].value()
    return [Choice(word.code, word.words, word.glyph, "", word.code == value) for word in words]
