"""The life of something wrong: asked, sent, fitted, looked at again. Pure: no Django."""

from __future__ import annotations

from collections.abc import Sequence

ASKED, SENT, FITTED, LOOKED, TAKEN_BACK = "asked", "sent", "fitted", "looked at again", "taken back"
STEPS = (ASKED, SENT, FITTED, LOOKED, TAKEN_BACK)
OPEN = (ASKED, SENT, FITTED)

# What may follow: parts may go out twice, a grower may fit what lay at hand, and a second look may find it wrong still.
_AFTER = {
    "": (ASKED,),
    ASKED: (SENT, FITTED, LOOKED, TAKEN_BACK),
    SENT: (SENT, FITTED, LOOKED, TAKEN_BACK),
    FITTED: (LOOKED, SENT),
    LOOKED: (ASKED,),
    TAKEN_BACK: (ASKED,),
}
_SAID = {
    ASKED: "asked, nothing sent yet", SENT: "sent, not yet fitted", FITTED: "fitted, not yet looked at again",
    LOOKED: "looked at again", TAKEN_BACK: "taken back, it was put down wrong",
}


def next_steps(last: str) -> tuple[str, ...]:
    """The steps that may follow the last one; "" is before the first."""
    return _AFTER[last]


def stand_words(last: str) -> str:
    """Where a request stands, in words."""
    return _SAID[last]


def is_open(last: str) -> bool:
    """Whether somebody still has to do something about it."""
    return last in OPEN


def in_order(steps: Sequence[str]) -> bool:
    """Whether these steps could have followed one another."""
    return all(after in _AFTER[before] for before, after in zip(("", *steps), steps, strict=False))
