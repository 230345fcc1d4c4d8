"""The entry of a printed pick: only what differs is typed."""

from __future__ import annotations

from typing import Any

from django import forms

from inventory.actions.pick_sheets import WHY, Differs, SheetRefused
from inventory.lots import LotError, read_lot
from inventory.models import PickSheet

FIRST_ROWS = 3
MOST_ROWS = 200


class SheetForm(forms.Form):
    """Rows of (line, taken, lot, why), as many as were asked for; empty rows say nothing."""

    reasons = WHY
    picked_by = forms.CharField(label="Picked by", max_length=120, required=False)

    def __init__(self, *args: Any, sheet: PickSheet, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.sheet = sheet
        self.printed = {line["n"]: line for line in sheet.lines}
        asked = self.data.get("rows", "") if self.is_bound else ""
        self.row_count = min(max(int(asked) if asked.isascii() and asked.isdigit() else FIRST_ROWS, 1), MOST_ROWS)
        self.row_errors: dict[int, str] = {}
        self.differs: dict[int, Differs] = {}

    def rows(self) -> list[dict[str, Any]]:
        """What stands in each row, with what was printed on its line and the sentence that stands at it."""
        found = []
        for i in range(self.row_count):
            typed = {name: self.data.get(f"{name}_{i}", "").strip() if self.is_bound else "" for name in ("n", "taken", "lot", "why")}
            number = int(typed["n"]) if typed["n"].isascii() and typed["n"].isdigit() and len(typed["n"]) < 6 else 0
            found.append({"i": i, **typed, "printed": self.printed.get(number), "error": self.row_errors.get(i, "")})
        return found

    def with_another_line(self) -> SheetForm:
        """The same with one row more, nothing looked at yet."""
        data = self.data.copy()
        data["rows"] = str(min(self.row_count + 1, MOST_ROWS))
        form = SheetForm(data, sheet=self.sheet)
        form._errors = {}
        form.cleaned_data = {}
        return form

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        for row in self.rows():
            if not any(row[name] for name in ("n", "taken", "lot", "why")):
                continue
            sentence = self._read_row(row)
            if sentence:
                self.row_errors[row["i"]] = sentence
        if self.row_errors:
            raise forms.ValidationError("Some lines can't be entered as they are, so nothing was: look at each.")
        return data

    def _read_row(self, row: dict[str, Any]) -> str:
        """Keep what differs; the sentence when it can't be read."""
        if row["printed"] is None:
            if not row["n"]:
                return f"No line was named beside what was taken: write its number, this sheet has {_range(self.printed)}."
            return f"Line {row['n']} is not on this sheet: it has {_range(self.printed)}."
        number = row["printed"]["n"]
        if number in self.differs:
            return f"Line {number} stands here twice: keep one of them."
        taken = row["taken"]
        if not (taken.isascii() and taken.isdigit() and len(taken) < 8):
            return f"{taken or 'Nothing'} is no count: write how many were taken, 0 when none."
        try:
            lot = read_lot(row["lot"]) if row["lot"] else ""
        except LotError as error:
            return str(error)
        if row["why"] and row["why"] not in WHY:
            return "Say why with one of the words in the list."
        self.differs[number] = Differs(int(taken), lot, row["why"])
        return ""

    def exceptions(self) -> dict[int, Differs]:
        return self.differs

    def refuse(self, refused: SheetRefused) -> None:
        """Put the action's sentences at their rows; a line that was to be as printed has no row yet and gets one."""
        at = {row["printed"]["n"]: row["i"] for row in self.rows() if row["printed"]}
        data = self.data.copy()
        for n, sentence in refused.by_line.items():
            if n not in at:
                at[n] = self.row_count
                data[f"n_{self.row_count}"] = str(n)
                data[f"taken_{self.row_count}"] = str(self.printed[n]["count"]) if n in self.printed else ""
                self.row_count += 1
            self.row_errors[at[n]] = sentence
        data["rows"] = str(self.row_count)
        self.data = data
        self.add_error(None, refused.sentence)


def _range(printed: dict[int, Any]) -> str:
    numbers = sorted(printed)
    return f"line {numbers[0]}" if len(numbers) == 1 else f"lines {numbers[0]} to {numbers[-1]}"
