"""What lies on the frame: boards, channel, tape, film and roll-up pipes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial

from structures.frame.build.skin import strip_middle
from structures.frame.document import Piece
from structures.frame.family import FilmSheet, Strip
from structures.frame.said import Said, together
from structures.frame.sequence import cautions
from structures.frame.sequence.act import Act, Site, Told
from structures.frame.sequence.words import bolt_said, joints_said, parts_said

SAWN_IN = 1 / 16     # a last stick nearer to a whole one than this is not sawn
BOARDS, CHANNEL, ROLL = "boards", "channel", "roll-up"


def skin_acts(site: Site) -> Iterator[Act]:
    """One act for each strip, low ones first, then tape and film."""
    frame = site.frame
    strips = [strip for strip in frame.family.strips if frame.has(strip.option)]
    strips.sort(key=lambda strip: frame.family.stations[strip.station].from_foot_in if strip.station else frame.half_in)
    for strip in strips:
        yield _strip(site, strip)
    # Of two films the inner one lies on the frame and goes on first.
    sheets = sorted((sheet for sheet in frame.family.film if frame.has(sheet.option)), key=lambda sheet: "inner" not in sheet.name)
    if sheets:
        yield Act("tape", "channel", lambda act: _tape(site), after=("tighten", f"stage:{BOARDS}", "like:strip channel"))
    before: tuple[str, ...] = ()
    for sheet in sheets:
        yield Act(f"film {sheet.code}", "film", partial(_film, site, sheet),
                  after=("tighten", "tape", f"stage:{CHANNEL}", f"stage:{BOARDS}", "stage:end walls", "stage:anchors", *before),
                  puts_in=sheet.name)
        before = (f"film {sheet.code}",)


def _stage(site: Site, strip: Strip) -> str:
    role = strip.role or site.frame.part(strip.part).role
    if role == "board":
        return BOARDS
    if "roll" in role or "roll" in strip.code:
        return ROLL
    return CHANNEL if strip.code.startswith("channel") or role == "channel" else "fittings"


def _strip(site: Site, strip: Strip) -> Act:
    """A strip laid stick by stick has its sticks in the frame; else it is footage."""
    stage = _stage(site, strip)
    words = {f"-{strip.station}", f"-{strip.code}"} if strip.splice else set()
    pieces: list[Piece] = [piece for piece in site.frame.members if piece.part == strip.part and piece.role == strip.role
                           and any(piece.from_.endswith(word) for word in words)]
    after = ("tighten", "stage:film") if stage == ROLL else ("tighten", f"like:strip {strip.on} ") if strip.on else ("tighten",)
    return Act(f"strip {strip.code} {strip.run} {strip.station}", stage, lambda act: _tell_strip(site, strip, act), pieces, [],
               after=after, puts_in=strip.name)


def _tell_strip(site: Site, strip: Strip, act: Act) -> Told:
    frame = site.frame
    if strip.run == "sides":
        run = Said("along both sides, {length_in} each, with its line at {up_in} up the tube",
                   {"length_in": frame.length_in, "up_in": strip_middle(frame, strip)})
    else:
        run = Said("round both end hoops from foot to foot, {around_in} each", {"around_in": 2 * frame.half_in})
    head = Said("Fix the {name} {parts}", {"name": strip.name, "parts": _parts(site, strip, act)})
    said = [together([head, run], " ")]
    cut = last_cut(site, act.pieces)
    if cut is not None:
        said.append(Said("the last stick of each side sawn to {cut_in}", {"cut_in": cut}))
    joints = joints_said(frame.family, act.joints)
    if joints:
        said.append(Said("joined with {joints}", {"joints": joints}))
    if strip.fixing:
        said.append(_fixing(site, strip))
    does = together(said, ", ")
    high = site.frame.profile.peak_in if strip.run != "sides" else 0.0
    saw = (cautions.SAW,) if cut is not None and frame.part(strip.part).tube else ()
    return Told(Said(does.template + ".", does.values), _why(act.stage), (*saw, *cautions.at_height(high)))


def last_cut(site: Site, pieces: Iterable[Piece]) -> float | None:
    """How long the last stick of each line is sawn; None where whole sticks fill it, or where nothing is laid by sticks."""
    short = [piece.length_in for piece in pieces if piece.length_in < (site.frame.part(piece.part).length_in or 0.0) - SAWN_IN]
    return min(short, default=None)


def _parts(site: Site, strip: Strip, act: Act) -> str:
    if act.pieces:
        return f"({parts_said(site.frame.family, [piece.part for piece in act.pieces])})"
    return f"({strip.part})"


def _fixing(site: Site, strip: Strip) -> Said:
    fitting = site.frame.family.fittings[strip.fixing]
    bolt = bolt_said(fitting, [site.frame.part(number) for number, _ in fitting.parts])
    return Said("a {name} at least every {every_in}{bolt}",
                {"name": fitting.name, "every_in": strip.fixing_every_in, "bolt": f" ({bolt})" if bolt else ""})


def _why(stage: str) -> Said:
    return Said({
        BOARDS: "The frame is tight, so boards are cut to where it stands.",
        CHANNEL: "Everything that the film is held by is on before the film is opened.",
        ROLL: "The film hangs, and its free edges are clipped to the pipe.",
        "fittings": "The frame stands tight, so what they are fixed to stays where it is.",
    }[stage])


def _tape(site: Site) -> Told:
    return Told(
        Said("Tape every joint, screw head and cut edge that the film will touch. Look along each hoop: nothing may stand proud of "
             "its outside line."),
        Said("What stands proud saws through the film."), cautions.at_height(site.frame.profile.peak_in),
    )


def _film(site: Site, sheet: FilmSheet, act: Act) -> Told:
    return Told(
        Said("On a windless day pull the {name} ({part}) over from one side with ropes. Lock one side, then the other, then the ends. "
             "It hangs {hold_in} over at each edge and {hold_end_in} at each end.",
             {"name": sheet.name, "part": sheet.part, "hold_in": sheet.hold_in, "hold_end_in": sheet.hold_end_in}),
        Said("The frame is braced and tight and the channel is on, so the film can be locked at once."),
        (cautions.NO_FILM, *cautions.at_height(site.frame.profile.peak_in)),
    )
