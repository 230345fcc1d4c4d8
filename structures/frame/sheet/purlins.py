"""Purlin runs and other sticks cut to fit: how many, what is sawn off which end, and room for what was measured."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Cut
from structures.frame.leftovers import LEAST_OFFCUT_IN
from structures.frame.sheet.telling import Telling

_RUNS = {"ridge": "ridge", "purlin": "side purlin", "upper": "upper purlin"}
_SIDES = {"L": "left", "R": "right"}


@dataclass(frozen=True, slots=True)
class CutRow:
    """One run. `last` is what its last stick is sawn to, `joints` the mouths of its slip joints from hoop 1."""

    run: str
    part: str
    sticks: int
    stick: str
    last: str
    saw: str
    offcut: str
    joints: str


def cut_rows(telling: Telling) -> tuple[CutRow, ...]:
    """Every run of the document, in its order."""
    return tuple(_row(telling, cut) for cut in telling.document.cuts)


def _row(telling: Telling, cut: Cut) -> CutRow:
    sawn = cut.offcut_in > LEAST_OFFCUT_IN
    return CutRow(
        run=run_words(cut.run), part=telling.name(cut.part), sticks=cut.sticks, stick=telling.figure(cut.stick_in),
        last=telling.figure(cut.cut_length_in), saw=f"its {cut.saw_end} end" if sawn and cut.saw_end else "nothing",
        offcut=telling.figure(cut.offcut_in) if sawn else "none",
        joints=", ".join(telling.figure(at) for at in cut.joints_in),
    )


def run_words(run: str) -> str:
    """A run's code in words: "L-purlin" is "side purlin, left"."""
    letter, dash, code = run.partition("-")
    if not dash or letter not in _SIDES:
        return _RUNS.get(run, run.replace("-", " "))
    return f"{_RUNS.get(code, code.replace('-', ' '))}, {_SIDES[letter]}"
