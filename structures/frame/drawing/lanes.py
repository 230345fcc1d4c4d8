"""Lanes: labels in a row or a column, in the order of what they name, pushed apart where they would touch."""

from __future__ import annotations

from collections.abc import Sequence


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
    """Left edges for words in one row, each `lean` px or more beside its anchor, in the anchors' order.

    Words in the left half run right from their anchor, in the right half they run left, so that leaders lean outward
    from the middle and never cross. None for words that find no room.
    """
    taken: list[tuple[float, float]] = []
    found: list[float | None] = []
    middle = (low + high) / 2
    for anchor, width in zip(anchors, widths, strict=True):
        right = anchor + lean
        left = anchor - lean - width
        tries = (right, left) if anchor <= middle else (left, right)
        place = next((t for t in tries if t >= low and t + width <= high
                      and all(t > b + 18 or t + width < a - 18 for a, b in taken)), None)
        if place is not None:
            taken.append((min(place, anchor), max(place + width, anchor)))
        found.append(place)
    return found
