"""What is printed on a page of a PDF, in the page's own coordinates (1/72 in.): texts with their sizes, lines and shapes.

Written to read our own papers back: the operators of ISO 32000-1, 8.5.2 (paths) and 8.4.4 (the transformation matrix), and
of those only what the PDF library writes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pypdf import PageObject
from pypdf.generic import ContentStream

Matrix = tuple[float, float, float, float, float, float]
XY = tuple[float, float]
WHOLE: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(frozen=True)
class Shape:
    """One stroked or filled path: every point it names, curves by their ends and controls."""

    points: tuple[XY, ...]

    @property
    def left(self) -> float:
        return min(x for x, _ in self.points)

    @property
    def right(self) -> float:
        return max(x for x, _ in self.points)

    @property
    def low(self) -> float:
        return min(y for _, y in self.points)

    @property
    def top(self) -> float:
        return max(y for _, y in self.points)

    @property
    def wide(self) -> float:
        return self.right - self.left

    @property
    def high(self) -> float:
        return self.top - self.low

    @property
    def middle(self) -> XY:
        return (self.left + self.right) / 2, (self.low + self.top) / 2


def shapes_on(page: PageObject) -> list[Shape]:
    """Every path of a page, and of the forms that are drawn on it."""
    found: list[Shape] = []
    _read(page, page.get_contents(), page["/Resources"], WHOLE, found)
    return found


def times(inner: Matrix, outer: Matrix) -> Matrix:
    """Both transformations, the inner one first."""
    a, b, c, d, e, f = inner
    g, h, i, j, k, m = outer
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def _read(page: PageObject, content: Any, resources: Any, start: Matrix, found: list[Shape]) -> None:
    stream = content if isinstance(content, ContentStream) else ContentStream(content, page.pdf)
    matrix, kept = start, []
    path: list[XY] = []
    for operands, operator in stream.operations:
        if operator == b"q":
            kept.append(matrix)
        elif operator == b"Q":
            matrix = kept.pop()
        elif operator == b"cm":
            matrix = times(tuple(float(value) for value in operands), matrix)
        elif operator in _PATHS:
            path = _longer(path, [float(value) for value in operands], operator, matrix)
        elif operator in _PAINTS:
            if len(path) > 1 and operator != b"n":
                found.append(Shape(tuple(path)))
            path = []
        elif operator == b"Do":
            _read_form(page, resources["/XObject"][operands[0]].get_object(), resources, matrix, found)


_PATHS = (b"m", b"l", b"c", b"v", b"y", b"re")
_PAINTS = (b"S", b"s", b"f", b"F", b"f*", b"B", b"B*", b"b", b"b*", b"n")


def _longer(path: list[XY], values: list[float], operator: bytes, matrix: Matrix) -> list[XY]:
    """A path with one operator more. A move straight after the first move replaces it: nothing was drawn from there."""
    if operator == b"re":
        x, y, wide, high = values
        return [*path, _at(matrix, x, y), _at(matrix, x + wide, y + high)]
    points = [_at(matrix, x, y) for x, y in zip(values[::2], values[1::2], strict=True)]
    return points if operator == b"m" and len(path) == 1 else [*path, *points]


def _read_form(page: PageObject, form: Any, resources: Any, matrix: Matrix, found: list[Shape]) -> None:
    if form["/Subtype"] == "/Form":
        own = tuple(float(value) for value in form.get("/Matrix", WHOLE))
        _read(page, form, form.get("/Resources", resources), times(own, matrix), found)


def _at(matrix: Matrix, x: float, y: float) -> XY:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def texts_on(page: PageObject) -> tuple[str, tuple[tuple[float, str], ...]]:
    """The text of a page as it is read, and each piece of it with its size in points as it lies on the paper."""
    found: list[tuple[float, str]] = []

    def visit(text: str, cm: list[float], tm: list[float], font: Any, size: float) -> None:
        if text.strip():
            whole = times(tuple(tm), tuple(cm))
            found.append((abs(size) * (whole[2] ** 2 + whole[3] ** 2) ** 0.5, text.strip()))

    return page.extract_text(visitor_text=visit), tuple(found)
