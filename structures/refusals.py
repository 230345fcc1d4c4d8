"""What an action raises when something can't be done: one sentence to a person."""

from __future__ import annotations


class Refuse(Exception):
    """Nothing was changed. `sentence` says what was wrong, what was given and what would do.

    `field` names the form field that the sentence stands at, "" for the whole form.
    """

    def __init__(self, sentence: str, *, field: str = ""):
        super().__init__(sentence)
        self.sentence = sentence
        self.field = field


class Conflict(Refuse):
    """Somebody else was first, or the same request key came with another body."""
