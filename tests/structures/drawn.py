"""Reads a drawing back: the boxes of its labels and the lines of its leaders, from the SVG text alone."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from xml.etree import ElementTree

from structures.frame.drawing.advances import ASCENT, DESCENT, text_width

SVG = "{http://www.w3.org/2000/svg}"
_INSIDE_A_SHAPE = {"mkt", "mkqt", "bubt", "flagt", "flagt-again"}
_SHAPES = {"mk", "mkq", "mk-2", "bub", "flag", "flag-again"}
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
Line = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Label:
    """A label's words and its box in px."""

    words: str
    x0: float
    y0: float
    x1: float
    y1: float

    def meets(self, other: Label) -> bool:
        """Whether two labels overlap by more than a hair."""
        hair = 0.3
        return (min(self.x1, other.x1) - max(self.x0, other.x0) > hair
                and min(self.y1, other.y1) - max(self.y0, other.y0) > hair)

    def holds(self, at: tuple[float, float]) -> bool:
        return self.x0 < at[0] < self.x1 and self.y0 < at[1] < self.y1


class Drawn:
    """One drawing, read back."""

    def __init__(self, svg: str):
        self.root = ElementTree.fromstring(svg)
        _, _, self.width, self.height = (float(value) for value in self.root.attrib["viewBox"].split())
        self.elements = [element for element in self.root.iter() if "class" in element.attrib and element is not self.root]

    def of_class(self, name: str) -> list[ElementTree.Element]:
        return [element for element in self.elements if name in element.attrib["class"].split()]

    @property
    def labels(self) -> list[Label]:
        """Words, and the discs, rings and flags that hold a letter or number."""
        found = []
        for element in self.elements:
            classes = set(element.attrib["class"].split())
            if element.tag == f"{SVG}text" and not classes & _INSIDE_A_SHAPE:
                found.append(_text_label(element))
            elif classes & _SHAPES:
                found.append(_shape_label(element))
        return found

    def overlaps(self) -> list[tuple[str, str]]:
        labels = self.labels
        return [(a.words, b.words) for i, a in enumerate(labels) for b in labels[i + 1:]
                if a.meets(b) and not _ring_of(a, b)]

    def outside(self) -> list[str]:
        """Labels that reach over the edge of the picture."""
        return [label.words for label in self.labels
                if label.x0 < 0 or label.y0 < 0 or label.x1 > self.width or label.y1 > self.height]

    def strays(self) -> list[str]:
        """Lines and shapes that begin or end outside the picture."""
        return [f"{element.tag.removeprefix(SVG)}.{element.attrib['class']} {x:g},{y:g}"
                for element in self.elements for x, y in points(element)
                if not (-1 <= x <= self.width + 1 and -1 <= y <= self.height + 1)]

    @property
    def leaders(self) -> list[list[Line]]:
        """Each leader as its straight parts."""
        found = []
        for element in self.of_class("lead") + self.of_class("lead-red"):
            at = points(element)
            found.append(list(zip(at, at[1:], strict=False)))
        return found

    def crossed_leaders(self) -> list[tuple[Line, Line]]:
        """Pairs of leaders that cross; meeting at a shared end is no crossing."""
        leaders = self.leaders
        return [(a, b) for i, one in enumerate(leaders) for other in leaders[i + 1:] for a in one for b in other
                if _cross(a, b)]

    def struck_labels(self) -> list[str]:
        """Labels that a leader runs through; the flag that it ends at is its own."""
        return [label.words for label in self.labels for leader in self.leaders
                if not label.holds(leader[-1][1]) and any(_through(line, label) for line in leader)]


def points(element: ElementTree.Element) -> list[tuple[float, float]]:
    """The coordinates that an element names: both ends of a line, every point of a polyline, a circle's centre."""
    a = element.attrib
    if element.tag == f"{SVG}line":
        return [(float(a["x1"]), float(a["y1"])), (float(a["x2"]), float(a["y2"]))]
    if "points" in a:
        return [tuple(float(v) for v in pair.split(",")) for pair in a["points"].split()]  # type: ignore[misc]
    if element.tag == f"{SVG}circle":
        return [(float(a["cx"]), float(a["cy"]))]
    return []


def words_of(drawn: Drawn) -> list[str]:
    return ["".join(element.itertext()) for element in drawn.elements if element.tag == f"{SVG}text"]


def _text_label(element: ElementTree.Element) -> Label:
    words = "".join(element.itertext())
    size = next(float(name[1:]) for name in element.attrib["class"].split() if re.fullmatch(r"f\d\d", name))
    x, y, width = float(element.attrib["x"]), float(element.attrib["y"]), text_width(words, size)
    x -= {"end": width, "middle": width / 2}.get(element.attrib.get("text-anchor", "start"), 0.0)
    return Label(words, x, y - ASCENT * size, x + width, y + DESCENT * size)


def _shape_label(element: ElementTree.Element) -> Label:
    at = points(element)
    reach = float(element.attrib.get("r", 0.0))
    xs, ys = [x for x, _ in at], [y for _, y in at]
    return Label(element.attrib["class"], min(xs) - reach, min(ys) - reach, max(xs) + reach, max(ys) + reach)


def _ring_of(a: Label, b: Label) -> bool:
    """The second ring of a mark that was added later lies round its disc."""
    return {a.words, b.words} in ({"mk", "mk-2"}, {"mkq", "mk-2"}) and math.dist(
        ((a.x0 + a.x1), (a.y0 + a.y1)), ((b.x0 + b.x1), (b.y0 + b.y1))) < 0.5


def _cross(a: Line, b: Line) -> bool:
    def side(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
    return side(*a, b[0]) * side(*a, b[1]) < -1e-6 and side(*b, a[0]) * side(*b, a[1]) < -1e-6


def _through(line: Line, label: Label) -> bool:
    """Whether a line runs through the inside of a box (its rim may be touched)."""
    (ax, ay), (bx, by) = line
    rim = 2.5
    steps = max(2, int(math.dist(*line)))
    return any(label.x0 + rim < ax + (bx - ax) * i / steps < label.x1 - rim
               and label.y0 + rim < ay + (by - ay) * i / steps < label.y1 - rim for i in range(steps + 1))
