"""The places layer of whole views: the location codes of landings, beside the joints that they name, as far as there is room."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from structures.frame.document import Joint

from . import pencils
from .scene import Scene
from .sheet import XY, Sheet, text_box

_SIZE = 11
# px right and down from the joint, and where the words begin: nearest first
_BESIDE = ((8, -3, "start"), (-8, -3, "end"), (8, 11, "start"), (-8, 11, "end"), (12, -13, "start"), (-12, -13, "end"),
           (12, 22, "start"), (-12, 22, "end"), (0, -14, "middle"), (0, 22, "middle"))


def draw_codes(sheet: Sheet, scene: Scene, at_of: Callable[[Joint], XY | None], lit: Sequence[tuple[XY, XY]]) -> None:
    """The code of each landing of the lit braces and ties, of every brace where none is lit; once for each code.

    `lit` are the lit lines, which no code lies on.
    """
    shown = scene.lit or tuple(piece for piece in scene.pieces if piece.zone != "tie")
    joints = {joint.id: joint for joint in scene.document.joints}
    named: set[str] = set()
    for piece in shown:
        for landing in piece.landings:
            joint = joints.get(landing.joint)
            at = at_of(joint) if joint is not None else None
            if at is not None and landing.code not in named:
                named.add(landing.code)
                _draw(sheet, landing.code, at, lit)


def _draw(sheet: Sheet, code: str, at: XY, lit: Sequence[tuple[XY, XY]]) -> None:
    for right, down, anchor in _BESIDE:
        where = (at[0] + right, at[1] + down)
        box = text_box(*where, code, _SIZE, anchor).grown(2)
        if pencils.fits(sheet, where, code, _SIZE, anchor, 2) and not any(box.crossed_by(*a, *b) for a, b in lit):
            sheet.text(where, code, size=_SIZE, kind="num", anchor=anchor)
            return
