"""What a crew measured on a structure: last sticks, bay gaps, bands, and a piece that won't meet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms

from structures.forms.tape import TapeField
from structures.frame.document import Brace, Document, Tie
from structures.frame.lengths import show_length
from structures.frame.measured import Measured, band_places
from structures.frame.measured.spacing import run_name
from structures.frame.names import short_name

BANDS = 3                # rows for bands off their marks; more are looked at one after the other
SHORT, PAST = "short", "past"


class MeasuredForm(forms.Form):
    """Fields for one frozen frame. `measured` and `asked` hold what was typed, once the form is valid."""

    piece = forms.ChoiceField(label="Which piece, and which of its ends is off", required=False)
    way = forms.ChoiceField(
        label="Its hole", choices=[(SHORT, "stops short of the band's"), (PAST, "goes past the band's")], required=False)

    def __init__(self, data: Any = None, *, document: Document, units: str):
        super().__init__(data)
        self.document, self.units = document, units
        unit = "mm" if units == "metric" else "in."
        self.sticks = {f"stick_{number}": cut for number, cut in enumerate(document.cuts)}
        for name, cut in self.sticks.items():
            self.fields[name] = TapeField(units=units, label=f"{run_name(cut.run).capitalize()}, {unit}",
                                          help_text=f"Computed: {show_length(cut.cut_length_in, units)}.")
        for bay in range(1, document.measures.bays + 1):
            self.fields[f"gap_{bay}"] = TapeField(units=units, label=f"Bay {bay}, hoops {bay} and {bay + 1}, {unit}")
        places = [("", "no band"), *_places(document)]
        for row in range(1, BANDS + 1):
            self.fields[f"band_{row}"] = forms.ChoiceField(label="Band", choices=places, required=False)
            self.fields[f"at_{row}"] = TapeField(units=units, label=f"Its middle, from the foot along the tube, {unit}")
        self.fields["piece"].choices = [("", "all of them meet"), *_ends(document)]
        self.fields["gap"] = TapeField(units=units, label=f"By how much, {unit}")

    def clean(self) -> dict[str, Any]:
        """A band needs its measure, and a gap its piece; one without the other is asked for at its own field."""
        cleaned = super().clean() or {}
        for row in range(1, BANDS + 1):
            if cleaned.get(f"band_{row}") and cleaned.get(f"at_{row}") is None and not self.errors.get(f"at_{row}"):
                self.add_error(f"at_{row}", "Its measure is missing: give how far its middle lies from the foot.")
        if cleaned.get("piece") and cleaned.get("gap") is None and not self.errors.get("gap"):
            self.add_error("gap", "The gap is missing: give how far its hole stops short, or goes past.")
        if cleaned.get("gap") is not None and not cleaned.get("piece") and not self.errors.get("piece"):
            self.add_error("piece", "The piece is missing: choose the one that won't meet.")
        return cleaned

    @property
    def measured(self) -> Measured:
        """What was typed, as figures."""
        typed = self.cleaned_data
        return Measured(
            {cut.run: typed[name] for name, cut in self.sticks.items() if typed.get(name) is not None},
            {bay: typed[f"gap_{bay}"] for bay in range(1, self.document.measures.bays + 1) if typed.get(f"gap_{bay}") is not None},
            {typed[f"band_{row}"]: typed[f"at_{row}"] for row in range(1, BANDS + 1) if typed.get(f"band_{row}")},
        )

    @property
    def asked(self) -> tuple[Brace | Tie, str, float] | None:
        """The piece that won't meet, its end, and its gap: + stops short, - goes past."""
        chosen = self.cleaned_data.get("piece")
        if not chosen:
            return None
        ident, end = chosen.rsplit("/", 1)
        piece = next(piece for piece in (*self.document.braces, *self.document.ties) if piece.id == ident)
        gap = self.cleaned_data["gap"]
        return piece, end, -gap if self.cleaned_data.get("way") == PAST else gap

    @property
    def stick_fields(self) -> list[forms.BoundField]:
        return [self[name] for name in self.sticks]

    @property
    def gap_fields(self) -> list[forms.BoundField]:
        return [self[f"gap_{bay}"] for bay in range(1, self.document.measures.bays + 1)]

    @property
    def band_rows(self) -> list[tuple[forms.BoundField, forms.BoundField]]:
        return [(self[f"band_{row}"], self[f"at_{row}"]) for row in range(1, BANDS + 1)]

    @property
    def has_gaps(self) -> bool:
        """Whether a bay's field is filled or wrong, so that its fold stays open."""
        return any(field.value() or field.errors for field in self.gap_fields)


def _names(document: Document) -> dict[str, str]:
    return {line.part: short_name(line.name) for line in document.lines}


def _places(document: Document) -> Iterator[tuple[str, str]]:
    names = _names(document)
    for place, (piece, end) in band_places(document).items():
        landing = piece.landing_from if end == "from" else piece.landing_to
        yield place, f"{landing.code}, {names[piece.part]}"


def _ends(document: Document) -> Iterator[tuple[str, str]]:
    """Each piece twice, by its end that is off."""
    names = _names(document)
    for piece in (*document.braces, *document.ties):
        codes = {"from": piece.landing_from.code, "to": piece.landing_to.code}
        for end in ("from", "to"):
            yield f"{piece.id}/{end}", f"{codes['from']} to {codes['to']}, {names[piece.part]}: off at {codes[end]}"
