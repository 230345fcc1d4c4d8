"""The maker's own change to one structure of an order: chosen from its own pieces and places, then signed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from django import forms

from inventory import one_offs
from inventory.forms.stock_fields import DayField, PartField
from inventory.models import OrderLine
from inventory.one_offs import Station
from structures.frame.document import Document
from structures.frame.family import Family
from structures.frame.family import OneOff as FrameOneOff
from structures.frame.lengths import LengthError, read_length

LEAVE_OUT, ADD, MOVE = "leave out", "add", "move"
ACTS = [(LEAVE_OUT, "Leave a piece out"), (ADD, "Add a piece"), (MOVE, "Move a piece along its tube")]
NOT_HERE = "%(value)s can't be chosen here: choose one in the list."


class ByField(forms.CharField):
    """How far along a tube, in inches; a minus sign is down it."""

    def __init__(self, **kwargs: Any):
        super().__init__(max_length=20, required=False, **kwargs)

    def clean(self, value: Any) -> float:
        text = super().clean(value).strip()
        if not text:
            return 0.0
        try:
            return read_length(text)
        except LengthError as error:
            raise forms.ValidationError(str(error)) from None


class ChoosingForm(forms.Form):
    """Which piece, or which place. Only what the act asks for is a field, so choosing goes from the act to its places."""

    line = forms.ChoiceField(label="Structure")
    act = forms.ChoiceField(label="What is changed", choices=ACTS)

    def __init__(self, data: Mapping[str, Any], *, lines: Sequence[OrderLine], document: Document, family: Family, units: str):
        super().__init__(data)
        self.document, self.family, self.units = document, family, units
        self.fields["line"].choices = [(str(line.ordinal), f"{line.ordinal}. {line.size}") for line in lines]
        ask = {ADD: self._ask_for_a_new_one, MOVE: self._ask_what_moves}.get(data.get("act", ""), self._ask_what_is_left_out)
        ask(data)

    def change(self) -> FrameOneOff | None:
        """What was chosen, not signed yet; None while something is still to be chosen or can't be."""
        if not self.is_valid():
            return None
        chosen = self.cleaned_data
        if chosen["act"] == ADD:
            return self._added(chosen)
        if not chosen["piece"]:
            return None
        if chosen["act"] == LEAVE_OUT:
            return _unsigned(LEAVE_OUT, chosen["piece"])
        target_2, by_in = Station(chosen.get("hoop", "")).code, chosen.get("by", 0.0)
        return _unsigned(MOVE, chosen["piece"], target_2=target_2, by_in=by_in) if target_2 or by_in else None

    @property
    def piece(self) -> str:
        """The place id of the piece that was chosen in the list, "" without one."""
        return self.cleaned_data.get("piece", "") if self.is_valid() else ""

    def _added(self, chosen: dict[str, Any]) -> FrameOneOff | None:
        if not chosen["part"] or not chosen["hoop"]:
            return None
        if one_offs.is_tie_part(self.family, chosen["part"]):
            return _unsigned(ADD, Station(chosen["hoop"]).code, part=chosen["part"])
        if not all(chosen.get(name) for name in ("side", "station", "hoop_2", "station_2")):
            return None
        ends = [Station(chosen[f"hoop{n}"], chosen["side"], chosen[f"station{n}"]).code for n in ("", "_2")]
        return _unsigned(ADD, ends[0], target_2=ends[1], part=chosen["part"])

    def _ask_what_is_left_out(self, data: Mapping[str, Any]) -> None:
        groups = [*one_offs.piece_groups(self.document), *one_offs.joint_groups(self.document)]
        self.fields["piece"] = _choice("Which piece or fitting", groups)

    def _ask_what_moves(self, data: Mapping[str, Any]) -> None:
        self.fields["piece"] = _choice("Which piece", one_offs.piece_groups(self.document))
        if any(tie.id == data.get("piece") for tie in self.document.ties):
            self.fields["hoop"] = _choice("To which hoop", one_offs.hoop_choices(self.document))
            self.fields["hoop"].help_text = "A tie keeps its made length and so its height."
        else:
            self.fields["by"] = ByField(label="How far, up the tube", help_text="Like 1 in or 25 mm; -2 in is down the tube.")

    def _ask_for_a_new_one(self, data: Mapping[str, Any]) -> None:
        self.fields["part"] = _choice("Part", one_offs.part_choices(self.family))
        hoops, part = one_offs.hoop_choices(self.document), data.get("part", "")
        if one_offs.is_tie_part(self.family, part):
            self.fields["hoop"] = _choice("On which hoop", hoops)
            return
        stations = one_offs.station_choices(self.family, self.units)
        self.fields["side"] = _choice("Side, as you stand outside the tag end", one_offs.SIDES)
        self.fields["hoop"] = _choice("Begins on", hoops)
        self.fields["station"] = _choice("At its station", stations)
        self.fields["hoop_2"] = _choice("Ends on", hoops)
        self.fields["station_2"] = _choice("At its station", stations)


