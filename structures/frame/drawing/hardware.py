"""The hardware layer of whole views: a small sign for each band, connector, screw and bolt, and which way bolts point."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from structures.frame.bolts import bolt_direction
from structures.frame.document import Joint, Point

from .breaks import Axis
from .scene import Scene
from .sheet import XY, Box, Sheet

_LONG, _OFF, _HEAD = 11.0, 7.0, 3.4
_APART = 15.0                      # arrows nearer than this to one drawn already are left out
_PLANE = 0.35                      # an arrow shorter than this, seen on the sheet, is one that goes through it


def draw_signs(sheet: Sheet, scene: Scene, joints: Iterable[Joint], at_of: Callable[[Joint], XY | None], *, dots: bool = False) -> None:
    """A sign for each joint that this view shows, each to be lit by itself; with `dots` all of them are dots.

    What was asked for is drawn last and belongs to no layer, so that it is seen whichever are hidden.
    """
    if not sheet.draws("hardware") and not scene.asked.lit:
        return
    spots = [(joint, at) for joint in joints if (at := at_of(joint)) is not None]
    lit = [(joint, at) for joint, at in spots if scene.asks_for_joint(joint)]
    asked = {joint.id for joint, _ in lit}
    if sheet.draws("hardware"):
        with sheet.layer("hardware"):
            for joint, at in spots:
                if joint.id not in asked:
                    _sign(sheet, scene, joint, at, dots=dots, lit=False)
    for joint, at in lit:
        _sign(sheet, scene, joint, at, dots=dots, lit=True)


def _sign(sheet: Sheet, scene: Scene, joint: Joint, at: XY, *, dots: bool, lit: bool) -> None:
    """A bar across the hoop for a band, a square for a connector, a dot for a screw, a bolt and anything else."""
    x, y = at
    more = 1.2 if lit else 0.0
    with sheet.piece(joint.id, " ".join(scene.parts_at(joint.id))):
        if joint.kind == "band" and not dots:
            sheet.rect("clamp-lit" if lit else "conn", Box(x - 4 - more, y - 1.2 - more, x + 4 + more, y + 1.2 + more))
        elif joint.kind == "connector" and not dots:
            sheet.rect("clamp-lit" if lit else "conn", Box(x - 3.2 - more, y - 3.2 - more, x + 3.2 + more, y + 3.2 + more))
        else:
            sheet.circle("clamp-lit" if lit else "dot", at, 3.2 if lit else 1.5)


def drawn_bay(axis: Axis, joint: Joint) -> bool:
    """Whether the place of a joint along the structure is drawn: at its hoop, or between the two hoops of its bay."""
    y, last = joint.at[1] / axis.spacing, axis.shown[-1].last
    return axis.shows(*(min(max(round(hoop) + 1, 1), last) for hoop in (math.floor(y + 0.01), math.ceil(y - 0.01))))


def draw_arrows(sheet: Sheet, scene: Scene, joints: Iterable[Joint], at_of: Callable[[Joint], XY | None],
                way_of: Callable[[Point], tuple[float, float, float]]) -> None:
    """Which way bolts point: an arrow from head to thread end, or a ring for one that goes through the sheet.

    `way_of` turns a direction in the frame into one on the sheet: right, down, and away from the eye.
    """
    found: dict[tuple[str, str, str, float], Point | None] = {}
    drawn: list[XY] = []
    for joint in joints:
        at = at_of(joint)
        if at is None or any(math.dist(at, other) < _APART for other in drawn):
            continue
        key = (joint.fitting, joint.side, joint.station, round(joint.from_foot_in or -1.0, 2))
        if key not in found:
            found[key] = _own(scene, bolt_direction(scene.document, joint))
        direction = found[key]
        if direction is not None:
            _draw(sheet, at, way_of(direction))
            drawn.append(at)


def _own(scene: Scene, way: Point | None) -> Point | None:
    """A direction on a scene that is seen from the far end: what runs away from the tag end there comes toward the eye."""
    return (way[0], -way[1], way[2]) if way is not None and scene.asked.turned else way


def _draw(sheet: Sheet, at: XY, way: tuple[float, float, float]) -> None:
    dx, dy, away = way
    length = math.hypot(dx, dy)
    if length < _PLANE:
        _through(sheet, at, away > 0)
        return
    ux, uy = dx / length, dy / length
    start, tip = (at[0] + ux * _OFF, at[1] + uy * _OFF), (at[0] + ux * (_OFF + _LONG), at[1] + uy * (_OFF + _LONG))
    base = (tip[0] - ux * 2 * _HEAD, tip[1] - uy * 2 * _HEAD)
    sheet.line("hand", start, base)
    sheet.polyline("arrow", [tip, (base[0] - uy * _HEAD, base[1] + ux * _HEAD), (base[0] + uy * _HEAD, base[1] - ux * _HEAD)], closed=True)


def _through(sheet: Sheet, at: XY, away: bool) -> None:
    """Away from the eye: a ring with a cross, like an arrow's feathers. Toward it: a ring with a point."""
    x, y = at
    sheet.circle("bolt-q", at, 4.2)
    if away:
        for sign in (1, -1):
            sheet.line("obj1", (x - 2.6, y - 2.6 * sign), (x + 2.6, y + 2.6 * sign))
    else:
        sheet.circle("dot", at, 1.3)
