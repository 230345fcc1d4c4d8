"""The kit: every part with its count and the reasons for it, down to the places where each one goes."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from fractions import Fraction

from structures.frame.build import Footage, Frame
from structures.frame.document import Because, Line, Totals
from structures.frame.family import Allowance, Part
from structures.frame.said import Said, together
from structures.frame.weights import piece_weight

Reasons = dict[str, list[Because]]

PIECE_WORDS = {
    "section": "hoop sections", "post": "ground posts", "stick": "purlin sticks", "end": "purlin ends",
    "side-brace": "side braces", "roof-lower": "lower roof braces", "roof-upper": "upper roof braces", "tie": "ties",
    "slip": "slip joints", "seam": "seams", "connector": "crossings", "runner": "runners", "board": "boards",
    "roll-pipe": "roll-up pipes", "web": "webs", "shoe": "feet", "wheel": "feet", "anchor": "feet", "door": "end walls",
    "crank": "corners", "rope": "bay sides", "blower": "end walls",
}
STANDS_ALONE = frozenset({"shoe", "wheel", "anchor", "door", "crank", "rope", "blower"})    # there for itself, not for a piece


def count_kit(frame: Frame) -> tuple[Line, ...]:
    """Tally the frame: members, the exploded fitting set of every joint, lengthwise stock, film and allowances."""
    reasons: Reasons = defaultdict(list)
    _members(frame, reasons)
    _fittings(frame, reasons)
    _footages(frame, reasons)
    for allowance in frame.family.allowances:
        if frame.has(allowance.option):
            _allowance(frame, allowance, reasons)
    order = {number: index for index, number in enumerate(frame.family.parts)}
    return tuple(_line(frame, number, reasons[number]) for number in sorted(reasons, key=order.__getitem__))


def _members(frame: Frame, reasons: Reasons) -> None:
    places: dict[tuple[str, str], list[str]] = defaultdict(list)
    for piece in frame.pieces():
        places[piece.part, piece.role].append(piece.id)
    for (part, role), where in places.items():
        reasons[part].append(_each(role, 1, where, _piece_word(role)))


def _piece_word(role: str) -> str:
    """What several pieces of a role, or places of a kind, are called."""
    return PIECE_WORDS.get(role, role.replace("-", " "))


def _each(kind: str, per: int, where: list[str], what: str) -> Because:
    words = Said("{count} {what}" if per == 1 else "{per} for each of {count} {what}",
                 {"per": per, "count": len(where), "what": what})
    return Because(kind, per * len(where), per, tuple(where), words)


def _fittings(frame: Frame, reasons: Reasons) -> None:
    """A joint's reason is the piece that it is there for: the first that it holds."""
    roles = {piece.id: piece.role for piece in frame.pieces()}
    places: dict[tuple[str, str], list[str]] = defaultdict(list)
    for joint in frame.joints:
        places[joint.fitting, _kind_of(joint.kind, joint.station, roles.get(joint.holds[0] if joint.holds else ""))
               ].append(joint.id)
    for (fitting, kind), where in places.items():
        fitting_set = frame.family.fittings[fitting]
        for part, per in fitting_set.parts:
            reasons[part].append(_each(kind, per, where, f"{fitting_set.name}s at {_piece_word(kind)}"))


def _kind_of(kind: str, station: str, role: str | None) -> str:
    if kind == "screw":
        return "seam" if station == "seam" else "slip"
    if kind == "connector" or kind in STANDS_ALONE:
        return kind
    return role or station


def _footages(frame: Frame, reasons: Reasons) -> None:
    """Runs that are bought together are added up before they are rounded up to whole sticks."""
    alike: dict[tuple[str, str, float], list[Footage]] = defaultdict(list)
    for footage in frame.footages:
        if not footage.laid:
            alike[footage.part, footage.together, footage.stock_in].append(footage)
    for (part, kind, stock), footages in alike.items():
        length = math.fsum(footage.length_in for footage in footages)
        count = math.ceil(length / stock - 1e-9)
        words = together([
            together([footage.words for footage in footages], "; "),
            Said("{length_in} in all, {count} of {stock_in}", {"length_in": length, "count": count, "stock_in": stock}),
        ], ": ")
        reasons[part].append(Because(kind, count, 1, (), words))
    for footage in frame.footages:
        if footage.fixing:
            fitting = frame.family.fittings[footage.fixing]
            for part, per in fitting.parts:
                words = together([
                    Said("{count} fixings of the {code}", {"count": footage.fixing_count, "code": footage.code}),
                    footage.words,
                ], ": ")
                reasons[part].append(Because(footage.code, per * footage.fixing_count, per, (), words))


def _allowance(frame: Frame, allowance: Allowance, reasons: Reasons) -> None:
    """Parts counted from a measure and not from a place."""
    measures = {
        "channel": math.fsum(f.length_in for f in frame.footages if f.code.startswith("channel")),
        "length": frame.length_in, "hoops": frame.hoops, "bays": frame.hoops - 1, "structure": 1,
    }
    measure = measures[allowance.measure]
    units: float = measure / allowance.every_in if allowance.every_in else measure
    count = math.ceil(allowance.count * units - 1e-9)
    values = {"count": f"{allowance.count:g}", "every_in": allowance.every_in, "length_in": measure,
              "measure": f"{measure:g} {allowance.measure}", "why": allowance.why}
    template = "{count} for every {every_in} of {length_in}" if allowance.every_in else "{count} for each of {measure}"
    words = Said(template + (" ({why})" if allowance.why else ""), values)
    if count:
        reasons[allowance.part].append(Because(allowance.measure, count, math.ceil(allowance.count), (), words))


def _line(frame: Frame, number: str, reasons: list[Because]) -> Line:
    part = frame.part(number)
    needed = sum(because.count for because in reasons)
    # Exactly, so that 3% of 100 is 3 and not 4: floats put it just above.
    spares = math.ceil(needed * Fraction(str(part.spares)))
    whole = math.ceil((needed + spares) / part.pack) * part.pack
    weight = piece_weight(frame.family, part)
    return Line(
        number, part.name, part.role, part.kind, part.unit, whole, needed, spares, whole - needed - spares,
        None if weight is None else weight * whole, part.length_in, part.ends, part.hand, part.tube, tuple(reasons),
        part.tool,
    )


def total_up(frame: Frame, lines: Iterable[Line]) -> Totals:
    """Pieces, weights and the two pieces that decide how a load is carried. `weight_lb` is tube: hoops, posts, purlins,
    braces and ties by their cut lengths, and runners, webs and roll-up pipes where there are some. Boards laid stick by
    stick are pieces like any other, but no tube."""
    lines = list(lines)
    tubes = [line for line in lines if line.tube]
    rest = [line.weight_lb for line in lines if not line.tube]
    known = [weight for weight in rest if weight is not None]
    heaviest = max(tubes, key=lambda line: _single(frame.part(line.part), frame))
    longest = max(tubes, key=lambda line: line.length_in or 0.0)
    return Totals(
        sum(1 for _ in frame.pieces()),
        math.fsum(line.weight_lb or 0.0 for line in tubes),
        math.fsum(known) if len(known) == len(rest) else None,
        heaviest.part, _single(frame.part(heaviest.part), frame), longest.part, longest.length_in or 0.0,
    )


def _single(part: Part, frame: Frame) -> float:
    return piece_weight(frame.family, part) or 0.0
