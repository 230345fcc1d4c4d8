"""Which way the bolt of a joint points, as an arrow in the frame's own coordinates."""

from __future__ import annotations

from structures.frame.document import Document, Hardware, Joint, Point
from structures.frame.profile import Profile

UP: Point = (0.0, 0.0, 1.0)
ALONG: Point = (0.0, 1.0, 0.0)


def bolt_direction(document: Document, joint: Joint) -> Point | None:
    """Unit vector from the head of the joint's bolt or screw to its thread end.

    "in" and "out" lie along the outward normal of the hoop there (for a slip joint of the hoops beside it), "up" and "down"
    are plumb, "away from the tag end" and "toward the tag end" run lengthwise. None where nothing is driven, and for a
    document of schema 1, which has no hardware.
    """
    hardware = next((one for one in document.hardware if one.code == joint.fitting), None)
    if hardware is None or not _driven(document, hardware):
        return None
    if hardware.bolt_points in ("in", "out"):
        normal = _outward(document, joint)
        return normal if hardware.bolt_points == "out" else _turned(normal)
    fixed = {"up": UP, "down": _turned(UP), "away from the tag end": ALONG, "toward the tag end": _turned(ALONG)}
    return fixed[hardware.bolt_points]


def _driven(document: Document, hardware: Hardware) -> bool:
    """Whether the fitting set holds a bolt or a screw."""
    numbers = {part for part, _ in hardware.parts}
    return any(line.part in numbers and line.kind == "fastener" and line.role != "nut" for line in document.lines)


def _turned(v: Point) -> Point:
    return 0.0 - v[0], 0.0 - v[1], 0.0 - v[2]


def _outward(document: Document, joint: Joint) -> Point:
    """The outward normal of the hoop at the joint; straight up at the ridge, which has no side."""
    s = joint.from_foot_in if joint.from_foot_in is not None else document.stations.get(joint.station)
    if s is None:
        s = _beside(document, joint)
    if not joint.side or s is None:
        return UP
    u, z = Profile.read(document.profile).normal(s)
    return (-u if joint.side == "left" else u), 0.0, z


def _beside(document: Document, joint: Joint) -> float | None:
    """How far up the hoops the line of this joint runs, from a joint of it that lies on a hoop."""
    return next((other.from_foot_in for other in document.joints if other.from_foot_in is not None
                 and (other.side, other.station) == (joint.side, joint.station)), None)
