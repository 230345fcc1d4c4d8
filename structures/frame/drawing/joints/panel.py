"""One view of a joint: inches of metal to px of paper, and labels that find clear space round it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice, permutations

from ..sheet import XY, Box, Sheet, text_box

_TYPE = 13


@dataclass(frozen=True, slots=True)
class Callout:
    """A thing that is named: a point on it (px), what it is, and a second line.

    `thing` is the one word that all joints have for it, so that its letter is the same on each; `mark` the mark that it has
    already, as a brace has.
    """

    at: XY
    words: str
    below: str
    thing: str
    mark: str = ""

    @property
    def said(self) -> str:
        """The words as the key table has them."""
        return f"{self.words}: {self.below}" if self.below else self.words


@dataclass(slots=True)
class Panel:
    """A view whose origin lies at `centre` (px), `k` px to the inch, its labels kept within `room`."""

    sheet: Sheet
    centre: XY
    k: float
    room: Box
    solids: list[Box] = field(default_factory=list)
    thin: list[tuple[float, float, float, float]] = field(default_factory=list)
    callouts: list[Callout] = field(default_factory=list)

    def at(self, x: float, y: float) -> XY:
        """Where (x right, y up), inches from the origin, lies on the sheet."""
        return self.centre[0] + x * self.k, self.centre[1] - y * self.k

    def block(self, points: Sequence[XY], out: float = 3.0) -> None:
        """Keep labels off the box round these px points."""
        xs, ys = [x for x, _ in points], [y for _, y in points]
        self.solids.append(Box(min(xs), min(ys), max(xs), max(ys)).grown(out))

    def block_along(self, a: XY, b: XY, half: float) -> None:
        """Keep labels off a band of `half` px each side of a slanting line."""
        steps = max(1, math.ceil(math.dist(a, b) / max(half, 8.0)))
        for i in range(steps + 1):
            x, y = a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps
            self.solids.append(Box(x - half, y - half, x + half, y + half))

    def say(self, at: tuple[float, float], thing: str, words: str, below: str = "", mark: str = "") -> None:
        """Name the thing at a place in inches."""
        self.callouts.append(Callout(self.at(*at), words, below, thing, mark))

    def place(self, marks: Mapping[str, str] | None) -> None:
        """Set every label: words on a shelf, or its letter from `marks`. In the order that clears most and reaches least."""
        best: tuple[float, list[tuple[Callout, _Spot]]] | None = None
        orders = [self.callouts, self.callouts[::-1], *map(list, islice(permutations(self.callouts), 1, 720, 24))]
        for tried, order in enumerate(orders):
            cost, spots = self._try(order, marks)
            if best is None or cost < best[0]:
                best = (cost, spots)
            if best[0] < 70 * len(order) or (best[0] < 1000 and tried > 2):
                break
        for callout, spot in best[1] if best else []:
            _draw(self.sheet, callout, spot, marks)

    def _try(self, order: Sequence[Callout], marks: Mapping[str, str] | None) -> tuple[float, list[tuple[Callout, _Spot]]]:
        taken: list[_Spot] = []
        total, made = 0.0, []
        for callout in order:
            spot = self._best(callout, taken, marks)
            if spot is None:
                total += 1000
                continue
            taken.append(spot)
            total += spot.cost
            made.append((callout, spot))
        return total, made

    def _best(self, callout: Callout, taken: list[_Spot], marks: Mapping[str, str] | None) -> _Spot | None:
        best: _Spot | None = None
        for spot in _discs(callout) if marks is not None else _shelves(callout):
            if best is not None and spot.cost >= best.cost:
                break
            if self._clear(spot, taken):
                cost = spot.cost + self._over(spot)
                if best is None or cost < best.cost:
                    best = _Spot(spot.box, spot.leader, cost)
        return best

    def _clear(self, spot: _Spot, taken: list[_Spot]) -> bool:
        box, room = spot.box, self.room
        if box.x0 < room.x0 or box.y0 < room.y0 or box.x1 > room.x1 or box.y1 > room.y1:
            return False
        if any(box.meets(other, 4) for other in self.sheet.boxes) or any(box.meets(other, 4) for other in self.solids):
            return False
        if any(box.meets(other.box, 6) for other in taken):
            return False
        if any(box.crossed_by(*line) for line in self.thin):
            return False
        lines = _parts(spot.leader)
        if any(other.crossed_by(*lines[0]) for other in self.sheet.boxes):
            return False
        return not any(_in_the_way(spot, lines, other) for other in taken)

    def _over(self, spot: _Spot) -> float:
        """What a leader costs for running over other metal: solids that it crosses beyond its own."""
        line = _parts(spot.leader)[0]
        crossed = sum(_cross(line, stroke) for stroke in self.sheet.strokes)
        return 26.0 * max(0, crossed - 1) + 10.0 * sum(_cross(line, stroke) for stroke in self.thin)


@dataclass(frozen=True, slots=True)
class _Spot:
    box: Box
    leader: tuple[XY, ...]
    cost: float


def _in_the_way(spot: _Spot, lines: list[tuple[float, float, float, float]], other: _Spot) -> bool:
    """Whether two labels' leaders cross, or one's leader runs through the other's box."""
    theirs = _parts(other.leader)
    return (other.box.crossed_by(*lines[0]) or any(spot.box.crossed_by(*line) for line in theirs)
            or any(_cross(a, b) for a in lines for b in theirs))


