"""What people say about a standing structure."""

from __future__ import annotations

import re
from datetime import date
from typing import Any
from zoneinfo import available_timezones

from django import forms

from structures.frame.document import Document
from structures.models import AsBuiltChange, Structure, User

PLACE_HINT = "like H3-R-foot or B2-L-side"
_CODE = re.compile(r"^(?:H\d+(?:-[LR])?-[a-z-]+|B\d+(?:-[LR])?-[a-z-]+|E[12]-[a-z0-9-]+)$")
DAY = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")


class StructureForm(forms.ModelForm):
    """The plain facts of a structure; what it is made of comes from its order and stands still."""

    class Meta:
        model = Structure
        fields = ["name", "town", "place", "finished_on", "zone"]
        labels = {
            "name": "Name", "town": "Town", "place": "Where it stands", "finished_on": "Finished on, empty while in parcels or unknown",
            "zone": "Time zone of the place",
        }
        widgets = {"finished_on": DAY}

    def clean_finished_on(self) -> date | None:
        day = self.cleaned_data["finished_on"]
        if why_not := self.instance.why_not_finished_on(day):
            raise forms.ValidationError(why_not)
        return day

    def clean_zone(self) -> str:
        zone = self.cleaned_data["zone"]
        if zone not in available_timezones():
            raise forms.ValidationError(f"{zone} is no time zone: a name like America/New_York or UTC would do.")
        return zone


class EndNamesForm(forms.ModelForm):
    """What people call the two ends of a structure; empty where they call one nothing else."""

    class Meta:
        model = Structure
        fields = ["tag_end_name", "far_end_name"]
        labels = {"tag_end_name": "The tag end, where hoop 1 stands", "far_end_name": "The far end"}
        help_texts = {"tag_end_name": "Like road end. Drawings say it; codes stay as they are."}

    def clean_tag_end_name(self) -> str:
        return _end_name(self.cleaned_data["tag_end_name"])

    def clean_far_end_name(self) -> str:
        name = _end_name(self.cleaned_data["far_end_name"])
        if name and name.casefold() == self.cleaned_data.get("tag_end_name", "").casefold():
            raise forms.ValidationError(f"Both ends would be called {name}: give one of them another name, or none.")
        return name


def _end_name(typed: str) -> str:
    """A name as it can be drawn and printed: one line, nothing that has no sign of its own."""
    name = " ".join("".join(sign if sign.isprintable() else " " for sign in typed).split())
    if name.casefold() in ("tag end", "far end"):
        raise forms.ValidationError(f"{name} is what every structure has: give the name that people use there, or none.")
    return name


class BelongingForm(forms.Form):
    """Who belongs to a structure, from which day."""

    person = forms.CharField(label="Name they sign in with")
    since = forms.DateField(label="Since", widget=DAY)

    def clean_person(self) -> User:
        name = self.cleaned_data["person"].strip()
        person = User.objects.filter(username__iexact=name).first()
        if person is None:
            raise forms.ValidationError(f"Nobody signs in as {name}: the owner lets people in first.")
        if person.role != User.Role.GROWER:
            raise forms.ValidationError(f"{person.called} is {person.role} and sees every structure already.")
        return person


class EndBelongingForm(forms.Form):
    until = forms.DateField(label="Until", widget=DAY)


class AsBuiltChangeForm(forms.ModelForm):
    """What differs on the standing structure from what was shipped."""

    class Meta:
        model = AsBuiltChange
        fields = ["act", "place", "words", "seen_on"]
        labels = {"act": "What was done", "place": "Place", "words": "In words", "seen_on": "Seen on"}
        help_texts = {"place": f"Its code, {PLACE_HINT}."}
        widgets = {"seen_on": DAY, "words": forms.Textarea(attrs={"rows": 3})}

    def __init__(self, *args: Any, document: Document | None, today: date, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.document = document
        self.today = today

    def clean_place(self) -> str:
        place = self.cleaned_data["place"].strip()
        if not _CODE.match(place):
            raise forms.ValidationError(f"{place} is no place code: {PLACE_HINT} would do.")
        hoops = self.document.measures.hoops if self.document else None
        number = int(found[1]) if (found := re.match(r"[HB](\d+)", place)) else 1
        most = hoops if place.startswith("H") else (hoops or 0) - 1
        if hoops and not 1 <= number <= most:
            what = "hoops" if place.startswith("H") else "bays"
            raise forms.ValidationError(f"{place} is past the end: this structure has {most} {what}.")
        return place

    def clean_seen_on(self) -> date:
        seen_on = self.cleaned_data["seen_on"]
        if seen_on > self.today:
            raise forms.ValidationError(f"{seen_on:%d %B %Y} is still to come: give the day on which it was seen.")
        return seen_on
