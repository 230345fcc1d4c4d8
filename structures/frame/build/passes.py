"""Hoops that one piece passes on its way: clamped to their inside faces, where the straight tube comes to lie."""

from __future__ import annotations

import math

from structures.frame.build.chains import Piece, Spot
from structures.frame.build.frame import Frame
from structures.frame.build.landing import outward
from structures.frame.vectors import along, dot

STATION = "pass"     # the word in location codes: H2-R-pass
SLIGHT_IN = 1e-6


def passes_of(frame: Frame, piece: Piece) -> list[Spot]:
    """Where a one-piece chain's tube crosses each hoop between its ends; refused where it can't be clamped there.

    The tube is straight. At a hoop's plane its axis must lie from R + r to R + r + the chain's room inside the hoop's axis,
    square to the hoop (R and r the two tubes' radii): nearer it would run through the hoop, farther no clamp reaches.
    """
    if not piece.chain.one_piece:
        return []
    touching = frame.hoop_radius_in + frame.family.tubes[piece.part.tube].radius_in
    start, end = piece.start.hole, piece.end.hole
    step = 1 if piece.end.hoop > piece.start.hoop else -1
    found = []
    for hoop in range(piece.start.hoop + step, piece.end.hoop, step):
        x, y, z = along(start, end, (frame.y(hoop) - start[1]) / (end[1] - start[1]))
        s, depth = frame.profile.place(abs(x), z)
        if not touching - SLIGHT_IN <= depth <= touching + piece.chain.pass_room_in + SLIGHT_IN:
            _refuse(frame, piece, hoop, s, depth, touching)
        found.append(Spot(hoop, piece.corner.side, STATION, s, s, s, False, (x, y, z)))
    return found


def _refuse(frame: Frame, piece: Piece, hoop: int, s: float, depth: float, touching: float) -> None:
    """Say how deep the tube passes and how deep it may, in sixteenths that don't round a miss away; once for a chain."""
    room = piece.chain.pass_room_in
    near = depth < touching
    code = "pass-near" if near else "pass-far"
    if any((said.code, said.values.get("chain")) == (code, piece.chain.code) for said in frame.refusals):
        return
    values = {
        "zone": piece.chain.zone, "at": frame.code(hoop, piece.corner.side, STATION),
        "depth_in": _down(depth) if near else _up(depth), "least_in": _up(touching), "most_in": _down(touching + room),
        "fitting": piece.chain.fitting, "chain": piece.chain.code,
        "would_in": _up(_deeper(frame, piece, s, touching - depth)) if near else _up(depth - touching),
    }
    reaches = ("The {zone} brace in one piece passes {at} with its axis {depth_in} inside the hoop's, and its clamp holds it "
               "from {least_in} to {most_in}: ")
    would = ("fittings.{fitting}.hole_offset = {would_in} would do." if near else
             "chains.{chain}.pass_room = {would_in} would do, or a piece for each bay.")
    frame.refuse(code, reaches + would, "family", **values)


def _deeper(frame: Frame, piece: Piece, s: float, lack: float) -> float:
    """The hole's offset at both ends that brings the tube `lack` deeper at s: ends go inward along their own normals."""
    normal = outward(frame, piece.corner.side, s)
    share = min(dot(normal, outward(frame, end.side, end.s)) for end in (piece.start, piece.end))
    offset = frame.family.fittings[piece.chain.fitting].hole_offset_in or 0.0
    return offset + lack / max(share, 0.1)


def _up(inches: float) -> float:
    return math.ceil(inches * 16 - SLIGHT_IN) / 16


def _down(inches: float) -> float:
    return math.floor(inches * 16 + SLIGHT_IN) / 16
