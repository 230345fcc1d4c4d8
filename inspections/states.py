"""The four states of a place, the three classes of something wrong, and the kinds of visit: their words and shapes.

`glyph` names the shape that stands beside the word, so that a state is never told by colour alone. Pure: no Django.
"""

from __future__ import annotations

from dataclasses import dataclass

WELL, WRONG, NOT_LOOKED, UNSEEN = "well", "fault", "not", "unseen"
STOP, MEND, AGAIN = "stop", "mend", "again"
ANNUAL, STORM, OTHER = "annual", "storm", "other"
SAME, WORSE, FIXED = "same", "worse", "fixed"


@dataclass(frozen=True, slots=True)
class Word:
    """A value as it is stored, as a person reads it, and the shape beside it."""

    code: str
    words: str
    glyph: str


STATES = (
    Word(WELL, "Looks as built", "well"),
    Word(WRONG, "Something wrong", "fault"),
    Word(NOT_LOOKED, "Not looked at", "not"),
    Word(UNSEEN, "Could not see", "unseen"),
)
CLASSES = (
    Word(STOP, "Stop and ask", "stop"),
    Word(MEND, "Mend this week", "fault"),
    Word(AGAIN, "Look again", "again"),
)
KINDS = {ANNUAL: "yearly walk", STORM: "after a storm", OTHER: "another look"}
AGAINST = {SAME: "Same", WORSE: "Worse", FIXED: "Fixed"}

_STATE = {word.code: word for word in STATES}
_CLASS = {word.code: word for word in CLASSES}
# Which of several answers for one place is shown until a person has settled them: the one that asks for most.
_URGENCY = {STOP: 6, MEND: 5, AGAIN: 4, WRONG: 3, UNSEEN: 2, NOT_LOOKED: 1, WELL: 0}


def state_word(state: str) -> Word:
    """The word and shape of a state. Raises `KeyError` for what is no state."""
    return _STATE[state]


def class_word(fault_class: str) -> Word:
    """The word and shape of a class. Raises `KeyError` for what is no class."""
    return _CLASS[fault_class]


def shown(state: str, fault_class: str = "") -> Word:
    """What stands at a place: its state or, when something is wrong there, "Something wrong" in its class's shape."""
    if state == WRONG and fault_class:
        word = _CLASS[fault_class]
        return Word(WRONG, f"Something wrong, {word.words.lower()}", word.glyph)
    return _STATE[state]


def urgency(state: str, fault_class: str = "") -> int:
    """A rank: higher asks for more."""
    return _URGENCY[fault_class if state == WRONG and fault_class else state]
