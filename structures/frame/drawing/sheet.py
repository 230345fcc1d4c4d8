"""The sheet of paper: collects lines, tubes and labels of one drawing, and knows what room is taken.

x runs right and y down, in px at 1:1. Every label's box (words, marks, rings, flags) is kept in `boxes`, every object
line in `strokes` and every leader in `leaders`, so that what comes later finds clear space, and words over lines get
a paper rectangle.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from html import escape
from typing import NamedTuple

from .advances import ASCENT, DESCENT, text_width
from .style import flat_style

XY = tuple[float, float]


class Box(NamedTuple):
    """A rectangle, left top right bottom."""

    x0: float
    y0: float
    x1: float
    y1: float

    def meets(self, other: Box, gap: float = 0.0) -> bool:
        """Whether two boxes come within `gap` of each other."""
        return (self.x0 < other.x1 + gap and other.x0 < self.x1 + gap
                and self.y0 < other.y1 + gap and other.y0 < self.y1 + gap)

    def grown(self, by: float) -> Box:
        """The box with `by` px more on every side."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def crossed_by(self, ax: float, ay: float, bx: float, by: float) -> bool:
        """Whether the straight line from a to b passes through (Liang and Barsky's clipping test)."""
        low, high = 0.0, 1.0
        dx, dy = bx - ax, by - ay
        for step, room in ((-dx, ax - self.x0), (dx, self.x1 - ax), (-dy, ay - self.y0), (dy, self.y1 - ay)):
            if step == 0:
                if room < 0:
                    return False
                continue
            t = room / step
            if step < 0:
                low = max(low, t)
            else:
                high = min(high, t)
            if low > high:
                return False
        return True


def n(value: float) -> str:
    """A px figure to a tenth, without a useless nought."""
    text = f"{value:.1f}"
    if text.endswith(".0"):
        text = text[:-2]
    return "0" if text == "-0" else text


def text_box(x: float, y: float, words: str, size: float, anchor: str = "start") -> Box:
    """The box of one line of words whose baseline begins, ends or is centred at (x, y)."""
    width = text_width(words, size)
    left = x - (width if anchor == "end" else width / 2 if anchor == "middle" else 0)
    return Box(left, y - ASCENT * size, left + width, y + DESCENT * size)


def wrapped(words: str, room: float, size: float) -> list[str]:
    """Words over as few lines as `room` px allows, of about equal length, so that no word is left alone below."""
    lines = _filled(words, room, size)
    while len(lines) > 1 and room > 40:
        room -= 8
        tighter = _filled(words, room, size)
        if len(tighter) > len(lines):
            break
        lines = tighter
    return lines


def _filled(words: str, room: float, size: float) -> list[str]:
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if not lines:
            lines = [word]
        elif text_width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


