"""What lies on the frame: channel and boards by the foot, film by the sheet, and their bays as places to look at."""

from __future__ import annotations

import math

from structures.frame.build.frame import LETTER, SIDES, Footage, Frame
from structures.frame.document import Panel
from structures.frame.family import FilmSheet, Strip
from structures.frame.said import Said


def build_skin(frame: Frame) -> None:
    """Put in the lengthwise stock and film that this configuration has."""
    for strip in frame.family.strips:
        if frame.has(strip.option):
            build = _side_strip if strip.run == "sides" else _end_strip
            build(frame, strip)
    for sheet in frame.family.film:
        if frame.has(sheet.option):
            _film(frame, sheet)


def _side_strip(frame: Frame, strip: Strip) -> None:
    s = frame.family.stations[strip.station].from_foot_in
    where = []
    for bay in range(1, frame.hoops):
        for side in SIDES:
            code = f"B{bay}{LETTER[side]}-{strip.station}"
            ident = frame.place(code, strip.code)
            where.append(ident)
            frame.panels.append(Panel(ident, code, strip.code, bay, None, side, "side", s, s, strip.option))
    words = Said("both sides, {length_in} each", {"length_in": frame.length_in})
    _footage(frame, strip, 2 * frame.length_in, words, tuple(where), [frame.length_in] * 2)


def _end_strip(frame: Frame, strip: Strip) -> None:
    where = []
    for end, hoop in ((1, 1), (2, frame.hoops)):
        code = frame.code(hoop, "", "ridge")
        ident = frame.place(code, strip.code)
        where.append(ident)
        frame.panels.append(Panel(ident, code, strip.code, None, end, "", "end", 0.0, frame.half_in, strip.option))
    around = 2 * frame.half_in
    words = Said("both end hoops, foot to foot, {around_in} each", {"around_in": around})
    _footage(frame, strip, 2 * around, words, tuple(where), [around] * 2)


def _footage(
    frame: Frame, strip: Strip, length: float, words: Said, where: tuple[str, ...], runs: list[float]
) -> None:
    """Fixings stand at both ends of each run and at least as close as the file says between."""
    count = 0
    if strip.fixing:
        count = sum(math.ceil(run / strip.fixing_every_in - 1e-9) + 1 for run in runs)
    frame.footages.append(Footage(strip.code, strip.part, length, strip.stock_in, strip.together or strip.code, words,
                                  where, strip.fixing, count, strip.option))


def _film(frame: Frame, sheet: FilmSheet) -> None:
    low = frame.family.stations[sheet.from_station].from_foot_in
    wide = 2 * (frame.half_in - low) + 2 * sheet.hold_in
    if wide > sheet.roll_width_in + 1e-9:
        frame.refuse("film-too-narrow", "Film {part} is {roll_in} wide but the sheet needs {wide_in} with its "
                     "hold-down: a roll of that width would do.", "family", part=sheet.part,
                     roll_in=sheet.roll_width_in, wide_in=wide)
        return
    hip = frame.family.stations.get("hip")
    split = max(low, hip.from_foot_in) if hip else low
    zones = [("side", low, split), ("roof", split, frame.half_in)] if split > low else [("roof", low, frame.half_in)]
    where = []
    for bay in range(1, frame.hoops):
        for side in SIDES:
            for zone, s_from, s_to in zones:
                code = f"B{bay}{LETTER[side]}-{zone}"
                ident = frame.place(code, "film")
                where.append(ident)
                frame.panels.append(Panel(ident, code, "film", bay, None, side, zone, s_from, s_to, sheet.option))
    long = frame.length_in + 2 * sheet.hold_end_in
    words = Said("{wide_in} over the frame with hold-down, {long_in} long, from a roll {roll_width_in} by {roll_length_in}",
                 {"wide_in": wide, "long_in": long, "roll_width_in": sheet.roll_width_in,
                  "roll_length_in": sheet.roll_length_in})
    rolls = math.ceil(long / sheet.roll_length_in - 1e-9)
    if rolls > 1:
        frame.warnings.append(Said("The {sheet} is made of {rolls} rolls, which meet on a hoop.",
                                   {"sheet": sheet.name, "rolls": rolls}))
    frame.footages.append(Footage(sheet.code, sheet.part, long, sheet.roll_length_in, sheet.code, words,
                                  tuple(where), option=sheet.option))
