"""Whole-structure drawings: pick the view, say in words what it shows, hand back one `<svg>`."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from structures.frame.document import Document

from .closeup import draw_corner
from .corner import CORNERS, MIDDLES, Corner, corners_of
from .corner_rows import CornerRow, rows_of
from .frame import draw_frame
from .scene import Asked, Piece, Scene, by_part
from .section import draw_section
from .side import draw_side
from .standing import OUTSIDE_FAR, OUTSIDE_TAG, TURNING, place_of
from .tubemarks import TubeMark, tube_marks
from .unrolled import draw_unrolled

VIEWS = ("frame", "side-right", "side-left", "section", "unrolled")
CORNER_VIEWS = (*(f"inside-{key}" for key in CORNERS + MIDDLES), *(f"corner-{key}" for key in CORNERS))
SIZES = ("wide", "desk", "narrow")
LAYERS = ("marks", "hardware", "places", "names")
_USUAL = frozenset({"marks", "names"})            # of a whole view, where nobody says which
_TITLES = {
    "frame": "The whole frame, from outside the tag end",
    "side-right": "Right side, from outside: hoop 1 at the left",
    "side-left": "Left side, from outside: hoop 1 at the right",
    "section": "A hoop, seen from outside the tag end",
    "unrolled": "The whole frame laid flat: left foot on top, the ridge in the middle",
}


def render(document: Document, view: str, size: str, *, lit: Collection[str] = (), palette: Mapping[str, str] | None = None,
           offered: Document | None = None, added: Mapping[str, str] | None = None,
           faults: Mapping[str, str] | None = None, unseen: Collection[str] = (), units: str = "us",
           name: str = "", layers: Collection[str] | None = None, names: Mapping[int, str] | None = None,
           standing: str = OUTSIDE_TAG) -> str:
    """One view of a document as an `<svg class="dw ...">` with title and desc.

    `view` is one of `VIEWS` or `CORNER_VIEWS`; `views_of` says which of them a document has. `size` is one of `SIZES`
    (1,120, 768 and 358 px wide). `lit` holds ids of braces and ties, part numbers or option codes. `offered` is the same
    structure with an option it has not: what it would add is drawn as phantom lines. `added` gives, by piece id or
    option code, the date in words on which a lit piece was added later.
    `faults` gives the class ("stop", "mend", "again") of pieces or places with something wrong, `unseen` the places
    that could not be seen. `palette` None leaves the colours to drawing.css, else one of `LIGHT`, `DARK`, `GREY` is
    written into the drawing. `name` makes the ids, so give each drawing on a page its own. `layers` are those of `LAYERS`
    that are drawn, None leaves a whole view its marks and names and a corner all that it has; `names` is what people call
    the ends, as in {1: "road end"}. `standing` turns the whole frame and the section to be seen
    from "outside far end"; every other view has its own place (`places`). Raises `ValueError` for an unknown view, size or place.
    """
    if view not in views_of(document) or size not in SIZES:
        raise ValueError(
            f"There is no {size} drawing {view!r}: views are {', '.join(views_of(document))}; sizes {', '.join(SIZES)}.")
    scene = Scene(document, Asked(frozenset(lit), offered, added or {}, faults or {}, frozenset(unseen), units,
                                  frozenset(layers) if layers is not None else _USUAL if view in VIEWS else None, names or {},
                                  standing == OUTSIDE_FAR and view in TURNING))
    place = place_of(document, view, standing, names)
    if view == "frame":
        sheet = draw_frame(scene, size)
    elif view == "section":
        sheet = draw_section(scene, size)
    elif view == "unrolled":
        sheet = draw_unrolled(scene, size)
    elif view in CORNER_VIEWS:
        way, _, key = view.partition("-")
        sheet = draw_corner(Corner(scene, key), size, inside=way == "inside")
    else:
        sheet = draw_side(scene, view.removeprefix("side-"), size)
    return sheet.svg(name or f"{view}-{size}", title_of(view, standing),
                     " ".join(filter(None, (place.words if place else "", describe(scene, view)))), palette)


def title_of(view: str, standing: str = OUTSIDE_TAG) -> str:
    """What a view shows, in a few words."""
    if view in _TITLES:
        turned = standing == OUTSIDE_FAR and view in TURNING
        return _TITLES[view].replace("the tag end", "the far end") if turned else _TITLES[view]
    way, end, side = view.split("-")
    place = f"{side} side at mid-length" if end == "mid" else f"{end} end, {side} corner"
    return f"{place[0].upper()}{place[1:]}, {'standing inside, facing it' if way == 'inside' else 'from outside'}"


def views_of(document: Document) -> tuple[str, ...]:
    """The views that a document has: all but those of braces at mid-length where it has none there."""
    keys = corners_of(document)
    return VIEWS + tuple(view for view in CORNER_VIEWS if view.partition("-")[2] in keys)


def describe(scene: Scene, view: str) -> str:
    """The drawing in words, for who can't see it: the size, and what is lit, offered or wrong."""
    m = scene.document.measures
    parts = [f"{scene.document.family}, {m.bays} bays, {m.hoops} hoops, {scene.figure(m.length_in)} long."]
    if scene.lit:
        parts.append("Lit: " + _listed(scene, scene.lit) + ".")
    if scene.phantoms:
        parts.append("Offered, drawn as phantom lines: " + _listed(scene, scene.phantoms) + ".")
    if scene.asked.faults:
        parts.append("Something wrong at " + ", ".join(place.partition(":")[0] for place in scene.asked.faults) + ".")
    if view == "section":
        parts.append("Marks are measured along the tube from the foot.")
    return " ".join(parts)


def _listed(scene: Scene, pieces: tuple[Piece, ...]) -> str:
    return "; ".join(f"{scene.letters[part]} {group[0].words}, {len(group)} of {scene.figure(group[0].length_in)}"
                     for part, group in by_part(pieces).items())


def section_marks(document: Document, *, lit: Collection[str] = (), offered: Document | None = None,
                  units: str = "us", standing: str = OUTSIDE_TAG) -> tuple[TubeMark, ...]:
    """The rows of the table beside a section: the same marks, with the same keys, as the narrow drawing seen from there."""
    return tube_marks(Scene(document, Asked(frozenset(lit), offered, units=units, turned=standing == OUTSIDE_FAR)))


def corner_rows(document: Document, corner: str, *, lit: Collection[str] = (), offered: Document | None = None,
                units: str = "us") -> tuple[CornerRow, ...]:
    """The rows of the table beside a corner, with the numbers that its drawings have in every size.

    `corner` is "tag-left", "tag-right", "far-left", "far-right", or "mid-left", "mid-right" where braces stand there. Raises
    `ValueError` for one that the document hasn't.
    """
    if corner not in corners_of(document):
        raise ValueError(f"There is no corner {corner!r} here: there are {', '.join(corners_of(document))}.")
    return rows_of(Corner(Scene(document, Asked(frozenset(lit), offered, units=units)), corner))
