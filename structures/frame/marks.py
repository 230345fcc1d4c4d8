"""Marks: where every fitting goes, measured on the piece that it lies on, for groups of hoops with equal marks."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from structures.frame.build import Frame
from structures.frame.build.hoops import seam_places
from structures.frame.build.skin import strip_middle
from structures.frame.document import Mark

Key = tuple[str, str, str, float, str]     # station, kind, name, inches from the foot, option


@dataclass(frozen=True, slots=True)
class Piece:
    """The part of a hoop section that shows on one side: from, to, and what its two visible ends are called."""

    part: str
    low_in: float
    high_in: float
    low_name: str
    high_name: str


def make_marks(frame: Frame) -> tuple[Mark, ...]:
    """Every mark on the hoops, upward from the foot."""
    found: dict[Key, dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
    for joint in frame.joints:
        if joint.hoop is None or joint.from_foot_in is None or joint.kind == "screw":
            continue
        fitting = frame.family.fittings[joint.fitting]
        key = joint.station, joint.kind, fitting.name, round(joint.from_foot_in, 6), joint.option
        found[key][joint.side].append(joint.hoop)
    _strips(frame, found)
    _seams(frame, found)
    marks = [mark for key, sides in found.items() for mark in _of(frame, key, sides)]
    return tuple(sorted(marks, key=lambda mark: (mark.from_foot_in, mark.hoops, mark.code, mark.side)))


def _strips(frame: Frame, found: dict[Key, dict[str, list[int]]]) -> None:
    for strip in frame.family.strips:
        if strip.run == "sides" and strip.lies != "hanging" and frame.has(strip.option):
            s = round(strip_middle(frame, strip), 6)
            for side in ("left", "right"):
                found[strip.station, strip.code, strip.name, s, strip.option][side] = list(range(1, frame.hoops + 1))


def _seams(frame: Frame, found: dict[Key, dict[str, list[int]]]) -> None:
    for place in seam_places(frame):
        key = "seam", "seam", "seam", round(place.from_foot_in, 6), ""
        found[key][place.side] = list(range(1, frame.hoops + 1))


def _of(frame: Frame, key: Key, sides: dict[str, list[int]]) -> list[Mark]:
    """One mark for both sides where the hoops are the same ones and it is measured alike on both, else one for each: with a seam
    beside the ridge a mark may be nearer to the ridge on one side and to the seam on the other. `piece` is the left one's."""
    if "left" in sides and sides["left"] == sides.get("right"):
        left, right = (_mark(frame, key, "both", leg, sides[leg]) for leg in ("left", "right"))
        if (left.datum, round(left.from_datum_in, 6)) == (right.datum, round(right.from_datum_in, 6)):
            return [left]
    return [_mark(frame, key, side, side, hoops) for side, hoops in sides.items()]


def _mark(frame: Frame, key: Key, side: str, leg: str, hoops: list[int]) -> Mark:
    station, kind, name, s, option = key
    piece = _piece_at(frame, leg or "left", s)
    from_low, from_high = s - piece.low_in, piece.high_in - s
    datum, away = (piece.low_name, from_low) if from_low <= from_high else (piece.high_name, from_high)
    width = _width(frame, key)
    return Mark(tuple(dict.fromkeys(hoops)), side, station, kind, name, s, piece.part, datum, away,
                max(away - width / 2, 0.0) if away else 0.0, option)


def _width(frame: Frame, key: Key) -> float:
    _, kind, name, _, _ = key
    strips = (strip.wide_in for strip in frame.family.strips if (strip.code, strip.name) == (kind, name))
    return next(strips, 0.0) or next((f.width_in for f in frame.family.fittings.values() if (f.kind, f.name) == (kind, name)), 0.0)


def _piece_at(frame: Frame, side: str, s: float) -> Piece:
    """The section on which a mark lies and what of it shows on that side, net of the swage that is inside the next."""
    whole = 2 * frame.half_in
    end = frame.family.shape.tube_end_in
    marks = [end, *(place.total_in for place in seam_places(frame)), whole - end]
    total = whole - s if side == "right" else s
    index = next(i for i, high in enumerate(marks[1:]) if total <= high + 1e-9)
    part, low, high = frame.family.hoop.sections[index], marks[index], marks[index + 1]
    if side == "right":
        low, high = whole - high, whole - low
    low_name = "foot" if abs(low - end) < 1e-9 else "seam"
    high_name = "seam" if high < frame.half_in + 1e-9 else "ridge"
    return Piece(part, low, min(high, frame.half_in), low_name, high_name)
