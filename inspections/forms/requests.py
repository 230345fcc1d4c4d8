"""Taking the next step with something wrong."""

from __future__ import annotations

from django import forms

from inspections.mending import STEPS


class StepForm(forms.Form):
    """One step, with a note: a parcel's number, who fitted it."""

    step = forms.ChoiceField(
        choices=[(step, step) for step in STEPS], widget=forms.HiddenInput,
        error_messages={"invalid_choice": f"“%(value)s” is no step: {', '.join(STEPS)} would do."},
    )
    note = forms.CharField(label="Note", max_length=240, required=False)
