"""Bands off their marks: what would have moved each one there."""

from __future__ import annotations

from structures.frame.document import Brace, Document, Tie
from structures.frame.measured.ends import Ends
from structures.frame.measured.tape import NOTHING_IN, Finding, LookAlike, Measured, alike, band_places
from structures.frame.said import Said, together

NEAR_IN = 1 / 4          # a look-alike's band lies this near to where the tape found one


def bands_off(document: Document, measured: Measured, more: tuple[LookAlike, ...] = ()) -> tuple[Finding, ...]:
    """Each measured band against its mark: as designed, a bay out by so much, or a look-alike's place."""
    known = band_places(document)
    return tuple(
        _band(document, *known[place], place, at, more) for place, at in sorted(measured.bands.items()) if place in known
    )


def _band(
    document: Document, piece: Brace | Tie, end: str, place: str, at: float, more: tuple[LookAlike, ...]
) -> Finding:
    ends = Ends.of(document, piece)
    landing = ends.landing(end)
    off = at - landing.from_foot_in
    values = {"code": landing.code, "at_in": at, "mark_in": landing.from_foot_in, "off_in": abs(off)}
    if abs(off) < NOTHING_IN:
        return Finding(place, 0.0, Said("The band at {code} sits on its mark, {mark_in} from the foot.", values))
    head = Said("The band at {code} sits {at_in} from the foot, {off_in} " + ("above" if off > 0 else "below")
                + " its mark at {mark_in}.", values)
    if landing.set:
        return Finding(place, off, together([head, _set(ends, end)], " "))
    return Finding(place, off, together([head, *_followed(document, ends, end, at, more)], " "))


def _set(ends: Ends, end: str) -> Said:
    """A band that is placed by its mark moves all that follows it."""
    other = ends.landing("to" if end == "from" else "from")
    return Said("It is set by its mark, and the piece's other end at {other} follows it: put this one right first.",
                {"other": other.code})


def _followed(document: Document, ends: Ends, end: str, at: float, more: tuple[LookAlike, ...]) -> list[Said]:
    """What puts a following band there: a bay out by so much, or a piece of another length."""
    piece = ends.piece
    place = {"s_from": at} if end == "from" else {"s_to": at}
    said = []
    wider = ends.wider_for(piece.length_in, **place)
    if wider is not None:
        a, b = sorted((ends.landing("from").hoop, ends.landing("to").hoop))
        clear = (b - a) * document.measures.spacing_in - document.measures.spacing_in + document.measures.clear_gap_in
        said.append(Said(
            "A piece {made_in} long puts it there if hoops {a} and {b} stand {wider_in} too " + ("far apart" if wider > 0
            else "near") + ": measure the gap between them, which would read {gap_in} instead of {clear_in}.",
            {"made_in": piece.length_in, "a": a, "b": b, "wider_in": abs(wider), "gap_in": clear + wider, "clear_in": clear}))
    for twin in _that_land_there(ends, end, at, alike(document, piece, more)):
        said.append(Said(
            "A {name} ({part}, {length_in}) puts it there as well: measure the piece from hole to hole, which would read "
            "{length_in} instead of {made_in}.",
            {"name": twin.name[:1].lower() + twin.name[1:], "part": twin.part, "length_in": twin.length_in, "made_in": piece.length_in}))
    return said


def _that_land_there(ends: Ends, end: str, at: float, twins: list[LookAlike]) -> list[LookAlike]:
    """The look-alikes whose band would lie near, the nearest first."""
    near = []
    for twin in twins:
        lands = ends.lands_at(end, twin.length_in)
        if lands is not None and abs(lands - at) <= NEAR_IN:
            near.append((abs(lands - at), twin.part, twin))
    return [twin for _, _, twin in sorted(near, key=lambda one: one[:2])]
