"""The six fields of an old order that is known only from paper."""

from __future__ import annotations

import re
from typing import Any

from django import forms

from inventory.actions.paper_orders import PaperOrder
from structures.frame.family import Family
from structures.frame.lengths import LengthError, read_length
from structures.models import FamilyRevision
from structures.photos import take_in
from structures.queries.families import family_of
from structures.refusals import Refuse

_YEAR = re.compile(r"^(?:about |ca\.? )?((?:19|20)\d\d)$")
# What the trade calls our options by; an invoice says any of them.
OPTION_WORDS = {
    "side-braces": ("side brace", "corner brace", "wind brace", "sidewall brace", "cross brace"),
    "roof-braces": ("roof brace", "rafter brace"),
    "ties": ("collar tie", "tie", "truss", "chord"),
    "snow-ties": ("snow pack", "snow brace", "snow tie"),
    "mid-braces": ("mid-length brace", "mid brace"),
    "boards": ("board", "baseboard", "hip board"),
    "film": ("film", "poly", "plastic", "skin", "cover", "glazing"),
    "channel": ("channel", "track", "wire channel", "lock channel"),
}


class PaperOrderForm(forms.Form):
    """Name, family, revision or year, length, options seen, photo of the invoice."""

    name = forms.CharField(
        label="Name on the paper", max_length=120, error_messages={"required": "The name is missing: unknown is a name too."}
    )
    family = forms.ChoiceField(label="Family")
    made = forms.CharField(
        label="Revision, or the year", max_length=20, error_messages={"required": "Give the revision, or the year on the paper."}
    )
    length = forms.CharField(
        label="Length", max_length=20, error_messages={"required": "The length is missing: write it like 48 ft."}
    )
    options = forms.CharField(
        label="Options seen on it", max_length=300, required=False,
        help_text="Like: roof braces, snow pack, no film. Empty means what was standard then.",
    )
    photo = forms.FileField(
        label="Photo of the invoice", required=False,
        error_messages={"empty": "The photo is empty, 0 bytes: take it again, or leave it out."},
    )

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        codes = FamilyRevision.objects.order_by("code").values_list("code", flat=True).distinct()
        self.fields["family"].choices = [(code, code) for code in codes]

    def clean_length(self) -> float:
        text = self.cleaned_data["length"].strip()
        # An invoice says "48" and means feet: so does every row of the catalogue.
        text = f"{text} ft" if re.fullmatch(r"\d+", text) else text
        try:
            return read_length(text)
        except LengthError as error:
            raise forms.ValidationError(str(error)) from None

    def clean_photo(self) -> Any:
        upload = self.cleaned_data["photo"]
        if not upload:
            return None
        try:
            return take_in(upload.read(), upload.name)
        except Refuse as refusal:
            raise forms.ValidationError(refusal.sentence) from None

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if "family" in data and "made" in data:
            self._find_revision(data)
        if data.get("revision"):
            self._read_options(data)
        return data

    def _find_revision(self, data: dict[str, Any]) -> None:
        rows = list(FamilyRevision.objects.filter(code=data["family"]).order_by("effective"))
        typed = data["made"].strip()
        if year := _YEAR.match(typed.lower()):
            data["revision"] = _of_year(rows, int(year[1]))
            data["stated"] = f"year {year[1]}"
        else:
            letter = typed.upper().removeprefix("REVISION").removeprefix("REV").strip(" .")
            data["revision"] = next((row for row in rows if row.revision.upper() == letter), None)
            data["stated"] = f"revision {letter}"
        if data["revision"] is None:
            known = ", ".join(f"{row.revision} from {row.effective.year}" for row in rows)
            self.add_error("made", f"{data['family']} has no {data['stated']}: there is {known}.")

    def _read_options(self, data: dict[str, Any]) -> None:
        with_, without, unknown = read_options(data.get("options", ""), family_of(data["revision"]))
        data["with_"], data["without"] = with_, without
        if unknown:
            names = ", ".join(option.name.lower() for option in family_of(data["revision"]).options)
            self.add_error("options", f"“{unknown[0]}” is no option here: there is {names}.")

    def paper(self) -> PaperOrder:
        """What was typed, as the action takes it."""
        data = self.cleaned_data
        return PaperOrder(
            name=data["name"], revision=data["revision"], stated=data["stated"], length_in=data["length"],
            with_=data["with_"], without=data["without"], options_said=data["options"], photo=data["photo"],
        )


def _of_year(rows: list[FamilyRevision], year: int) -> FamilyRevision | None:
    """The revision that was made at the end of that year."""
    made = [row for row in rows if row.effective.year <= year]
    return made[-1] if made else None


def read_options(words: str, family: Family) -> tuple[tuple[str, ...], tuple[str, ...], list[str]]:
    """Options named in words: (included, left out, not understood). "no roof braces" leaves one out."""
    with_, without, unknown = [], [], []
    for word in re.split(r"[,;\n]+", words):
        said = " ".join(word.lower().split())
        if not said:
            continue
        no = re.match(r"^(?:no|not|without)\s+", said)
        said = said[no.end():] if no else said
        code = _option_code(said, family)
        if code is None:
            unknown.append(word.strip())
        else:
            (without if no else with_).append(code)
    return tuple(with_), tuple(without), unknown


def _option_code(said: str, family: Family) -> str | None:
    for option in family.options:
        names = {option.code, option.name.lower(), *OPTION_WORDS.get(option.code, ())}
        if said in names or said.rstrip("s") in {name.rstrip("s") for name in names}:
            return option.code
    return None
