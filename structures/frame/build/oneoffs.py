"""The maker's one-off changes to one order: a piece left out, added or moved, flowing into kit, marks and drawing."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass

from structures.frame.build import braces as brace_builder
from structures.frame.build import ties as tie_builder
from structures.frame.build.frame import Frame
from structures.frame.build.webs import take_webs
from structures.frame.document import Brace, Tie
from structures.frame.family import Chain, OneOff, Part, TieSet

_STATION = re.compile(r"^H(?P<hoop>\d+)(?:-(?P<side>[LR]))?(?:-(?P<station>[a-z-]+))?$")
_SIDE = {"L": "left", "R": "right", None: ""}


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on a hoop that a one-off names."""

    hoop: int
    side: str
    station: str


def apply_one_offs(frame: Frame) -> None:
    """Apply every one-off in the order in which it was signed."""
    acts = {"leave out": _leave_out, "add": _add, "move": _move}
    for one_off in frame.configuration.one_offs:
        act = acts.get(one_off.act)
        if act is None:
            frame.refuse("one-off-act", "One-off {act!r} is not known: leave out, add or move would do.", "one_offs",
                         act=one_off.act)
        else:
            act(frame, one_off)


def _leave_out(frame: Frame, one_off: OneOff) -> None:
    piece = _find(frame, one_off.target)
    if piece is not None:
        _take_out(frame, piece)
        return
    joint = next((joint for joint in frame.joints if joint.id == one_off.target), None)
    if joint is not None:
        frame.joints.remove(joint)
        frame.release(joint.id)
    else:
        _unknown(frame, one_off.target, [joint.id for joint in frame.joints])


def _add(frame: Frame, one_off: OneOff) -> None:
    part = frame.family.parts.get(one_off.part)
    if part is None:
        frame.refuse("one-off-part", "Part {part!r} is not in {family}: name one of its brace or tie parts.", "one_offs",
                     part=one_off.part, family=frame.family.code)
        return
    ties = next((ties for ties in frame.family.ties if ties.role == part.role), None)
    chain = next((chain for chain in frame.family.chains if part.role in chain.roles), None)
    if ties:
        _add_tie(frame, ties, part, one_off.target)
    elif chain:
        _add_brace(frame, chain, part, one_off.target, one_off.target_2)
    else:
        frame.refuse("one-off-part", "Part {part} is neither a brace nor a tie: only those can be added to one order.",
                     "one_offs", part=part.number)


def _move(frame: Frame, one_off: OneOff) -> None:
    piece = _find(frame, one_off.target)
    if piece is None:
        _unknown(frame, one_off.target, [])
    elif isinstance(piece, Tie) and not one_off.target_2:
        # Its made length fixes its height on a hoop, so it can go to another hoop and nowhere else.
        frame.refuse("one-off-tie", "Tie {piece} keeps its made length and so its height: name the hoop it goes to, as in "
                     "H{hoop}.", "one_offs", piece=piece.id, hoop=_another_hoop(frame, piece))
    elif isinstance(piece, Tie):
        ties = next(ties for ties in frame.family.ties if ties.role == piece.role and ties.option == piece.option)
        _take_out(frame, piece)
        _add_tie(frame, ties, frame.part(piece.part), one_off.target_2)
    else:
        _move_brace(frame, piece, one_off.by_in)


def _another_hoop(frame: Frame, tie: Tie) -> int:
    """The nearest hoop that bears no tie; the tie's own when every one bears one."""
    taken = {other.landing_from.hoop for other in frame.ties}
    free = [hoop for hoop in range(2, frame.hoops) if hoop not in taken]
    return min(free, key=lambda hoop: abs(hoop - tie.landing_from.hoop), default=tie.landing_from.hoop)


def _find(frame: Frame, target: str) -> Brace | Tie | None:
    pieces: Iterable[Brace | Tie] = [*frame.braces, *frame.ties]
    return next((piece for piece in pieces if piece.id == target), None)


def _take_out(frame: Frame, piece: Brace | Tie) -> None:
    joints = {piece.landing_from.joint, piece.landing_to.joint}
    if isinstance(piece, Brace):
        joints |= {landing.joint for landing in piece.passes}
        frame.braces.remove(piece)
    else:
        take_webs(frame, piece)
        frame.ties.remove(piece)
    frame.joints[:] = [joint for joint in frame.joints if joint.id not in joints]
    for ident in sorted((piece.id, *joints), reverse=True):
        frame.release(ident)


def _add_tie(frame: Frame, ties: TieSet, part: Part, target: str) -> None:
    spot = _spot(frame, target, needs_station=False)
    s = tie_builder.place_tie(frame, ties, part) if spot else None
    if spot and s is not None:
        tie_builder.put_in(frame, ties, part, spot.hoop, s)


def _add_brace(frame: Frame, chain: Chain, part: Part, start: str, end: str) -> None:
    a, b = _spot(frame, start), _spot(frame, end)
    if a is None or b is None:
        return
    if a.side != b.side or a.hoop == b.hoop:
        frame.refuse("one-off-across", "A brace from {start} to {end} stays on no one side between two hoops: name two "
                     "hoops and one side.", "one_offs", start=start, end=end)
        return
    brace_builder.put_alone(frame, chain, part, (a.hoop, a.station), (b.hoop, b.station), a.side)


def _move_brace(frame: Frame, brace: Brace, by_in: float) -> None:
    """Slide a piece along its hoops: its set end by the stated distance, the other follows its made length."""
    chain = next(chain for chain in frame.family.chains if chain.code == brace.chain)
    _take_out(frame, brace)
    ends = [(landing.hoop, landing.station, landing.from_foot_in + by_in)
            for landing in (brace.landing_from, brace.landing_to)]
    brace_builder.put_moved(frame, chain, brace, ends[0], ends[1])


def _spot(frame: Frame, target: str, *, needs_station: bool = True) -> Spot | None:
    found = _STATION.match(target)
    if not found or not 1 <= int(found["hoop"]) <= frame.hoops:
        frame.refuse("one-off-place", "{target!r} is no place on this structure: hoops count from H1 to H{hoops}, as in "
                     "H3-L-mid.", "one_offs", target=target, hoops=frame.hoops)
        return None
    spot = Spot(int(found["hoop"]), _SIDE[found["side"]], found["station"] or "")
    if needs_station and (not spot.side or spot.station not in frame.family.stations):
        frame.refuse("one-off-place", "{target!r} names no station of {family}: {choices} would do.", "one_offs",
                     target=target, family=frame.family.code,
                     choices=", ".join(f"H{spot.hoop}-L-{name}" for name in frame.family.stations))
        return None
    return spot


def _unknown(frame: Frame, target: str, more: list[str]) -> None:
    known = [*(brace.id for brace in frame.braces), *(tie.id for tie in frame.ties), *more]
    near = difflib.get_close_matches(target, known, n=1)
    frame.refuse("one-off-target", "No piece {target!r} is on this structure: {would}", "one_offs", target=target,
                 would=f"did you mean {near[0]}?" if near else "name one by its place, as in B1-L-side:brace:1.")
