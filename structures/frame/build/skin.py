"""What lies on the frame: channel and boards by the foot or stick by stick, film by the sheet, and their bays as places."""

from __future__ import annotations

import itertools
import math

from structures.frame.build.frame import LETTER, SIDES, Footage, Frame
from structures.frame.build.sticks import Line, lay
from structures.frame.document import Bar, Panel
from structures.frame.family import FilmSheet, Strip
from structures.frame.said import Said

CHORD_IN = 0.05      # channel bent over a hoop is told as straight bars that leave its curve by no more


def build_skin(frame: Frame) -> None:
    """Put in the lengthwise stock and film that this configuration has."""
    for strip in frame.family.strips:
        if frame.has(strip.option):
            build = _side_strip if strip.run == "sides" else _end_strip
            build(frame, strip)
    for sheet in frame.family.film:
        if frame.has(sheet.option):
            _film(frame, sheet)


def strip_middle(frame: Frame, strip: Strip) -> float:
    """How far up the tube the middle of a strip along the sides lies: at the foot a base may raise it."""
    station = frame.family.stations[strip.station].from_foot_in
    middle = station if strip.middle_in is None else strip.middle_in
    up = frame.base.boards_up_in if frame.base is not None and strip.station == "foot" else 0.0
    return middle + up


def _side_strip(frame: Frame, strip: Strip) -> None:
    s = strip_middle(frame, strip)
    where = []
    # What hangs in the film is held by no hoop, so it is looked at stick by stick and not bay by bay.
    for bay in range(1, frame.hoops) if strip.lies != "hanging" else ():
        for side in SIDES:
            code = f"B{bay}{LETTER[side]}-{strip.station}"
            ident = frame.place(code, strip.code)
            where.append(ident)
            frame.panels.append(Panel(ident, code, strip.code, bay, None, side, "side", s, s, strip.option))
    for side in SIDES:
        _bar(frame, strip, side, s)
        if strip.splice:
            _sticks(frame, strip, side, s)
    words = Said("both sides, {length_in} each", {"length_in": frame.length_in})
    _footage(frame, strip, 2 * frame.length_in, words, tuple(where), [frame.length_in] * 2)


def _inward(frame: Frame, strip: Strip) -> float:
    """How far inward of the hoop's axis the middle of a strip's thickness lies; outside it is negative."""
    under = next((other.thick_in for other in frame.family.strips if strip.on and other.code == strip.on
                  and frame.has(other.option)), 0.0)
    away = frame.hoop_radius_in + under + strip.thick_in / 2
    return away if strip.lies == "inside" else -away


def _bar(frame: Frame, strip: Strip, side: str, s: float) -> None:
    if not strip.wide_in:
        return
    x, _, z = frame.point(side, s, 0.0, _inward(frame, strip))
    tu, tz = frame.profile.tangent(s)
    frame.bars.append(Bar(f"{side[0].upper()}-{strip.station}:{strip.code}", strip.code, strip.name, side, x, z,
                          -tu if side == "left" else tu, tz, strip.wide_in, strip.thick_in, 0.0, frame.length_in))


def _sticks(frame: Frame, strip: Strip, side: str, s: float) -> None:
    x, _, z = frame.point(side, s, 0.0, _inward(frame, strip))
    tube = frame.part(strip.part).tube
    radius = frame.family.tubes[tube].radius_in if tube else strip.thick_in / 2
    lay(frame, Line(strip.station, strip.name, strip.role, strip.part, strip.stock_in, strip.splice, strip.option, side, x, z,
                    radius, 0.0, frame.length_in))


def _end_strip(frame: Frame, strip: Strip) -> None:
    where = []
    for end, hoop in ((1, 1), (2, frame.hoops)):
        code = frame.code(hoop, "", "ridge")
        ident = frame.place(code, strip.code)
        where.append(ident)
        frame.panels.append(Panel(ident, code, strip.code, None, end, "", "end", 0.0, frame.half_in, strip.option))
        for side in SIDES:
            _bent(frame, strip, hoop, side)
    around = 2 * frame.half_in
    words = Said("both end hoops, foot to foot, {around_in} each", {"around_in": around})
    _footage(frame, strip, 2 * around, words, tuple(where), [around] * 2)


def _bent(frame: Frame, strip: Strip, hoop: int, side: str) -> None:
    """Channel bent over an end hoop, as straight bars across it: `wide_in` of each lies along the hoop."""
    if not strip.wide_in:
        return
    away, y = _inward(frame, strip), frame.y(hoop)
    marks = frame.profile.stops(0.0, frame.half_in, CHORD_IN)
    for number, (low, high) in enumerate(itertools.pairwise(marks), start=1):
        (x0, _, z0), (x1, _, z1) = frame.point(side, low, y, away), frame.point(side, high, y, away)
        chord = math.hypot(x1 - x0, z1 - z0)
        frame.bars.append(Bar(f"H{hoop}{LETTER[side]}-{number}:{strip.code}", strip.code, strip.name, side, (x0 + x1) / 2,
                              (z0 + z1) / 2, (x1 - x0) / chord, (z1 - z0) / chord, chord, strip.thick_in,
                              y - strip.wide_in / 2, y + strip.wide_in / 2))


def _footage(
    frame: Frame, strip: Strip, length: float, words: Said, where: tuple[str, ...], runs: list[float]
) -> None:
    """Fixings stand at both ends of each run and at least as close as the file says between."""
    count = 0
    if strip.fixing:
        count = sum(math.ceil(run / strip.fixing_every_in - 1e-9) + 1 for run in runs)
    frame.footages.append(Footage(strip.code, strip.part, length, strip.stock_in, strip.together or strip.code, words,
                                  where, strip.fixing, count, strip.option, bool(strip.splice)))


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
