"""One joint as an `<svg>`, and the key of the letters that name its things where there is no room for words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from structures.frame.document import Document

from .across import draw_across
from .brace import draw_brace
from .crossing import draw_crossing
from .footing import draw_board, draw_foot, draw_runner, draw_wall
from .kinds import JointKind, joint_kinds
from .panel import Callout
from .paper import Paper, finish
from .runs import draw_end, draw_slip
from .sizes import Metal

SIZES = ("wide", "desk", "narrow")
# What joints are made of, by letter: from p on, since those before it are marks along the tube. No joint has all of them.
_LETTERS = "pqrstuvwxyz"
_THINGS = ("band", "ears", "flat", "hoop", "bolt head", "nut", "purlin", "stick", "screw", "post", "board", "upper band",
           "lower band", "butt", "outer strap", "inner strap", "purlin end", "swage", "mouth", "tie", "bracket", "upright", "soil",
           "runner", "piece")
THINGS_LETTERS = {thing: _LETTERS[i % 11] + (str(i // 11 + 1) if i // 11 else "") for i, thing in enumerate(_THINGS)}
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
    finish(paper, None if size == "wide" else THINGS_LETTERS)
    desc = f"{kind.title}: {_count(kind)}. Face and section; what has no figure is drawn as usual and not measured."
    return paper.sheet.svg(name or f"joint-{fitting_code}-{kind.role.replace(' ', '-')}-{size}", kind.title, desc, palette)


def joint_key(document: Document, fitting_code: str, *, role: str = "", units: str = "us") -> tuple[KeyRow, ...]:
    """What the letters of a narrow joint drawing name. A small letter names one thing in all joints; a large one is a piece."""
    found: dict[str, str] = {}
    for callout in _callouts(document, _kind(document, fitting_code, role), units):
        found.setdefault(callout.mark or THINGS_LETTERS[callout.thing], callout.said)
    return tuple(KeyRow(letter, words) for letter, words in sorted(found.items()))


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


_BY_ROLE: dict[str, Draw] = {
    "side": draw_brace, "roof": draw_brace, "tie": draw_across, "web": draw_across, "connector": draw_crossing,
    "pass": draw_crossing, "end": draw_end, "slip": draw_slip, "seam": draw_slip, "foot": draw_foot, "runner": draw_runner,
    "wall": draw_wall, "board": draw_board,
}


def _callouts(document: Document, kind: JointKind, units: str) -> list[Callout]:
    paper = _draw(document, kind, "narrow", units)
    return [*paper.face.callouts, *paper.section.callouts]


def _count(kind: JointKind) -> str:
    places = len(kind.joints)
    return f"{places} place{'s' if places != 1 else ''}" if places else "wherever its board runs"
