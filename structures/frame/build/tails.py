"""Flattened ends: what is left of them beyond the hole, and how far each stands outside its hoop's line, where film rubs."""

from __future__ import annotations

import math

from structures.frame.build.chains import Piece, Spot
from structures.frame.build.frame import Frame
from structures.frame.build.landing import outward
from structures.frame.document import Flat, Tail
from structures.frame.family import Chain, FittingSet, Part, TieSet, Web
from structures.frame.said import Said
from structures.frame.vectors import Vector, dot, subtract, unit

WITHIN_IN = 1 / 32     # no tape shows less


def flat_of(frame: Frame, item: Chain | TieSet | Web, part: Part) -> Flat:
    """The flattened end of a part as a chain, a set of ties or a web has it: pressed flat, a tube is two walls thick."""
    wall = frame.family.tubes[part.tube].wall_in
    return Flat(item.flat_in, item.flat_width_in, item.flat_round_in, 2 * wall, item.flat_hole_in)


def tails_of(frame: Frame, piece: Piece) -> tuple[Tail | None, Tail | None]:
    """The tails at a piece's two ends, from and to; None where the ear's or the bolt head's thickness is not given.

    The end held first lies flat along its hoop. The end bolted last is turned by the twist, all of it as long as none was
    made, and by nothing where it was made.
    """
    flat = flat_of(frame, piece.chain, piece.part)
    direction = unit(subtract(piece.end.hole, piece.start.hole))
    away = -direction[0], -direction[1], -direction[2]
    turned = abs(piece.turn.twist_deg)
    left = 0.0 if turned >= piece.chain.slack_deg else turned
    from_, to = (0.0, 1.0) if piece.held == "from" else (1.0, 0.0)
    return (_tail(frame, piece, piece.start, away, flat, (from_ * left, from_ * turned)),
            _tail(frame, piece, piece.end, direction, flat, (to * left, to * turned)))


def _tail(
    frame: Frame, piece: Piece, at: Spot, points: Vector, flat: Flat, turned_deg: tuple[float, float]
) -> Tail | None:
    """How far an end stands out, with the twist as made and with none made. `points` is the way its tail points.

    L sin(bend) + f/2 sin(twist not made) + max(flat thickness/2, ear + bolt head) - D/2, less the hole's own depth where it
    lies inward of the hoop's axis. The bend is the tail's lift over the hoop's line: a tail goes on straight beyond its hole,
    away from the piece, so where the piece leaves its hoop inward the tail rises outward. A tail that dips inward takes
    nothing off, for the bolt stands at the hole. Of the flat's two edges a turn lifts one, whichever hand it has.
    """
    fitting = frame.family.fittings[piece.chain.fitting]
    normal = outward(frame, at.side, at.s)
    over = _over(fitting, normal)
    if over is None:
        return None
    rise = flat.length_in * max(dot(points, normal), 0.0)
    depth = frame.hoop_radius_in + (_inward(fitting) or 0.0)
    made, unmade = (rise + flat.width_in / 2 * math.sin(math.radians(turn)) + max(flat.thick_in / 2, over) - depth
                    for turn in turned_deg)
    return Tail(made, unmade)


def _over(fitting: FittingSet, normal: Vector) -> float | None:
    """What lies on the film's side of the hole: an ear and the bolt's head, if the thread points away from the film.

    A bolt that points in has its head outside, and so has one that points down where the hoop's outside faces up. Of one put
    in the other way the nut and the thread's tail stand there, and no file says how high: that is not known.
    """
    head_outside = fitting.bolt_points == "in" or (fitting.bolt_points == "down" and normal[2] > 0)
    if not head_outside or fitting.ear_in is None or fitting.head_in is None:
        return None
    return fitting.ear_in + fitting.head_in


def _inward(fitting: FittingSet) -> float | None:
    return fitting.hole_offset_in if fitting.hole_direction == "inward" else 0.0


def warn_of_tails(frame: Frame) -> None:
    """Warn of flattened ends that stand outside their hoop's line as made: at each landing of a chain the one farthest out."""
    out: dict[tuple[str, str], tuple[float, float, str]] = {}
    for brace in frame.braces:
        for tail, landing in ((brace.tail_from, brace.landing_from), (brace.tail_to, brace.landing_to)):
            if tail is not None and tail.made_in > WITHIN_IN:
                alike = brace.chain, landing.station
                # Mirrored corners differ in their last digits: the first of them stands for all.
                out[alike] = max(out.get(alike, (0.0, 0.0, "")), (tail.made_in, tail.unmade_in, landing.code),
                                 key=lambda found: round(found[0], 6))
    for made_in, unmade_in, code in out.values():
        untwisted = " ({unmade_in} as long as its twist is not made)" if unmade_in - made_in > WITHIN_IN else ""
        frame.warnings.append(Said(
            "The flattened end at {code} stands {out_in} outside its hoop's line" + untwisted + ", where it rubs the film.",
            {"code": code, "out_in": made_in, **({"unmade_in": unmade_in} if untwisted else {})}))
