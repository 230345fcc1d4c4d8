"""Things wrong and places that could not be seen, on a whole view: rings at the places, numbered flags in clear space."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from structures.frame.document import Point

from . import pencils
from .scene import Scene
from .sheet import XY, Box, Sheet, text_box

# several places share a spot: the one that asks for most is shown
RANK = ("stop", "mend", "fault", "again", "unseen", "not", "well")
CLASS_OF = {"fault": "mend", "stop": "stop", "mend": "mend", "again": "again"}
_ANGLES = [math.radians(a) for a in (-35, -145, 35, 145, -60, -120, -10, 170, 60, 120)]


@dataclass(frozen=True, slots=True)
class Wrong:
    """One spot with something wrong: its code, class and place on the sheet."""

    code: str
    word: str
    at: XY


def wrong_spots(scene: Scene, project: Callable[[Point], XY], shown: Callable[[str, Point], bool]) -> list[Wrong]:
    """The spots of the faults that were asked for, one for each code, in the order of their codes."""
    found: dict[str, Wrong] = {}
    for place, word in scene.asked.faults.items():
        code, point = place.partition(":")[0], scene.point_of(place)
        if point is None or not shown(code, point):
            continue
        if code not in found or RANK.index(word) < RANK.index(found[code].word):
            found[code] = Wrong(code, word, project(point))
    return [found[code] for code in sorted(found)]


def draw_unseen(sheet: Sheet, scene: Scene, project: Callable[[Point], XY], shown: Callable[[str, Point], bool]) -> None:
    """A hatched ring at every place that could not be seen; one for each code."""
    codes = set()
    for place in sorted(scene.asked.unseen):
        code, point = place.partition(":")[0], scene.point_of(place)
        if point is not None and code not in codes and shown(code, point):
            codes.add(code)
            at = project(point)
            sheet.circle("chk-unseen", at, 4.8)
            pencils.hatched(sheet, at)


def draw_flags(sheet: Sheet, spots: Sequence[Wrong], *, words: bool) -> None:
    """A ring at each spot and its numbered flag beside it, its code too where there is room; leaders do not cross."""
    for spot in spots:
        sheet.circle("again-ring" if spot.word == "again" else "fault-ring", spot.at, 8)
    for number, spot in enumerate(spots, 1):
        kind = CLASS_OF[spot.word]
        place = _place(sheet, spot, words)
        if place is None:
            continue
        at, label = place
        start = pencils.toward(spot.at, at, 8)
        end = pencils.toward(at, spot.at, 12)
        sheet.line("lead" if kind == "again" else "lead-red", start, end)
        pencils.flag(sheet, at, number, kind)
        if label:
            side = 1 if at[0] >= spot.at[0] else -1
            sheet.text((at[0] + 18 * side, at[1] + 5), spot.code, size=13, kind="" if kind == "again" else "red",
                       anchor="start" if side > 0 else "end")


def _place(sheet: Sheet, spot: Wrong, words: bool) -> tuple[XY, bool] | None:
    """The nearest clear place for a flag, with its code if that fits as well."""
    for label in (True, False) if words else (False,):
        for reach in (32, 46, 62, 84, 110, 140):
            for angle in _ANGLES:
                at = (spot.at[0] + reach * math.cos(angle), spot.at[1] + reach * math.sin(angle))
                box = Box(at[0] - 15, at[1] - 15, at[0] + 15, at[1] + 15)
                right = at[0] >= spot.at[0]
                code = text_box(at[0] + (18 if right else -18), at[1] + 5, spot.code, 13, "start" if right else "end")
                if not sheet.free(box, 2) or (label and not sheet.free(code, 3)):
                    continue
                if not any(pencils.crossing(spot.at, at, line[:2], line[2:]) for line in sheet.leaders) and not any(
                        other.crossed_by(*pencils.toward(spot.at, at, 9), *at) for other in sheet.boxes):
                    return at, label
    return None
