"""What runs along the structure, close up: purlin runs with their ends, boards and channel, posts of the end wall."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from structures.frame.document import Bar, Member
from structures.frame.profile import Profile

from . import pencils
from .kitlines import draw_sticks
from .scene import Lengthwise
from .sheet import XY

if TYPE_CHECKING:
    from .closeup import CloseUp

_FLAT_IN = 9.0                      # how long a purlin end's flattened end is drawn, before enlarging
_WORDS = {"ridge": "ridge purlin", "purlin": "side purlin", "upper": "upper purlin"}


class LengthwiseLines:
    """The lengthwise lines of one close-up. `ends` are where each is cut, with its words."""

    def __init__(self, view: CloseUp):
        self.view, self.scene, self.sheet = view, view.scene, view.sheet
        self.ends: list[tuple[XY, str]] = []

    def _span(self) -> tuple[float, float]:
        """From y to y: to the end of the structure at the corner's own end, cut at the other."""
        return self.view.low, self.view.high

    def _cut_ends(self, y0: float, y1: float) -> list[tuple[float, float]]:
        """Where a line goes on beyond what is drawn, each with the y that it comes from."""
        length = self.scene.document.measures.length_in
        found = [(self.view.low, self.view.high)] if self.view.low > max(y0, 0.0) + 1e-6 else []
        return found + ([(self.view.high, self.view.low)] if self.view.high < min(y1, length) - 1e-6 else [])

    # purlins
    def draw_purlins(self) -> None:
        """Every run on this side and the ridge, from below upward."""
        for line in sorted(self.scene.runs, key=lambda line: line.z):
            if line.side in ("", self.view.corner.side):
                self._purlin(line)

    def _purlin(self, line: Lengthwise) -> None:
        x, z = self.view.axis_of_run(line)
        width = self.view.px(self.scene.document.tubes.get("stick", self.scene.document.tubes["hoop"]))
        for member in self._members(line):
            low, high = sorted((member.start[1], member.end[1]))
            low, high = max(low, self.view.low), min(high, self.view.high)
            if low < high:
                self._stick(member, self.view.at((x, low, z)), self.view.at((x, high, z)), width)
        for y, back in self._cut_ends(line.y0, line.y1):
            tip = self.view.at((x, y, z))
            self.view.cut(self.view.at((x, back, z)), tip, width)
            self.ends.append((tip, _WORDS.get(line.code, f"{line.code} purlin")))
        self._joints(line, x, z, width)
        for y, inward in ((line.y0, 1.0), (line.y1, -1.0)):
            if self.view.low - 1e-6 <= y <= self.view.high + 1e-6:
                self._flat(x, y, z, inward)

    def _members(self, line: Lengthwise) -> list[Member]:
        """A run's sticks and ends."""
        return [member for member in self.scene.document.members
                if member.role in ("stick", "end") and member.id in line.names and abs(member.start[0] - line.x) < 0.01]

    def _stick(self, member: Member, a: XY, b: XY, width: float) -> None:
        with self.sheet.piece(member.id, member.part):
            lit = self.scene.asks_for(member.id, member.part, member.option)
            if lit:
                self.view.thick("halo-b", [a, b], width + 10)
            self.view.tube([a, b], width, lit=lit)

    def _joints(self, line: Lengthwise, x: float, z: float, width: float) -> None:
        """The mouths of slip joints."""
        for y in sorted({round(member.start[1], 3) for member in self._members(line)}):
            if self.view.low < y < self.view.high and line.y0 + 1 < y < line.y1 - 1:
                a, b = self.view.at((x, y - 0.5, z)), self.view.at((x, y + 0.5, z))
                (dx, dy), middle = self.view.across(a, b, width * 0.62), pencils.along(a, b, 0.5)
                self.sheet.line("tick", (middle[0] - dx, middle[1] - dy), (middle[0] + dx, middle[1] + dy))

    def _flat(self, x: float, y: float, z: float, inward: float) -> None:
        """A purlin end's flattened end with its bolt."""
        a, b = self.view.at((x, y, z)), self.view.at((x, y + inward * _FLAT_IN, z))
        self.sheet.line("obj3", a, b)
        with self.sheet.layer("hardware"):
            self.sheet.circle("bolt-q", pencils.along(a, b, 0.55), 3 if self.view.size != "narrow" else 2.4)

    # boards
    def draw_boards(self) -> None:
        """Boards, channel and pipes on this side as their edges, thin: what lies behind stays in sight."""
        bars = [bar for bar in self.scene.document.bars if bar.side == self.view.corner.side]
        for bar in bars:
            if bar.y1 - bar.y0 > self.view.corner.spacing / 2:
                self._bar(bar)
        if bars:
            self._end_channel(bars)
            draw_sticks(self.sheet, self.scene, self._seen_of)
            return
        named: set[str] = set()
        for board in sorted(self.scene.boards, key=lambda line: -line.z):
            if board.side == self.view.corner.side:
                words = "" if board.code in named else board.code.replace("-", " ")
                named.add(board.code)
                self._edge(board.x, board.z, 0.0, self.scene.document.measures.length_in, words)

    def _seen_of(self, member: Member) -> list[tuple[XY, XY]]:
        """What is seen of a board, pipe or runner on this side; nothing of a purlin's pieces, which are drawn as tubes."""
        (x, y0, z), (_, y1, _) = member.start, member.end
        low, high = max(min(y0, y1), self.view.low), min(max(y0, y1), self.view.high)
        other = (x < 0) != (self.view.corner.side == "left")
        return [] if member.role in ("stick", "end") or other or low >= high else [(self.view.at((x, low, z)), self.view.at((x, high, z)))]

    def _bar(self, bar: Bar) -> None:
        half = bar.wide_in / 2
        for step, words in ((half, bar.name), (-half, "")):
            self._edge(bar.x + step * bar.along_x, bar.z + step * bar.along_z, bar.y0, bar.y1, words)

    def _end_channel(self, bars: Sequence[Bar]) -> None:
        """Channel along an end hoop, on its outside: from inside the hoop hides it."""
        here = [bar for bar in bars if bar.y1 - bar.y0 <= self.view.corner.spacing / 2
                and self.view.low - 2 < (bar.y0 + bar.y1) / 2 < self.view.high + 2]
        if self.view.inside or not here:
            return
        points = []
        for bar in here:
            for step in (-bar.wide_in / 2, bar.wide_in / 2):
                x, z = bar.x + step * bar.along_x, bar.z + step * bar.along_z
                points.append((nearest_s(self.view.profile, abs(x), z), x, (bar.y0 + bar.y1) / 2, z))
        line = []
        for s, x, y, z in sorted(points):
            axis = self.view.on_hoop(round(y / self.view.corner.spacing) + 1, s)
            line.append(self.view.at(self.view.enlarged(axis, axis, (x, axis[1], z))))
        self.sheet.polyline("obj1", line)

    def _edge(self, x: float, z: float, y0: float, y1: float, words: str) -> None:
        low, high = max(y0, self.view.low), min(y1, self.view.high)
        if low >= high:
            return
        self.sheet.line("obj1", self.view.at((x, low, z)), self.view.at((x, high, z)), solid=True)
        if words:
            self.ends.extend((self.view.at((x, y, z)), words) for y, _ in self._cut_ends(y0, y1))

    # end walls
    def draw_posts(self) -> None:
        """Posts and headers of the end wall on this side of the middle, and the ground line that they stand on."""
        corner, face = self.view.corner, 1 if self.view.corner.toward < 0 else 0
        shown = []
        for box in self.scene.document.boxes:
            (x0, y0, z0), (x1, y1, z1) = box.low, box.high
            if self.view.low - 12 <= (y0 + y1) / 2 <= self.view.high + 12 and (x0 + x1) / 2 * corner.sign > 1:
                y = (y0, y1)[face]
                shown.append((min(abs(x0), abs(x1)), [self.view.at((x, y, z)) for x, z in ((x0, z0), (x1, z0), (x1, z1), (x0, z1))]))
        if shown:
            foot = self.view.foot(corner.hoops[0])
            self.sheet.line("foot", self.view.at(foot), self.view.at((corner.sign * (min(x for x, _ in shown) - 10), foot[1], 0.0)))
        for _, outline in shown:
            self.sheet.polyline("pap-s", outline, closed=True)


def nearest_s(profile: Profile, u: float, z: float) -> float:
    """The place along the tube that lies nearest to (u, z)."""
    best, found = math.inf, 0.0
    for start, segment in zip(profile.starts, profile.segments, strict=True):
        s = min(max(segment.nearest(u, z), 0.0), segment.length_in)
        away = math.dist(segment.at(s), (u, z))
        if away < best:
            best, found = away, start + s
    return found
