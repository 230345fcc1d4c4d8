"""Lanes: labels in a row or a column, in the order of what they name, pushed apart where they would touch."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product


def down(wanted: Sequence[float], step: float, low: float, high: float) -> list[float]:
    """Places for labels along a lane, in the order of `wanted` (sorted), at least `step` apart within low..high.

    Each keeps its own place when it can; touching neighbours share the shift.
    """
    if not wanted:
        return []
    groups: list[list[float]] = []            # each: sum of (wanted - own offset), members
    for want in wanted:
        groups.append([want, 1.0])
        while len(groups) > 1 and _start(groups[-2]) + step * groups[-2][1] > _start(groups[-1]):
            last = groups.pop()
            first = groups[-1]
            first[0] += last[0] - last[1] * step * first[1]
            first[1] += last[1]
    places: list[float] = []
    for group in groups:
        start = _start(group)
        places.extend(start + step * i for i in range(int(group[1])))
    return _within(places, step, low, high)


def _start(group: list[float]) -> float:
    return group[0] / group[1]


def _within(places: list[float], step: float, low: float, high: float) -> list[float]:
    """Push the row inside low..high from both ends, keeping order and step; a row too long starts at low."""
    for i in range(len(places) - 1, -1, -1):
        ceiling = high if i == len(places) - 1 else places[i + 1] - step
        places[i] = min(places[i], ceiling)
    for i, place in enumerate(places):
        floor = low if i == 0 else places[i - 1] + step
        places[i] = max(place, floor)
    return places


def across(anchors: Sequence[float], widths: Sequence[float], low: float, high: float,
           lean: float) -> list[float | None]:
    """Left edges for words in one row, each `lean` px to one side of its anchor, in the anchors' order.

    Words run inward where they can, right from an anchor in the left half and left from one in the right half. Of all
    ways to lean, the one that places most words wins; None for words that find no room.
    """
    middle = (low + high) / 2
    inward = [anchor <= middle for anchor in anchors]
    best: list[float | None] = []
    most = (-1, -1)
    for leans in product((True, False), repeat=min(len(anchors), 6)):
        found = _row(anchors, widths, low, high, lean, leans)
        score = (sum(place is not None for place in found), sum(a == b for a, b in zip(leans, inward, strict=False)))
        if score > most:
            most, best = score, found
    return best


def _row(anchors: Sequence[float], widths: Sequence[float], low: float, high: float, lean: float,
         leans: Sequence[bool]) -> list[float | None]:
    """One way to lean: True runs right of its anchor."""
    taken: list[tuple[float, float]] = []
    found: list[float | None] = [None] * len(anchors)
    for i, (anchor, width, right) in enumerate(zip(anchors, widths, leans, strict=False)):
        place = anchor + lean if right else anchor - lean - width
        reach = (min(place, anchor), max(place + width, anchor))
        if place >= low and place + width <= high and all(reach[0] > b + 18 or reach[1] < a - 18 for a, b in taken):
            taken.append(reach)
            found[i] = place
    return found
