"""The paper of one joint: where its two views stand in each size, and whether words or letters name things."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..sheet import Box, Sheet
from .panel import Panel

WIDE_PX, NARROW_PX = 40.0, 27.0    # px to the inch


@dataclass(frozen=True, slots=True)
class Need:
    """Room that a view needs, inches from its origin: to the left, right, up and down of the metal and its figures."""

    left: float
    right: float
    up: float
    down: float


@dataclass(slots=True)
class Paper:
    """Two panels on a sheet: `face` and `section`."""

    sheet: Sheet
    face: Panel
    section: Panel


def lay_out(size: str, face: Need, section: Need, *, stacked: bool = False) -> Paper:
    """Two views beside each other (narrow, or `stacked`: one above the other), as high as the taller of them needs."""
    k = WIDE_PX if size == "wide" else NARROW_PX
    width = {"wide": 1120.0, "desk": 768.0, "narrow": 358.0}[size]
    head = 30.0
    if size == "narrow" or stacked:
        rooms, y = [], 6.0
        for need in (face, section):
            high = head + (need.up + need.down) * k
            rooms.append((Box(8, y, width - 4, y + high), need))
            y += high + 10
        height = y
    else:
        height = 12 + head + max(face.up + face.down, section.up + section.down) * k
        half = width / 2
        rooms = [(Box(8, 6, half - 8, height - 4), face), (Box(half + 8, 6, width - 4, height - 4), section)]
    sheet = Sheet(width, height, size)
    panels = []
    for room, need in rooms:
        x = _centre(room, need, k)
        panels.append(Panel(sheet, (x, room.y0 + head + need.up * k), k, room))
    return Paper(sheet, panels[0], panels[1])


def _centre(room: Box, need: Need, k: float) -> float:
    """The origin, so that what is left and right of it stands in the middle."""
    spare = room.x1 - room.x0 - (need.left + need.right) * k
    return room.x0 + need.left * k + max(spare, 0.0) / 2


def finish(paper: Paper, marks: Mapping[str, str] | None) -> None:
    """Set the labels of both views."""
    for panel in (paper.face, paper.section):
        panel.place(marks)
