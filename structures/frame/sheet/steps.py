"""The order of work as steps to tick."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from structures.frame.document import Step
from structures.frame.sheet.telling import Telling

_HOW = {"fit now": "Fit now.", "hang and tie": "Hang and tie."}


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step. `how` says whether it is fitted now, hung, or waits and for which step, "" for what is neither; `not_yet` is the sentence
    on what is not yet in, where a crew may stop after it."""

    number: int
    how: str
    does: str
    why: str
    cautions: tuple[str, ...]
    not_yet: str


@dataclass(frozen=True, slots=True)
class Stage:
    """Steps that follow one another."""

    name: str
    steps: tuple[StepRow, ...]


def stages(telling: Telling) -> tuple[Stage, ...]:
    """The whole order of work, stage by stage."""
    found: list[tuple[str, list[StepRow]]] = []
    for step in telling.document.sequence:
        if not found or found[-1][0] != step.stage:
            found.append((step.stage, []))
        found[-1][1].append(step_row(step, telling.units))
    return tuple(Stage(name, tuple(rows)) for name, rows in found)


def steps_with(telling: Telling, places: Collection[str]) -> tuple[StepRow, ...]:
    """The steps that put in any of these pieces or joints, in order."""
    wanted = frozenset(places)
    return tuple(step_row(step, telling.units) for step in telling.document.sequence
                 if not wanted.isdisjoint((*step.pieces, *step.joints)))


def _how(step: Step) -> str:
    """What waits is said with the last of the steps that it waits for."""
    if step.how == "wait":
        return f"Wait till step {max(step.needs)} is done." if step.needs else "This had to wait."
    return _HOW.get(step.how, step.how)


def step_row(step: Step, units: str) -> StepRow:
    """One step in words."""
    return StepRow(
        step.step, _how(step), step.does.in_units(units), step.why.in_units(units),
        tuple(caution.in_units(units) for caution in step.cautions), step.not_yet.in_units(units),
    )