_REACHES = sorted(((dx, dy) for dx in (26, 44, 64, 88, 116, 150, 190, 230, 270) for dy in range(-192, 193, 12)),
                  key=lambda d: math.hypot(*d))
_ANGLES = [math.radians(15 * i) for i in range(24)]
_DISC = 8.5


def _shelves(callout: Callout) -> Iterator[_Spot]:
    """Places for words on a shelf, nearest first; a leader at a slant is best."""
    x, y = callout.at
    wide = max(text_box(0, 0, words, _TYPE).x1 for words in (callout.words, callout.below))
    for dx, dy in _REACHES:
        for sign in (1, -1):
            knee = (x + sign * dx, y + dy)
            far = (knee[0] + sign * wide, knee[1])
            box = Box(min(knee[0], far[0]), knee[1] - 19, max(knee[0], far[0]), knee[1] + (19 if callout.below else 2))
            yield _Spot(box, (callout.at, knee, far), math.hypot(dx, dy))


def _discs(callout: Callout) -> Iterator[_Spot]:
    x, y = callout.at
    for reach in (26, 34, 44, 56, 70, 86, 104, 124):
        for angle in _ANGLES:
            at = (x + reach * math.cos(angle), y + reach * math.sin(angle))
            end = (x + (reach - _DISC) * math.cos(angle), y + (reach - _DISC) * math.sin(angle))
            yield _Spot(Box(at[0] - _DISC, at[1] - _DISC, at[0] + _DISC, at[1] + _DISC), (callout.at, end), float(reach))


def _draw(sheet: Sheet, callout: Callout, spot: _Spot, marks: Mapping[str, str] | None) -> None:
    sheet.polyline("lead", spot.leader)
    sheet.circle("dot", callout.at, 2.2 if marks is None else 2)
    if marks is not None:
        box = spot.box
        at = ((box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2)
        sheet.mark(at, callout.mark or marks[callout.thing], lit=bool(callout.mark), radius=_DISC)
        return
    knee, far = spot.leader[1], spot.leader[2]
    anchor = "start" if far[0] > knee[0] else "end"
    sheet.text((knee[0], knee[1] - 5), callout.words, size=_TYPE, kind="lab", anchor=anchor)
    if callout.below:
        sheet.text((knee[0], knee[1] + 15), callout.below, size=_TYPE, kind="q", anchor=anchor)


def _parts(points: Sequence[XY]) -> list[tuple[float, float, float, float]]:
    return [(*a, *b) for a, b in zip(points, points[1:], strict=False)]


def _cross(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    def side(line: tuple[float, float, float, float], x: float, y: float) -> float:
        return (line[2] - line[0]) * (y - line[1]) - (line[3] - line[1]) * (x - line[0])
    return side(a, b[0], b[1]) * side(a, b[2], b[3]) < 0 and side(b, a[0], a[1]) * side(b, a[2], a[3]) < 0
