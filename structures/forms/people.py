"""Signing in, and the people whom the owner lets in."""

from __future__ import annotations

from typing import Any

from django import forms
from django.conf import settings
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.http import HttpRequest
from django.utils import timezone

from structures.actions.signing_in import WAIT, count_failure, forget_failures, refuse_too_many
from structures.models import User
from structures.refusals import Refuse
from structures.sentences import counted


class SignInForm(AuthenticationForm):
    """A name and a password; one sentence when they don't fit together, whichever of the two is wrong."""

    def clean(self) -> dict[str, Any]:
        name, address = self.cleaned_data.get("username", ""), _address(self.request)
        now = timezone.now()
        try:
            refuse_too_many(name, address, now=now)
        except Refuse as refusal:
            raise forms.ValidationError(refusal.sentence) from None
        try:
            values = super().clean()
        except forms.ValidationError:
            raise forms.ValidationError(_unfit_words(count_failure(name, address, now=now))) from None
        forget_failures(name, address)
        return values


def _address(request: HttpRequest) -> str:
    """Where a try came from. Behind a proxy everybody has the proxy's address, and one stranger would lock all others out;
    of the addresses that such a request names only the last was added by the proxy, the others by whoever sent it.
    """
    named = request.headers.get("X-Forwarded-For", "") if settings.BEHIND_PROXY else ""
    return (named.rsplit(",", 1)[-1].strip() or request.META.get("REMOTE_ADDR", ""))[:45]


def _unfit_words(left: int) -> str:
    wait = int(WAIT.total_seconds() // 60)
    then = f"After {counted(left, 'more try', 'more tries')} you wait {wait} minutes." if left else f"Now you wait {wait} minutes."
    return f"This name and password do not fit together. {then}"


class PersonForm(forms.ModelForm):
    """What the owner says about a person. The password is wanted for a new person only."""

    password = forms.CharField(
        label="First password", required=False, strip=False, widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
    )

    class Meta:
        model = User
        fields = ["first_name", "last_name", "username", "email", "role", "units", "is_active"]
        labels = {
            "first_name": "First name", "last_name": "Last name", "username": "Name they sign in with",
            "email": "Email", "role": "Role", "units": "Lengths in", "is_active": "Can sign in",
        }
        help_texts = {"username": "Letters, digits and @ . + - _ only.", "is_active": ""}
        error_messages = {
            "username": {
                "unique": "Somebody signs in with this name already: choose another.",
                "required": "A name to sign in with is missing: give one, like ada.",
            }
        }

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        if self.instance.pk:
            self.fields["password"].label = "New password, if it shall change"

    def clean_password(self) -> str:
        password = self.cleaned_data["password"]
        if not password and not self.instance.pk:
            raise forms.ValidationError("A first password is missing: give one of at least 10 characters.")
        if password:
            _look_at(password, self.instance)
        return password

    def values(self) -> dict[str, Any]:
        """The account's fields, without the password."""
        return {name: self.cleaned_data[name] for name in self.Meta.fields}


class OwnSettingsForm(forms.Form):
    """What everybody may change about themselves: how lengths are shown, and the password."""

    units = forms.ChoiceField(label="Lengths in", choices=User.Units.choices)
    old_password = forms.CharField(
        label="Password now", required=False, strip=False, widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
    )
    new_password = forms.CharField(
        label="New password, if it shall change", required=False, strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
    )

    def __init__(self, *args: Any, user: User, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.user = user

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        new = values.get("new_password")
        if new and not self.user.check_password(values.get("old_password", "")):
            self.add_error("old_password", "This is not the password you sign in with now, so it was not changed.")
        elif new:
            try:
                _look_at(new, self.user)
            except forms.ValidationError as refused:
                self.add_error("new_password", refused)
        return values


def _look_at(password: str, user: User) -> None:
    """Django's own rules for passwords, said in our own sentence."""
    try:
        validate_password(password, user)
    except ValidationError:
        raise forms.ValidationError(
            "This password is short, common, or too like the name: at least 10 characters that are no common word would do."
        ) from None
