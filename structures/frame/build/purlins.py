"""Purlin runs: near end fitting, sticks, the cut last stick, far end fitting, connectors and slip joints."""

from __future__ import annotations

import itertools
import math

from structures.frame.build.frame import LETTER, SIDES, Frame
from structures.frame.build.sticks import bay_of
from structures.frame.document import Cut, Joint, Member
from structures.frame.family import PurlinRun
from structures.frame.said import Said


def run_sides(run: PurlinRun) -> tuple[str, ...]:
    """The sides that a run stands on: none at the ridge, else left and right."""
    return ("",) if run.station == "ridge" else SIDES


def purlin_axis(frame: Frame, run: PurlinRun) -> tuple[float, float]:
    """(u, z) of the run's axis: it lies under the hoops, tube touching tube.

    At a ridge that is a bend it touches both legs, (R + r) / cos(pitch) below the peak.
    """
    under = frame.hoop_radius_in + frame.family.tubes[frame.part(run.stick).tube].radius_in
    if run.station == "ridge":
        return 0.0, frame.profile.peak_in - under / math.sin(frame.profile.heading(frame.half_in))
    s = frame.family.stations[run.station].from_foot_in
    (u, z), (nu, nz) = frame.profile.point(s), frame.profile.normal(s)
    return u - under * nu, z - under * nz


def slip_mouths(run: PurlinRun, length_in: float) -> list[float]:
    """Where the run's slip joints are, from hoop 1: each measured to the mouth of the plain end."""
    lay = run.stick_in - run.swage_in
    sticks = math.ceil((length_in - 2 * run.end_lay_in) / lay - 1e-9)
    return [run.end_lay_in + lay * i for i in range(sticks)] + [length_in - run.end_lay_in]


def build_purlins(frame: Frame) -> None:
    """Put in every run that this configuration has."""
    for run in frame.family.runs:
        if frame.has(run.option):
            for side in run_sides(run):
                _run(frame, run, side)
            _warn_of_joints(frame, run)
            _refuse_short(frame, run)


def _run(frame: Frame, run: PurlinRun, side: str) -> None:
    mouths = slip_mouths(run, frame.length_in)
    u, z = purlin_axis(frame, run)
    x = -u if side == "left" else u
    marks = [0.0, *mouths, frame.length_in]
    ids = []
    for index, (low, high) in enumerate(itertools.pairwise(marks)):
        first, last = index == 0, index == len(marks) - 2
        number = run.near_end if first else run.far_end if last else run.stick
        ids.append(_stick(frame, run, side, number, "end" if first or last else "stick", (x, z), low, high))
    _joints(frame, run, side, mouths, ids, (x, z))
    _cut(frame, run, side, mouths)


def _stick(
    frame: Frame, run: PurlinRun, side: str, number: str, role: str, xz: tuple[float, float], low: float, high: float
) -> str:
    part = frame.part(number)
    letter = LETTER[side]
    code = f"B{bay_of(frame, low)}{letter}-{run.code}"
    ident = frame.place(code, role)
    length = high - low if role == "end" else _stick_length(frame, run, high - low, high)
    x, z = xz
    frame.members.append(Member(
        ident, role, number, code, f"B{bay_of(frame, high, ends_there=True)}{letter}-{run.code}", length, (x, low, z), (x, high, z),
        frame.family.tubes[part.tube].radius_in, run.option, None, None, None,
    ))
    return ident


def _stick_length(frame: Frame, run: PurlinRun, lay: float, high: float) -> float:
    """A whole stick keeps its swage; the last one is sawn to fit."""
    if high < frame.length_in - run.end_lay_in - 1e-9:
        return run.stick_in
    return lay if run.saw_end == "swaged" else lay + run.swage_in


def _joints(
    frame: Frame, run: PurlinRun, side: str, mouths: list[float], ids: list[str], xz: tuple[float, float]
) -> None:
    s = frame.half_in if side == "" else frame.family.stations[run.station].from_foot_in
    _end_bands(frame, run, side, s, 1, ids[0])
    _end_bands(frame, run, side, s, frame.hoops, ids[-1])
    held = 0
    for hoop in range(2, frame.hoops):
        y = frame.y(hoop)
        while held < len(mouths) and mouths[held] <= y + 1e-9:
            held += 1
        frame.join(run.connector, hoop, side, run.code, s, (ids[held], section_at(frame, hoop, side, s)), run.option)
    kind = frame.family.fittings[run.slip].kind
    for index, mouth in enumerate(mouths):
        code = f"B{bay_of(frame, mouth)}{LETTER[side]}-{run.code}"
        frame.joints.append(Joint(
            frame.place(code, "slip"), code, kind, run.slip, (xz[0], mouth, xz[1]), None, side, run.code, None,
            (ids[index], ids[index + 1]), run.option,
        ))


