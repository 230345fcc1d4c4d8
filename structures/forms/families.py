"""A family file, uploaded or pasted."""

from __future__ import annotations

from typing import Any

from django import forms

LARGEST = 512 * 1024


class FamilyFileForm(forms.Form):
    """One file or its text. `cleaned_data` has `text` and `source`, the name that sentences about it use."""

    file = forms.FileField(label="Family file", required=False, allow_empty_file=True)
    text = forms.CharField(
        label="Or its text", required=False, strip=False,
        widget=forms.Textarea(attrs={"class": "listing-text", "spellcheck": "false", "autocapitalize": "none"}),
    )

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        upload, text = values.get("file"), values.get("text") or ""
        values["source"] = upload.name if upload else "the pasted text"
        if upload:
            text = self._read(upload)
        elif not text.strip():
            self.add_error("text", "There is no file and no text: choose a family file, or paste what stands in one.")
        if len(text) > LARGEST:
            self.add_error("text", f"This text has {len(text):,} letters: a family file has {LARGEST:,} at most.")
        values["text"] = text.replace("\r\n", "\n")
        return values

    def _read(self, upload: Any) -> str:
        if upload.size > LARGEST:
            self.add_error(
                "file", f"{upload.name} has {upload.size:,} bytes: a family file is plain text of {LARGEST:,} at most."
            )
            return ""
        try:
            return upload.read().decode("utf-8-sig")
        except UnicodeDecodeError:
            self.add_error("file", f"{upload.name} is no plain text in UTF-8: save it as a .toml text file first.")
            return ""

    def keep_text(self, text: str) -> None:
        """Show this text in the field, so that a refused upload can be mended on the page."""
        self.data = self.data.copy()
        self.data["text"] = text
