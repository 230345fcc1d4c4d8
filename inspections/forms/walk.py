"""What is typed and tapped on a walk."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any
from uuid import uuid4

from django import forms

from inspections.actions.observations import Seen
from inspections.checklist import ITEMS, Item
from inspections.places import CORNERS
from inspections.states import AGAINST, CLASSES, STATES


class DeviceTime(forms.CharField):
    """The device's own clock, filled in by its script; empty where there is none, and then it stays unknown."""

    widget = forms.HiddenInput(attrs={"data-device-clock": ""})

    def __init__(self, **kwargs: Any):
        super().__init__(required=False, **kwargs)

    def clean(self, value: Any) -> datetime | None:
        """A moment with its offset, or None for whatever is none: a wrong clock must not stop a walk."""
        try:
            text = super().clean(value)
            found = datetime.fromisoformat(text.replace("Z", "+00:00"))
            return found.astimezone(UTC) if found.tzinfo else None
        except (forms.ValidationError, ValueError, OverflowError):
            return None


class MomentForm(forms.Form):
    """An act that has nothing to say but when it was done."""

    device_at = DeviceTime()


class PhotoField(forms.FileField):
    """A photo from the camera or from the phone's own pictures. What is in it is judged when it is taken in."""

    def __init__(self, **kwargs: Any):
        widget = forms.FileInput(attrs={"accept": "image/*", "capture": "environment", "data-photo": ""})
        super().__init__(widget=widget, allow_empty_file=True, max_length=255, **kwargs)


class SeenForm(forms.Form):
    """The state of one place; what is wrong and how urgent belong to "something wrong" alone."""

    place = forms.CharField(
        widget=forms.HiddenInput, max_length=64,
        error_messages={"required": "No place was chosen: choose one from the list, then say what you saw there."},
    )
    state = forms.ChoiceField(
        choices=[(word.code, word.words) for word in STATES], widget=forms.RadioSelect,
        error_messages={
            "required": "The state was not chosen: looks as built, something wrong, not looked at, or could not see.",
            "invalid_choice": "“%(value)s” is no state: looks as built, something wrong, not looked at, or could not see would do.",
        },
    )
    fault_class = forms.ChoiceField(
        choices=[(word.code, word.words) for word in CLASSES], widget=forms.RadioSelect, required=False,
        error_messages={"invalid_choice": "“%(value)s” is no class: stop and ask, mend this week, or look again would do."},
    )
    what = forms.ChoiceField(
        choices=[], widget=forms.RadioSelect, required=False,
        error_messages={"invalid_choice": "“%(value)s” is not on this place's list: choose what is wrong from it."},
    )
    note = forms.CharField(label="Note, if the list does not say it", max_length=400, required=False)
    against = forms.ChoiceField(
        choices=list(AGAINST.items()), widget=forms.RadioSelect, required=False,
        error_messages={"invalid_choice": "“%(value)s” is no comparison: same, worse or fixed would do."},
    )
    photo = PhotoField(required=False)
    device_at = DeviceTime()
    observation_id = forms.UUIDField(
        widget=forms.HiddenInput, required=False,
        error_messages={"invalid": "This answer came with a number that is none: open the place again and give the answer once more."},
    )

    def __init__(self, *args: Any, item: Item | None, **kwargs: Any):
        super().__init__(*args, **kwargs)
        findings = item.findings if item else tuple(one for line in ITEMS.values() for one in line.findings)
        self.fields["what"].choices = list(dict.fromkeys((finding.code, finding.words) for finding in findings))
        self.fields["observation_id"].initial = uuid4
        self.item = item

    def seen(self) -> Seen:
        """What was said, as the action takes it."""
        values = self.cleaned_data
        return Seen(
            place=values["place"], state=values["state"], fault_class=values["fault_class"], what=values["what"],
            note=values["note"].strip(), against=values["against"],
        )


class CornerForm(forms.Form):
    """A photo of one of the four corners."""

    corner = forms.ChoiceField(
        choices=[(corner, corner) for corner in CORNERS],
        error_messages={"invalid_choice": f"“%(value)s” is no corner: {', '.join(CORNERS)} would do."},
    )
    photo = PhotoField(error_messages={"required": "No photo was chosen: take one, or choose one from the phone."})
    device_at = DeviceTime()
