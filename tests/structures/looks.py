"""How a corner is looked at, made anew from where one stands: by plain vector products, to hold the drawings against."""

from __future__ import annotations

import math
from functools import cache
from xml.etree import ElementTree

from structures.frame.document import Point
from structures.frame.drawing import render
from structures.frame.vectors import cross, dot, unit
from tests.structures.drawn import SVG, Drawn, points
from tests.structures.frames import document

OPTIONS = ("side-braces", "roof-braces", "mid-braces", "ties", "snow-ties")
CORNERS = ("tag-left", "tag-right", "far-left", "far-right")
ROUND, UP = 38.0, 24.0          # degrees off square to the side, and up from inside or down from outside (drawing conventions)


@cache
def drawn(name: str, length: float, view: str, size: str = "wide", lit: tuple[str, ...] = OPTIONS) -> Drawn:
    """One view of a demo family, read back; drawn once a run."""
    return Drawn(render(document(name, length), view, size, lit=lit))


class Eye:
    """Where one stands for a corner view: the way one looks, and what is then right and up."""

    def __init__(self, view: str):
        way, end, side = view.split("-")
        out, toward = (1.0 if side == "right" else -1.0), (1.0 if end == "far" else -1.0)
        if way == "corner":                                   # from outside one looks the other way, at the same corner
            out, toward = -out, -toward
        pitch = math.radians(UP if way == "inside" else -UP)
        level = (out * math.cos(math.radians(ROUND)), toward * math.sin(math.radians(ROUND)))
        self.ahead = (level[0] * math.cos(pitch), level[1] * math.cos(pitch), math.sin(pitch))
        self.right = unit(cross(self.ahead, (0.0, 0.0, 1.0)))
        self.up = cross(self.right, self.ahead)

    def flat(self, point: Point) -> tuple[float, float]:
        return dot(point, self.right), -dot(point, self.up)

    def depth(self, point: Point) -> float:
        return dot(point, self.ahead)


def rings(picture: Drawn) -> dict[int, tuple[float, float]]:
    """Hoop number to the middle of its ring."""
    numbers = [int(text.text or "") for text in picture.of_class("bubt")]
    return {number: points(circle)[0] for number, circle in zip(numbers, picture.of_class("bub"), strict=True)}


def from_the_left(picture: Drawn) -> list[int]:
    """The numbered hoops as they stand on the sheet."""
    at = rings(picture)
    return sorted(at, key=lambda hoop: at[hoop][0])


def groups(picture: Drawn) -> list[tuple[str, list[ElementTree.Element]]]:
    """Each lightable piece: its place id, and the shapes drawn inside it, in paint order."""
    return [(group.attrib["data-id"], list(group)) for group in picture.root.iter(f"{SVG}g") if group.attrib.get("class") == "pc"]
