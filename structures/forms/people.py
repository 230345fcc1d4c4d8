"""Signing in, and the people whom the owner lets in."""

from __future__ import annotations

from django.contrib.auth.forms import AuthenticationForm


class SignInForm(AuthenticationForm):
    """A name and a password; one sentence when they don't fit together, whichever of the two is wrong."""

    error_messages = {
        "invalid_login": "This name and password do not fit together.",
        "inactive": "This name and password do not fit together.",
    }
