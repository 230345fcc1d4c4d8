"""The near end wall as whole views draw it: what stands in it, seen square from outside."""

from __future__ import annotations

from structures.frame.document import Document

Rect = tuple[str, float, float, float, float]      # kind, x from and to, z from and to


def rects_of(document: Document) -> list[Rect]:
    """Posts, header and closed leaves of the end wall that one stands before: a scene's document has it at y = 0."""
    middle = document.measures.length_in / 2
    near = [box for box in document.boxes if (box.low[1] + box.high[1]) / 2 < middle]
    order = {"post": 0, "header": 1, "leaf": 2}
    return [(box.kind, box.low[0], box.high[0], max(box.low[2], 0.0), box.high[2])
            for box in sorted(near, key=lambda box: (order.get(box.kind, 3), box.low[0]))]
