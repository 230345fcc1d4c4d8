"""The table beside a corner: each landing by its number, with the mark where its band goes and how it is found."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Document, Mark

from .corner import Corner, End, Spot

UP_FROM_FOOT, DOWN_FROM_RIDGE = "up from the foot", "down from the ridge"


@dataclass(frozen=True, slots=True)
class CornerRow:
    """One band at one corner. Lengths are inches; `edge`, `centre`, `from_foot` are the same in a person's units.

    `number` is the ring's number on the drawing, `place` the band's place id, `which` "lower" or "upper" of two butted
    bands. `edge_in` is the band's edge first met when measuring `measure` on `on` (a section's part number), `centre_in` its
    middle; both None where the document keeps no mark for it. `setting` is "set here" or "follows"; `turned` says that the
    piece is turned at this end, which is bolted last.
    """

    number: int
    code: str
    place: str
    which: str
    piece: str
    part: str
    letter: str
    what: str
    on: str
    measure: str
    edge_in: float | None
    edge: str
    centre_in: float | None
    centre: str
    from_foot_in: float
    from_foot: str
    setting: str
    turned: bool
    lit: bool
    offered: bool


def rows_of(corner: Corner) -> tuple[CornerRow, ...]:
    """Every band of a corner's braces and ties, in the order of their numbers, lower before upper."""
    return tuple(_row(corner, spot, i) for spot in corner.spots for i in range(len(spot.ends)))


def _row(corner: Corner, spot: Spot, index: int) -> CornerRow:
    scene, end = corner.scene, spot.ends[index]
    landing, piece = end.landing, end.piece
    document = scene.asked.offered if end.offered and scene.asked.offered else scene.document
    mark = _mark_of(document, end)
    figure = scene.figure
    return CornerRow(
        spot.number, spot.code, landing.joint, which(spot, end), piece.id, piece.part, scene.letters[piece.part],
        end_words(corner, end), _section_of(document, end) if mark else "", _measure(corner, mark),
        mark.edge_in if mark else None, figure(mark.edge_in) if mark else "",
        mark.from_datum_in if mark else None, figure(mark.from_datum_in) if mark else "",
        landing.from_foot_in, figure(landing.from_foot_in), "set here" if landing.set else "follows",
        end.index is not None and end.index == piece.turned, scene.is_lit(piece), end.offered,
    )


def which(spot: Spot, end: End) -> str:
    """Which of the bands butted at its node an end has: by its place against the node, so that a band of another corner
    counts too. "" where it stands alone."""
    off = end.landing.from_foot_in - end.landing.node_in
    return "" if abs(off) < 0.01 else "upper" if off > 0 else "lower"


def _mark_of(document: Document, end: End) -> Mark | None:
    """The mark that an end's band is placed by."""
    landing = end.landing
    return next((mark for mark in document.marks
                 if mark.kind == "band" and landing.hoop in mark.hoops and mark.side in ("both", landing.side)
                 and abs(mark.from_foot_in - landing.from_foot_in) < 0.01), None)


def _section_of(document: Document, end: End) -> str:
    """The part number of the section that an end's band sits on. A mark for both sides names the left one's alone."""
    held = next((joint.holds for joint in document.joints if joint.id == end.landing.joint), ())
    return next((member.part for member in document.members if member.role == "section" and member.id in held), "")


def _measure(corner: Corner, mark: Mark | None) -> str:
    """Which way one measures, from what."""
    if mark is None:
        return ""
    if mark.datum == "foot":
        return UP_FROM_FOOT
    if mark.datum == "ridge":
        return DOWN_FROM_RIDGE
    below = any(seam.side == corner.side and abs(seam.from_foot_in + mark.from_datum_in - mark.from_foot_in) < 0.02
                for seam in corner.scene.seams)
    return f"up from the {mark.datum}" if below else f"down from the {mark.datum}"


def end_words(corner: Corner, end: End) -> str:
    """What lands there: the piece with its letter, and which of its ends it is."""
    piece = end.piece
    words = f"{corner.scene.letters[piece.part]}, {piece.words}"
    if piece.zone == "tie":
        return words
    if end.index is None:
        return f"{words}, clamped as it passes"
    other = piece.landings[1 - end.index]
    return f"{words}: {'upper' if end.landing.from_foot_in > other.from_foot_in else 'lower'} end"


def spot_words(corner: Corner, spot: Spot) -> str:
    """What lands at a spot, in few words: one end, or the butted bands."""
    if len(spot.ends) == 1:
        return end_words(corner, spot.ends[0])
    letters = [corner.scene.letters[end.piece.part] for end in spot.ends]
    if len(set(letters)) == 1:
        return f"both pieces of {letters[0]}, bands butted"
    return f"{' and '.join(letters)}, bands butted"


def spot_figure(corner: Corner, spot: Spot) -> str:
    """Where the spot lies, from the foot, and whether it is set or follows."""
    landing = spot.ends[0].landing
    setting = "set here" if any(end.landing.set for end in spot.ends) else "follows"
    if len(spot.ends) > 1:
        return f"bands meet at {corner.scene.figure(spot.node_in)}, {setting}"
    butted = which(spot, spot.ends[0])
    return f"{f'{butted} band, ' if butted else ''}{corner.scene.figure(landing.from_foot_in)} from the foot, {setting}"
