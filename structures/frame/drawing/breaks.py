"""Long breaks: which hoops of a long structure are drawn, and where they stand on the sheet."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stretch:
    """Hoops drawn without a break, from `first` to `last`."""

    first: int
    last: int

    @property
    def bays(self) -> int:
        """How many bays lie in the stretch."""
        return self.last - self.first


def stretches(hoops: int, keep: Collection[int], whole_bays: int, drawn_bays: int) -> tuple[Stretch, ...]:
    """The stretches of hoops to draw.

    Up to `whole_bays` bays are drawn as they are. Of more, the hoops in `keep` and both ends stay; clusters of them
    grow inward, turn about, until `drawn_bays` bays are drawn. A gap of less than three bays is drawn after all.
    """
    if hoops - 1 <= whole_bays:
        return (Stretch(1, hoops),)
    found = _clusters(sorted({1, 2, hoops - 1, hoops, *keep}))
    while True:
        if len(found) == 1 or sum(last - first for first, last in found) >= drawn_bays:
            return tuple(Stretch(first, last) for first, last in found)
        found = _grown(found, drawn_bays)


def _clusters(hoops: list[int]) -> list[list[int]]:
    """Runs of hoops that lie less than four bays apart."""
    found = [[hoops[0], hoops[0]]]
    for hoop in hoops[1:]:
        if hoop - found[-1][1] < 4:
            found[-1][1] = hoop
        else:
            found.append([hoop, hoop])
    return found


def _grown(found: list[list[int]], drawn_bays: int) -> list[list[int]]:
    """Every inner end one hoop further in, as far as the bays last; clusters that come close are joined."""
    room = drawn_bays - sum(last - first for first, last in found)
    for i in range(len(found) - 1):
        if room < 1:
            break
        found[i][1] += 1
        room -= 1
        if room:
            found[i + 1][0] -= 1
            room -= 1
    return _clusters_of(found)


def _clusters_of(found: list[list[int]]) -> list[list[int]]:
    joined = [found[0]]
    for first, last in found[1:]:
        if first - joined[-1][1] < 3:
            joined[-1][1] = last
        else:
            joined.append([first, last])
    return joined


class Axis:
    """Maps y along the structure (inches) to px, with the left-out bays taken out.

    `gap` is the px between the two hoops beside a break; `stub` how far lengthwise lines run on into it.
    """

    def __init__(self, shown: tuple[Stretch, ...], spacing_in: float, scale: float, start: float, gap: float,
                 mirrored: bool = False):
        self.shown, self.spacing, self.scale, self.gap = shown, spacing_in, scale, gap
        self.sign = -1.0 if mirrored else 1.0
        self.starts = []
        at = start
        for stretch in shown:
            self.starts.append(at)
            at += self.sign * (stretch.bays * spacing_in * scale + gap)
        self.end = at - self.sign * gap

    def px(self, y: float) -> float:
        """Where y lies on the sheet; in a left-out bay, beside the nearer drawn hoop."""
        i = self._stretch(y)
        return self.starts[i] + self.sign * (y - (self.shown[i].first - 1) * self.spacing) * self.scale

    def _stretch(self, y: float) -> int:
        for i, stretch in enumerate(self.shown[:-1]):
            beyond = self.shown[i + 1].first - 1
            if y < (stretch.last - 1 + beyond) / 2 * self.spacing:
                return i
        return len(self.shown) - 1

    @property
    def drawn(self) -> list[int]:
        """The hoops that are drawn, from the tag end."""
        return [hoop for s in self.shown for hoop in range(s.first, s.last + 1)]

    def shows(self, *hoops: int) -> bool:
        """Whether all these hoops are drawn."""
        return all(any(s.first <= hoop <= s.last for s in self.shown) for hoop in hoops)

    def spans(self, stub: float) -> list[tuple[float, float]]:
        """The px from and to that lengthwise lines are drawn over, running `stub` px into each break."""
        found = []
        for i, stretch in enumerate(self.shown):
            a = self.starts[i]
            b = a + self.sign * stretch.bays * self.spacing * self.scale
            found.append((a - self.sign * (stub if i else 0),
                          b + self.sign * (stub if i < len(self.shown) - 1 else 0)))
        return found

    def clipped(self, y0: float, y1: float) -> list[tuple[float, float]]:
        """The px from and to of what runs from y0 to y1, without what lies in a left-out bay."""
        found = []
        for start, stretch in zip(self.starts, self.shown, strict=True):
            low, high = (stretch.first - 1) * self.spacing, (stretch.last - 1) * self.spacing
            # a runner or pipe may reach past the end hoops
            low = min(low, y0) if stretch is self.shown[0] else low
            high = max(high, y1) if stretch is self.shown[-1] else high
            a, b = max(y0, low), min(y1, high)
            if b - a > 0.5:
                base = (stretch.first - 1) * self.spacing
                found.append((start + self.sign * (a - base) * self.scale, start + self.sign * (b - base) * self.scale))
        return found

    def gaps(self) -> list[tuple[float, int, int]]:
        """Each break: its middle in px, and the first and last bay left out."""
        found = []
        for i, (before, after) in enumerate(zip(self.shown, self.shown[1:], strict=False)):
            edge = self.starts[i] + self.sign * before.bays * self.spacing * self.scale
            found.append((edge + self.sign * self.gap / 2, before.last, after.first - 1))
        return found


def fitted(shown: tuple[Stretch, ...], spacing_in: float, room: float, gap: float) -> float:
    """The scale, px per inch, at which the drawn bays and their breaks fill `room` px."""
    return (room - gap * (len(shown) - 1)) / (sum(s.bays for s in shown) * spacing_in)
