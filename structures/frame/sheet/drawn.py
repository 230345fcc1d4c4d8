"""The drawings of a build sheet: the whole, each corner, each joint, in the pencils of a paper or of a page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from structures.frame import drawing
from structures.frame.names import ends_named
from structures.frame.sheet.corners import CornerPage
from structures.frame.sheet.whole import BuildSheet


@dataclass(frozen=True, slots=True)
class Drawn:
    """One drawing with the words under it."""

    view: str
    svg: str
    caption: str


OVERALL = {
    "frame": ("wide", "The whole frame from outside the tag end. Letters are pieces: the same letter names the same part on every page."),
    "side-right": ("wide", "From outside the right side: hoop 1, the tag end, stands at the left. The left side is its mirror."),
    "unrolled": ("wide", "The whole frame laid flat: left foot on top, the ridge in the middle, hoop 1 at the left."),
    "section": ("wide", "One hoop seen from outside the tag end. Marks run along the tube from each foot, both sides alike."),
}


def overall(sheet: BuildSheet, palette: Mapping[str, str] | None) -> tuple[Drawn, ...]:
    """The whole structure from outside, from its right side, laid flat, and one hoop with its marks."""
    document = sheet.document
    lit = [*(brace.id for brace in document.braces), *(tie.id for tie in document.ties)]
    return tuple(
        Drawn(view, drawing.render(document, view, size, lit=lit, palette=palette, units=sheet.units, name=f"all-{view}",
                                   names=sheet.heading.names), ends_named(words, sheet.heading.names))
        for view, (size, words) in OVERALL.items()
    )


def corner_drawing(sheet: BuildSheet, page: CornerPage, palette: Mapping[str, str] | None, size: str = "narrow") -> Drawn:
    """The close-up of a corner as one stands inside facing it; pieces at mid-length are shown in their side."""
    svg = drawing.render(sheet.document, page.view, size, lit=page.ids, palette=palette, units=sheet.units,
                         name=f"corner-{page.number}-{size}", names=sheet.heading.names)
    return Drawn(page.view, svg, "Seen looking up. Tubes and bands are drawn wider than to scale.")


@dataclass(frozen=True, slots=True)
class JointDrawn:
    """One kind of joint as it is drawn, with what its letters name."""

    title: str
    places: int
    svg: str
    key: tuple[tuple[str, str], ...]


def joint_drawings(sheet: BuildSheet, palette: Mapping[str, str] | None) -> tuple[JointDrawn, ...]:
    """A drawing of each way in which each fitting set is used."""
    found = []
    document, units = sheet.document, sheet.units
    for kind in drawing.joint_kinds(document):
        svg = drawing.render_joint(document, kind.fitting, "narrow", role=kind.role, palette=palette, units=units)
        key = drawing.joint_key(document, kind.fitting, role=kind.role, units=units)
        found.append(JointDrawn(kind.title, len(kind.joints), svg, tuple((row.letter, row.words) for row in key)))
    return tuple(found)