class OneOffForm(forms.Form):
    """The change that was chosen, unseen, and the words that sign and date it."""

    line = forms.TypedChoiceField(coerce=int, widget=forms.HiddenInput)
    act = forms.ChoiceField(choices=ACTS, widget=forms.HiddenInput)
    target = forms.CharField(
        max_length=80, widget=forms.HiddenInput, error_messages={"required": "Nothing was chosen to be changed: choose it first."}
    )
    target_2 = forms.CharField(max_length=80, required=False, widget=forms.HiddenInput)
    part = PartField(required=False, widget=forms.HiddenInput)
    by = ByField(widget=forms.HiddenInput)
    who = forms.CharField(
        label="Whose decision", max_length=120, error_messages={"required": "A one-off is signed: whose decision is it?"}
    )
    why = forms.CharField(label="Why", max_length=300, error_messages={"required": "A one-off needs its reason."})
    on = DayField(label="Decided on")

    def __init__(self, *args: Any, lines: Sequence[OrderLine], **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["line"].choices = [(line.ordinal, str(line.ordinal)) for line in lines]

    @property
    def unseen_errors(self) -> list[str]:
        """What is wrong in the change itself, for the place where it is chosen."""
        return [error for field in self.hidden_fields() for error in field.errors]

    def change(self) -> FrameOneOff:
        """What was chosen and signed, as the frame takes it."""
        data = self.cleaned_data
        on: date = data["on"]
        return FrameOneOff(
            act=data["act"], target=data["target"].strip(), who=data["who"].strip(), why=data["why"].strip(),
            on=on.isoformat(), target_2=data["target_2"].strip(), part=data["part"].number if data["part"] else "",
            by_in=data["by"],
        )


def chosen_in(signed: Mapping[str, Any]) -> dict[str, str]:
    """What a sent signature says was chosen, as the choosing form has it."""
    act, target = str(signed.get("act", "")), str(signed.get("target", ""))
    begins, ends = Station.read(target), Station.read(str(signed.get("target_2", "")))
    chosen = {name: str(signed.get(name, "")) for name in ("line", "act", "part", "by")}
    if act != ADD:
        return {**chosen, "piece": target, "hoop": ends.hoop}
    return {
        **chosen, "side": begins.side, "hoop": begins.hoop, "station": begins.station, "hoop_2": ends.hoop, "station_2": ends.station,
    }


def signed_with(change: FrameOneOff, line: OrderLine, typed: Mapping[str, Any]) -> dict[str, Any]:
    """The unseen fields of a signature for what was chosen; a length stays as it was typed."""
    return {
        "line": line.ordinal, "act": change.act, "target": change.target, "target_2": change.target_2, "part": change.part,
        "by": typed.get("by", "") if change.by_in else "",
    }


def _choice(label: str, choices: Sequence[Any]) -> forms.ChoiceField:
    return forms.ChoiceField(
        label=label, choices=[("", "choose"), *choices], required=False, error_messages={"invalid_choice": NOT_HERE}
    )


def _unsigned(act: str, target: str, **more: Any) -> FrameOneOff:
    return FrameOneOff(act, target, "", "", "", **more)
