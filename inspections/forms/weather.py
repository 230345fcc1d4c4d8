"""Entering a storm."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from inspections.models import Storm
from inspections.storms import read_towns


class StormForm(forms.ModelForm):
    """Where it went, what was measured, and who says so. A figure that nobody measured stays empty."""

    towns = forms.CharField(
        label="Towns", widget=forms.Textarea(attrs={"rows": 2}), max_length=2000,
        help_text="With commas between them. Every structure there gets a visit due.",
        error_messages={"required": "No town was named: write at least one, like Quillmere."},
    )

    class Meta:
        model = Storm
        fields = ["on", "kind", "towns", "gust_mph", "snow_in", "hail_in", "source", "note"]
        labels = {
            "on": "Day", "kind": "What it was", "gust_mph": "Gust, mph", "snow_in": "Snow, in.", "hail_in": "Hail, in.",
            "source": "Who measured it", "note": "Note",
        }
        widgets = {"on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")}
        error_messages = {"source": {"required": "Who measured it was not said: name the station, the service or the person."}}

    def __init__(self, *args: Any, today: date, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.today = today
        self.fields["kind"].choices = [("", "choose"), *Storm._meta.get_field("kind").choices]

    def clean_on(self) -> date:
        day = self.cleaned_data["on"]
        if day > self.today:
            raise forms.ValidationError(f"{day:%Y-%m-%d} has not come yet: enter a storm when it is over.")
        return day

    def clean_gust_mph(self) -> int | None:
        gust = self.cleaned_data["gust_mph"]
        if gust is not None and not 1 <= gust <= 250:
            raise forms.ValidationError(f"A gust of {gust} mph was given: 1 to 250 would do, or leave it empty.")
        return gust

    def _over_nothing(self, name: str, words: str) -> Any:
        depth = self.cleaned_data[name]
        if depth is not None and depth <= 0:
            raise forms.ValidationError(f"{words} of {depth} in. was given: more than 0 would do, or leave it empty.")
        return depth

    def clean_snow_in(self) -> Any:
        return self._over_nothing("snow_in", "Snow")

    def clean_hail_in(self) -> Any:
        return self._over_nothing("hail_in", "Hail")

    def clean_towns(self) -> tuple[str, ...]:
        towns = read_towns(self.cleaned_data["towns"])
        if not towns:
            raise forms.ValidationError("No town was named: write at least one, like Quillmere.")
        return towns

    def values(self) -> dict[str, Any]:
        """The storm's own fields, without its towns."""
        return {name: value for name, value in self.cleaned_data.items() if name != "towns"}


class TownsForm(forms.Form):
    """More towns for a storm that was entered already."""

    towns = forms.CharField(
        label="More towns", max_length=2000, error_messages={"required": "No town was named: write at least one, like Quillmere."}
    )

    def clean_towns(self) -> tuple[str, ...]:
        towns = read_towns(self.cleaned_data["towns"])
        if not towns:
            raise forms.ValidationError("No town was named: write at least one, like Quillmere.")
        return towns