def _end_bands(frame: Frame, run: PurlinRun, side: str, s: float, hoop: int, piece: str) -> None:
    """The purlin end's two bands: one each side of a ridge, else butted each side of the run's mark."""
    width = frame.family.fittings[run.end_bands].width_in
    if side == "":
        gap = max(run.band_gap_in, width / 2)
        for leg in SIDES:
            at = frame.half_in - gap
            kind = frame.family.fittings[run.end_bands].kind
            code = frame.code(hoop, "", run.code)
            holds = (piece, section_at(frame, hoop, leg, at))
            frame.joints.append(Joint(frame.place(code, kind), code, kind, run.end_bands,
                                      frame.point(leg, at, frame.y(hoop)), hoop, leg, run.code, at, holds, run.option))
        return
    for step in (-0.5, 0.5):
        at = s + step * width
        frame.join(run.end_bands, hoop, side, run.code, at, (piece, section_at(frame, hoop, side, at)), run.option)


def section_at(frame: Frame, hoop: int, side: str, s: float) -> str:
    """The id of the hoop section that s lies on."""
    total = 2 * frame.half_in - s if side == "right" else s
    index = 0
    per_hoop = len(frame.family.hoop.sections)
    for index in range(per_hoop):
        member = frame.members[(hoop - 1) * per_hoop + index]
        if member.s_to_in is None or total <= member.s_to_in:
            break
    return frame.members[(hoop - 1) * per_hoop + index].id


def _cut(frame: Frame, run: PurlinRun, side: str, mouths: list[float]) -> None:
    sticks = len(mouths) - 1
    lay = mouths[-1] - mouths[-2]
    cut = lay if run.saw_end == "swaged" else lay + run.swage_in
    name = f"{side[0].upper()}-{run.code}" if side else run.code
    frame.cuts.append(Cut(name, run.stick, sticks, run.stick_in, cut, lay, run.saw_end, run.stick_in - cut,
                          tuple(mouths)))


def _warn_of_joints(frame: Frame, run: PurlinRun) -> None:
    for mouth in slip_mouths(run, frame.length_in):
        hoop = min(max(round(mouth / frame.spacing_in) + 1, 2), frame.hoops - 1)
        gap = abs(mouth - frame.y(hoop))
        if frame.hoops > 2 and gap < run.joint_clear_in - 1e-6:
            frame.warnings.append(Said(
                "The {run} has a slip joint {gap_in} from its connector on hoop {hoop}, nearer than {clear_in}.",
                {"run": run.name, "gap_in": gap, "hoop": hoop, "clear_in": run.joint_clear_in},
            ))


def last_lay(run: PurlinRun, length_in: float) -> float:
    """What the last stick of a run covers, from mouth to mouth."""
    mouths = slip_mouths(run, length_in)
    return mouths[-1] - mouths[-2] if len(mouths) > 1 else 0.0


def joints_take(run: PurlinRun) -> float:
    """How much of the last stick's lay the swages take that go into it: the one before it, and the far end's."""
    before = run.swage_in if run.swages_point == "away" else 0.0
    return before + (run.swage_in if run.far_swaged else 0.0)


def _refuse_short(frame: Frame, run: PurlinRun) -> None:
    """Refuse a last stick that has no room for the swages of its joints, with the nearest lengths that leave it some."""
    lay, takes = last_lay(run, frame.length_in), joints_take(run)
    if lay >= takes - 1e-6:
        return
    bays = frame.hoops - 1
    would = [count * frame.spacing_in for count in (_nearest(frame, run, bays, -1), _nearest(frame, run, bays, 1)) if count]
    frame.refuse("stick-short", "The last stick of the {run} would lie {lay_in} between its joints, and their swages take "
                 "{takes_in}: a length of {would_in} would do.", "length", run=run.name, lay_in=lay, takes_in=takes,
                 would_in=would)


def _nearest(frame: Frame, run: PurlinRun, bays: int, step: int) -> int:
    """The nearest number of bays, going by `step`, whose last stick is long enough; 0 where there is none on offer."""
    family = frame.family
    low, high = (math.floor(inches / frame.spacing_in + 1e-9) for inches in (family.shortest_in, family.longest_in))
    for count in range(bays + step, low - 1 if step < 0 else high + 1, step):
        if count > 0 and last_lay(run, count * frame.spacing_in) >= joints_take(run) - 1e-6:
            return count
    return 0
