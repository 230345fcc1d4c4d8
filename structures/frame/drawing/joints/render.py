"""One joint as an `<svg>`, and the key of the letters that name its things where there is no room for words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from structures.frame.document import Document

from .brace import draw_brace
from .kinds import JointKind, joint_kinds
from .paper import Paper, finish
from .sizes import Metal

SIZES = ("wide", "desk", "narrow")
LETTERS = "pqrstuvwxyz"            # from p on: letters before it are marks along the tube
Draw = Callable[[Metal, JointKind, str], Paper]


class KeyRow(NamedTuple):
    """A letter of a narrow joint drawing, and the thing that it names."""

    letter: str
    words: str


def render_joint(document: Document, fitting_code: str, size: str, *, palette: Mapping[str, str] | None = None, units: str = "us",
                 name: str = "", role: str = "") -> str:
    """One joint of its kind, face and section, as an `<svg class="dw ...">`.

    `fitting_code` and `role` are of a `JointKind`; without a role the first kind of that fitting set is drawn. `size` is "wide"
    (40 px to the inch, words beside things), "desk" or "narrow" (27 px, letters; `joint_key` says what they name). Raises
    `ValueError` for a kind that the document has not, and so for any of schema 1.
    """
    if size not in SIZES:
        raise ValueError(f"There is no {size} joint drawing: sizes are {', '.join(SIZES)}.")
    kind = _kind(document, fitting_code, role)
    paper = _draw(document, kind, size, units)
    finish(paper, None if size == "wide" else _letters(document, units))
    desc = f"{kind.title}: {_count(kind)}. Face and section; what has no figure is drawn as usual and not measured."
    return paper.sheet.svg(name or f"joint-{fitting_code}-{kind.role.replace(' ', '-')}-{size}", kind.title, desc, palette)


def joint_key(document: Document, fitting_code: str, *, role: str = "", units: str = "us") -> tuple[KeyRow, ...]:
    """What the letters of a narrow joint drawing name, in their order. A letter names one thing in all joints of a document."""
    kind, letters = _kind(document, fitting_code, role), _letters(document, units)
    return tuple(sorted((KeyRow(letters[words], words) for words in _words(document, kind, units)), key=lambda row: row.letter))


def _kind(document: Document, fitting: str, role: str) -> JointKind:
    kinds = [kind for kind in joint_kinds(document) if kind.fitting == fitting and role in ("", kind.role)]
    if not kinds:
        have = ", ".join(sorted({f"{kind.fitting} ({kind.role})" for kind in joint_kinds(document)})) or "none"
        raise ValueError(f"This document has no joint {fitting!r} {role!r} to draw: it has {have}.")
    return kinds[0]


def _draw(document: Document, kind: JointKind, size: str, units: str) -> Paper:
    hardware = next(h for h in document.hardware if h.code == kind.fitting)
    return _drawer(kind)(Metal(document, hardware, units), kind, size)


def _drawer(kind: JointKind) -> Draw:
    return _BY_ROLE.get(kind.role.partition(" ")[0], draw_brace)


_BY_ROLE: dict[str, Draw] = {"side": draw_brace, "roof": draw_brace}


def _words(document: Document, kind: JointKind, units: str) -> list[str]:
    paper = _draw(document, kind, "narrow", units)
    return list(dict.fromkeys(callout.key for panel in (paper.face, paper.section) for callout in panel.callouts))


def _letters(document: Document, units: str) -> dict[str, str]:
    """A letter for each thing that any joint of the document names."""
    found: dict[str, str] = {}
    for kind in joint_kinds(document):
        for words in _words(document, kind, units):
            if words not in found:
                turn, place = divmod(len(found), len(LETTERS))
                found[words] = LETTERS[place] + (str(turn + 1) if turn else "")
    return found


def _count(kind: JointKind) -> str:
    places = len(kind.joints)
    return f"{places} place{'s' if places != 1 else ''}" if places else "wherever its board runs"
