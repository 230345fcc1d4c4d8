"""Purlins: the ridge run first, then pairs outward from it, the last stick of each run sawn to fit."""

from __future__ import annotations

from collections.abc import Iterator

from structures.frame.build.purlins import run_sides
from structures.frame.document import Cut, Joint, Member
from structures.frame.family import FittingSet, PurlinRun
from structures.frame.said import Said
from structures.frame.sequence import cautions
from structures.frame.sequence.act import Act, Site, Told
from structures.frame.sequence.hoops import standing
from structures.frame.sequence.skin import SAWN_IN
from structures.frame.sequence.words import counted, joints_said, parts_said


def run_acts(site: Site) -> Iterator[Act]:
    """Two acts for each run or pair: from the tag end to the last stick but one, then the last stick with the far end."""
    frame = site.frame
    runs = [run for run in frame.family.runs if frame.has(run.option)]
    ridge = [run for run in runs if run.station == "ridge"]
    sides = sorted((run for run in runs if run.station != "ridge"),
                   key=lambda run: -frame.family.stations[run.station].from_foot_in)
    before: tuple[str, ...] = (standing(site),)
    for run in [*ridge, *sides]:
        for act in _run(site, run, before):
            yield act
            before = (act.key,)


def _run(site: Site, run: PurlinRun, before: tuple[str, ...]) -> Iterator[Act]:
    lines = [_line(site, run, side) for side in run_sides(run)]
    stage = "ridge" if run.station == "ridge" else "side purlins"
    first, last = f"run {run.code}", f"run {run.code} last"
    yield Act(first, stage, lambda act: _tell_run(site, run, act), [piece for line in lines for piece in line[:-2]],
              after=before, puts_in=_name(run), order=_along)
    yield Act(last, stage, lambda act: _tell_last(site, run, act), [piece for line in lines for piece in line[-2:]],
              after=(first,), puts_in=_name(run), order=_along)


def _name(run: PurlinRun) -> str:
    return run.name if run.station == "ridge" else f"{run.name}s, left and right"


def _line(site: Site, run: PurlinRun, side: str) -> list[Member]:
    """The pieces of one line, from the tag end."""
    letter = {"left": "-L", "right": "-R", "": ""}[side]
    tail = f"{letter}-{run.code}"
    pieces = [piece for piece in site.frame.members
              if piece.role in ("end", "stick") and piece.from_.removeprefix("B").lstrip("0123456789") == tail]
    return sorted(pieces, key=lambda piece: piece.start[1])


def _along(joint: Joint) -> tuple[float, str]:
    """From the tag end, so that a slip joint's screw follows its stick and a connector comes with the stick it holds."""
    return joint.at[1], joint.side


def _tell_run(site: Site, run: PurlinRun, act: Act) -> Told:
    frame = site.frame
    count = sum(piece.role == "stick" for piece in act.pieces)
    values = {"run": _name(run), "parts": parts_said(frame.family, [piece.part for piece in act.pieces]),
              "spacing_in": frame.spacing_in, "joints": joints_said(frame.family, act.joints), "nuts": _nuts(site, act.joints)}
    point = "far" if run.swages_point == "away" else "tag"
    how = (f"then stick after stick with its swaged end to the {point} end, each slip joint with its screw at once and each "
           "connector with its stick. " if count else "the last stick goes in with the far end. ")
    first = f"The purlin end at the tag end first with its {counted(run.bands_per_end, 'band')}, "
    pair = "" if run.station == "ridge" else ", a stick left and the same stick right by turns"
    does = Said("Put up the {run}" + pair + ": {parts}. " + first + how + "Mark the run every {spacing_in} from the middle of hoop 1 "
                "and pull each hoop to its mark. Hardware: {joints}{nuts}.", values)
    return Told(does, _why(run), _cautions(act))


def _why(run: PurlinRun) -> Said:
    if run.station == "ridge":
        return Said("The ridge comes first: it sets every hoop plumb and to its spacing, and both sides are measured from it.")
    return Said("Left and right go along together, outward from the ridge, so that the hoops stay even; one side alone pulls them "
                "over.")


def _nuts(site: Site, joints: list[Joint]) -> str:
    bolted = [fitting for fitting in _fittings(site, joints) if fitting.nut != "none"]
    below = bool(bolted) and all(fitting.nut == "below" for fitting in bolted)
    return "; all nuts down, all bolts of the run one way, so that nothing is hung from them" if below else ""


def _fittings(site: Site, joints: list[Joint]) -> list[FittingSet]:
    return [site.frame.family.fittings[code] for code in dict.fromkeys(joint.fitting for joint in joints)]


def _cautions(act: Act) -> tuple[Said, ...]:
    return (*cautions.high(act.joints), cautions.OVERHEAD)


def _cut(site: Site, run: PurlinRun) -> Cut:
    """How the last stick of this run is cut; left and right are alike."""
    names = (run.code, f"L-{run.code}")
    return next(cut for cut in site.frame.cuts if cut.run in names)


def _tell_last(site: Site, run: PurlinRun, act: Act) -> Told:
    cut = _cut(site, run)
    values = {"run": _name(run), "saw": cut.saw_end, "cut_in": cut.cut_length_in, "offcut_in": cut.offcut_in,
              "joints": joints_said(site.frame.family, act.joints), "nuts": _nuts(site, act.joints),
              "parts": parts_said(site.frame.family, [piece.part for piece in act.pieces])}
    sawn = cut.offcut_in > SAWN_IN
    saw = ("saw it at its {saw} end (computed {cut_in}, leaving {offcut_in}; what you measure on the frame counts), " if sawn else
           "it should go in whole, ")
    begin = "Try" if run.station == "ridge" else "On each side try"
    does = Said("Close the {run}: {parts}. " + begin + " the far purlin end on at the last hoop, measure the last stick against it, " +
                saw + "join the two with their screw on the ground and put them up as one. Hardware: {joints}{nuts}.", values)
    why = Said("What is left of the spacing's errors comes together here, so the last stick is measured and not cut beforehand.")
    return Told(does, why, (*((cautions.SAW,) if sawn else ()), *_cautions(act), cautions.WONT_MEET))
