"""Forms about what comes in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from inventory.actions.supply import Arrived
from inventory.forms.stock_fields import BinField, DayField, LotField, PartField, PiecesField
from inventory.models import ExpectedReceipt

LINES = 6
MOST_RECEIPT_LINES = 60
NONE_OF_IT = "none"


class ReceiptForm(forms.Form):
    """From whom, when, under which paper."""

    supplier = forms.CharField(
        label="From whom", max_length=120, error_messages={"required": "From whom is missing: write the name on their paper."}
    )
    received_on = DayField(label="Day it came")
    paper = forms.CharField(label="Their paper's number", max_length=60, required=False)
    note = forms.CharField(label="Anything seen on it, like a torn strap", max_length=200, required=False)


class AnswersSelect(forms.Select):
    """A choice of what is on order, each with its part, so that a page can narrow it to the part of its line."""

    part_of: Mapping[str, str] = {}

    def create_option(self, name: str, value: Any, *args: Any, **kwargs: Any) -> dict[str, Any]:
        option = super().create_option(name, value, *args, **kwargs)
        if part := self.part_of.get(str(value)):
            option["attrs"]["data-part"] = part
        return option


class ReceiptLineForm(forms.Form):
    """One part and lot. A line with nothing in it is no line; one with anything in it is looked at whole.

    `answers` says which of what is on order it answers. A line of a part that is on order has to say so, or that it is none
    of it: what came and was left on order would be waited for.
    """

    part = PartField(required=False)
    lot = LotField()
    quantity = PiecesField(required=False)
    bin = BinField(label="Into bin", required=False)
    answers = forms.ChoiceField(
        label="Answers what was on order", required=False, widget=AnswersSelect,
        error_messages={"invalid_choice": "What was chosen is not on order any more: look at the list again."},
    )

    def __init__(self, *args: Any, expected: Sequence[ExpectedReceipt] = (), **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["lot"].must_be_said = False
        self.expected = {str(one.pk): one for one in expected}
        if not expected:
            del self.fields["answers"]
            return
        answers = self.fields["answers"]
        answers.choices = [("", "choose when the part is on order"), *((pk, _on_order(one)) for pk, one in self.expected.items()),
                           (NONE_OF_IT, "nothing that was on order")]
        answers.widget.part_of = {pk: one.part.number for pk, one in self.expected.items()}

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if not self.has_anything:
            return values
        for name, sentence in (
            ("part", "The part is missing: write its number."),
            ("lot", "The lot is missing: write it as it stands on the tag, or say unknown."),
            ("quantity", "How many is missing: write a whole number, 1 or more."),
            ("bin", "The bin is missing: write its code."),
        ):
            if name not in self.errors and values.get(name) in (None, ""):
                self.add_error(name, sentence)
        if self.expected and values.get("part") and "answers" not in self.errors and (wrong := self._why_no_answer(values)):
            self.add_error("answers", wrong)
        return values

    def _why_no_answer(self, values: dict[str, Any]) -> str:
        part, said = values["part"].number, values.get("answers", "")
        its = [one for one in self.expected.values() if one.part.number == part]
        if said in self.expected and self.expected[said] not in its:
            return f"{self.expected[said].part.number} is what was on order, and this line is {part}: choose another, or none."
        if its and not said:
            return f"{sum(one.still for one in its):,} of {part} are on order: say which order this answers, or that it answers none."
        return ""

    @property
    def has_anything(self) -> bool:
        """Whether anything was typed in this line."""
        return any(str(self.data.get(self.add_prefix(name), "")).strip() for name in self.fields)

    def arrived(self) -> Arrived:
        """The line as the action takes it."""
        values = self.cleaned_data
        answers = self.expected.get(values.get("answers", ""))
        return Arrived(values["part"], values["bin"], values["lot"], values["quantity"], answers)


def _on_order(one: ExpectedReceipt) -> str:
    many = f"{one.still:,} of {one.quantity:,}" if one.came else f"{one.quantity:,}"
    ours = f", our order {one.reference}" if one.reference else ""
    return f"{one.part.number}: {many} from {one.supplier}, due {one.due_on:%-d %b %Y}{ours}"


class ReceiptLines:
    """The lines of a receipt as they were typed, by number."""

    def __init__(
        self, data: Any = None, *, lines: int = LINES, expected: Sequence[ExpectedReceipt] = (), first: ExpectedReceipt | None = None
    ):
        initial = {"part": first.part.number, "quantity": first.still, "answers": str(first.pk)} if first else {}
        self.forms = [
            ReceiptLineForm(data, prefix=f"line-{number}", expected=expected, initial=initial if number == 1 else {})
            for number in range(1, lines + 1)
        ]

    def is_valid(self) -> bool:
        """Whether every line that has anything in it can be read."""
        return all([form.is_valid() for form in self.forms])

    @property
    def unread(self) -> list[int]:
        """The numbers of the lines that can't be read."""
        return [number for number, form in enumerate(self.forms, start=1) if form.is_bound and form.errors]

    def arrived(self) -> list[Arrived]:
        """The lines that say something, in order."""
        return [form.arrived() for form in self.forms if form.has_anything]


class ExpectedForm(forms.Form):
    """A part on order."""

    part = PartField()
    quantity = PiecesField()
    supplier = forms.CharField(
        label="From whom", max_length=120, error_messages={"required": "From whom is missing: write the supplier's name."}
    )
    due_on = DayField(label="Due on")
    reference = forms.CharField(label="Our order's number", max_length=60, required=False)
