"""The small end view of a family: all families at one scale, so that they can be told apart by size."""

from __future__ import annotations

from collections.abc import Mapping

from structures.frame.document import Document
from structures.frame.profile import Profile

from .sheet import Sheet


def family_icon(source: Document | Profile, *, label: str = "", widest_in: float = 360.0, tallest_in: float = 180.0,
                palette: Mapping[str, str] | None = None, name: str = "") -> str:
    """The hoop of a document or profile seen from the end, 132 by 74 px.

    `widest_in` and `tallest_in` are those of the largest family shown beside it: they set the scale for all.
    """
    profile = source if isinstance(source, Profile) else Profile.read(source.profile)
    words = label or (source.family if isinstance(source, Document) else "A hoop")
    scale = min(124.2 / widest_in, 62.1 / tallest_in)
    half = [(66 - u * scale, 68 - z * scale) for u, z in profile.polyline(0.0, profile.half_in, 0.4)]
    sheet = Sheet(132, 74, "small")
    sheet.tube("t2", half + [(132 - x, y) for x, y in reversed(half)][1:])
    sheet.line("obj2", (0, 68), (132, 68))
    return sheet.svg(name or f"end-{words.lower().replace(' ', '-')}", f"{words}, end view",
                     "Hoop shape, to scale beside the other families.", palette)