class Sheet:
    """One drawing being made, `width` by `height` px. `layers` names the layers that are drawn; None is all of them."""

    def __init__(self, width: float, height: float, size: str, layers: Collection[str] | None = None):
        self.width, self.height, self.size = width, height, size
        self.layers = layers
        self.out: list[str] = []
        self.boxes: list[Box] = []
        self.strokes: list[tuple[float, float, float, float]] = []
        self.leaders: list[tuple[float, float, float, float]] = []

    # groups
    def draws(self, name: str) -> bool:
        """Whether a layer was asked for."""
        return self.layers is None or name in self.layers

    @contextmanager
    def layer(self, name: str) -> Iterator[None]:
        """What is drawn inside belongs to a layer: "marks", "hardware", "places" or "names". One that was not asked for
        leaves no markup, but keeps its room, so that nothing else moves."""
        start = len(self.out)
        self.out.append(f'<g class="layer layer-{name}">')
        yield
        self.out.append("</g>")
        if not self.draws(name) or len(self.out) == start + 2:
            del self.out[start:]

    @contextmanager
    def piece(self, ident: str, part: str) -> Iterator[None]:
        """What is drawn inside is one piece, which a page can light by its place id or its part; a joint's parts stand in a row."""
        self.out.append(f'<g class="pc" data-id="{escape(ident)}" data-part="{escape(part)}">')
        yield
        self.out.append("</g>")

    # lines
    def line(self, kind: str, a: XY, b: XY, *, solid: bool = False) -> None:
        """A straight line; `solid` when it is an object that words should not be written across unbroken."""
        self.out.append(f'<line class="{kind}" x1="{n(a[0])}" y1="{n(a[1])}" x2="{n(b[0])}" y2="{n(b[1])}"/>')
        if solid:
            self.strokes.append((*a, *b))
        elif kind.startswith("lead"):
            self.leaders.append((*a, *b))

    def polyline(self, kind: str, points: Sequence[XY], *, solid: bool = False, closed: bool = False) -> None:
        """A line through several points, or a polygon when `closed`."""
        shape = "polygon" if closed else "polyline"
        self.out.append(f'<{shape} class="{kind}" points="{_points(points)}"/>')
        parts = [(*a, *b) for a, b in zip(points, points[1:], strict=False)]
        if solid:
            self.strokes += parts
        elif kind.startswith("lead"):
            self.leaders += parts

    def tube(self, weight: str, points: Sequence[XY]) -> None:
        """A near tube: ink outline, paper inside, over everything that was drawn before."""
        where = _points(points)
        self.out.append(f'<polyline class="tube-o {weight}" points="{where}"/>'
                        f'<polyline class="tube-i {weight}" points="{where}"/>')
        self.strokes.extend((*a, *b) for a, b in zip(points, points[1:], strict=False))

    def circle(self, kind: str, at: XY, radius: float) -> None:
        """A circle; its class says whether it is filled."""
        self.out.append(f'<circle class="{kind}" cx="{n(at[0])}" cy="{n(at[1])}" r="{n(radius)}"/>')

    def rect(self, kind: str, box: Box) -> None:
        """A rectangle."""
        self.out.append(f'<rect class="{kind}" x="{n(box.x0)}" y="{n(box.y0)}" width="{n(box.x1 - box.x0)}" '
                        f'height="{n(box.y1 - box.y0)}"/>')

    def path(self, kind: str, d: str) -> None:
        """A path as SVG has it."""
        self.out.append(f'<path class="{kind}" d="{d}"/>')

    def raw(self, markup: str) -> None:
        """Markup that no other method makes."""
        self.out.append(markup)

    # labels
    def free(self, box: Box, gap: float = 1.0) -> bool:
        """Whether the box lies on the sheet and clear of every label and leader so far."""
        inside = box.x0 >= 0 and box.y0 >= 0 and box.x1 <= self.width and box.y1 <= self.height
        return (inside and not any(box.meets(other, gap) for other in self.boxes)
                and not any(box.crossed_by(*line) for line in self.leaders))

    def crossings(self, box: Box) -> int:
        """How many object lines pass through the box."""
        x0, y0, x1, y1 = box
        near = [stroke for stroke in self.strokes
                if (stroke[0] < x1 or stroke[2] < x1) and (stroke[0] > x0 or stroke[2] > x0)
                and (stroke[1] < y1 or stroke[3] < y1) and (stroke[1] > y0 or stroke[3] > y0)]
        return sum(box.crossed_by(*stroke) for stroke in near)

    def text(self, at: XY, words: str, *, size: int = 13, kind: str = "", anchor: str = "start") -> Box:
        """One line of words; a paper rectangle breaks the object lines behind it."""
        box = text_box(*at, words, size, anchor)
        if self.crossings(box):
            self.rect("mask", Box(box.x0 - 4, box.y0 + 1, box.x1 + 4, box.y1 - 1))
        self.boxes.append(box)
        self._words(at, words, f"{kind} f{size}".strip(), anchor)
        return box

    def mark(self, at: XY, letter: str, *, lit: bool = True, radius: float = 9, size: int = 12,
             ringed: bool = False) -> Box:
        """A letter in a disc that names one thing on the whole page; a second ring means added later."""
        reach = radius + 3.5 if ringed else radius
        box = Box(at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach)
        self.boxes.append(box)
        self.circle("mk" if lit else "mkq", at, radius)
        if ringed:
            self.circle("mk-2", at, radius + 2.8)
        self._words((at[0], at[1] + size * 0.35), letter, f"f{size} {'mkt' if lit else 'mkqt'}", "middle")
        return box

    def bubble(self, at: XY, number: int, *, named: bool, radius: float = 11, size: int = 12) -> None:
        """A hoop's number in its ring."""
        self.boxes.append(Box(at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius))
        self.circle("bub bub-lit" if named else "bub", at, radius)
        self._words((at[0], at[1] + size * 0.35), str(number), f"f{size} bubt", "middle")

    def _words(self, at: XY, words: str, kind: str, anchor: str) -> None:
        where = "" if anchor == "start" else f' text-anchor="{anchor}"'
        self.out.append(f'<text class="{kind}" x="{n(at[0])}" y="{n(at[1])}"{where}>{escape(words)}</text>')

    def svg(self, name: str, title: str, desc: str, palette: Mapping[str, str] | None, role: str = "img") -> str:
        """The finished drawing. `name` makes the ids of title and desc, so it is unique on its page.

        `role` is "group" where there are links inside, which a picture may not have.
        """
        style = f"<style>{flat_style(palette)}</style>" if palette is not None else ""
        fixed = f' width="{n(self.width)}" height="{n(self.height)}"' if palette is not None else ""
        return (f'<svg class="dw {self.size}" xmlns="http://www.w3.org/2000/svg"{fixed} '
                f'viewBox="0 0 {n(self.width)} {n(self.height)}" role="{role}" '
                f'aria-labelledby="{name}-t {name}-d"><title id="{name}-t">{escape(title)}</title>'
                f'<desc id="{name}-d">{escape(desc)}</desc>{style}\n' + "\n".join(self.out) + "\n</svg>")


def _points(points: Iterable[XY]) -> str:
    return " ".join(f"{n(x)},{n(y)}" for x, y in points)
