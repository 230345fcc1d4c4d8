"""What the hoops stand on where it is no driven posts: a runner along each side, dragged or rolled."""

from __future__ import annotations

from structures.frame.build.frame import SIDES, Frame
from structures.frame.build.sticks import Line, ends_of, lay
from structures.frame.document import Brace, Landing, Tie
from structures.frame.family import Base
from structures.frame.said import Said


def build_base(frame: Frame) -> None:
    """Put in the runners, their splices and what holds each hoop's foot to them."""
    base = frame.base
    if base is not None and base.runner:
        for side in SIDES:
            _runner(frame, base, side)
        _warn_of_splices(frame, base)


def _runner(frame: Frame, base: Base, side: str) -> None:
    """The hoop's foot stands on the runner, so its axis lies its own radius below the tube's end."""
    radius = frame.family.tubes[frame.part(base.runner).tube].radius_in
    end = frame.family.shape.tube_end_in
    x, _, z = frame.point(side, end, 0.0)
    sticks = lay(frame, Line("runner", "runner", "runner", base.runner, base.runner_stock_in, base.splice, "", side, x, z - radius,
                             radius, -base.past_in, frame.length_in + base.past_in))
    at = 0
    for hoop in range(1, frame.hoops + 1):
        while sticks[at].end[1] < frame.y(hoop) - 1e-9:
            at += 1
        holds = (f"{frame.code(hoop, side, 'foot')}:section:1", sticks[at].id)
        frame.join(base.foot, hoop, side, "foot", end + frame.family.fittings[base.foot].width_in / 2, holds)


def _warn_of_splices(frame: Frame, base: Base) -> None:
    for mark in ends_of(-base.past_in, frame.length_in + base.past_in, base.runner_stock_in)[1:-1]:
        hoop = min(max(round(mark / frame.spacing_in) + 1, 1), frame.hoops)
        gap = abs(mark - frame.y(hoop))
        if gap < base.splice_clear_in - 1e-6:
            frame.warnings.append(Said(
                "The runner has a splice {gap_in} from the foot of hoop {hoop}, nearer than {clear_in}.",
                {"gap_in": gap, "hoop": hoop, "clear_in": base.splice_clear_in}))


def check_lowest(frame: Frame) -> None:
    """Refuse landings of braces and ties that lie lower than the base allows, each height once."""
    base = frame.base
    if base is None or not base.lowest_in:
        return
    low: dict[tuple[str, float], Landing] = {}
    pieces: tuple[Brace | Tie, ...] = (*frame.braces, *frame.ties)
    for piece in pieces:
        for landing in (piece.landing_from, piece.landing_to):
            if landing.from_foot_in < base.lowest_in - 1e-6:
                low.setdefault((landing.station, round(landing.from_foot_in, 3)), landing)
    for landing in low.values():
        frame.refuse("landing-low", "On the {base} the landing {landing} is too low: it lies {at_in} up from the foot, and "
                     "{least_in} is the least that would do.", "base", base=base.name, landing=landing.code,
                     at_in=landing.from_foot_in, least_in=base.lowest_in)
