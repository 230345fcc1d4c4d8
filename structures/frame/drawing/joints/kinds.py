"""Which joints a frame has: each fitting set in each of the ways it is used, with the places where it stands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from structures.frame.document import Document, Hardware, Joint

_STATION_WORDS = {"brace-hip": "hip"}
_BOARD_KINDS = ("strap", "splice")


@dataclass(frozen=True, slots=True)
class JointKind:
    """One kind of joint: a fitting set and the role it plays, as in ("brace-band", "side mid").

    `title` says it in words, `joints` are the ids of all places of this kind (none for what is fixed by measure).
    """

    fitting: str
    role: str
    title: str
    joints: tuple[str, ...]


def joint_kinds(document: Document) -> tuple[JointKind, ...]:
    """Every kind of joint of a frame, in the order in which one meets them: hoop, brace, tie, purlin, base, wall, board.

    Empty for a document of schema 1, which knows no hardware.
    """
    kinds = {h.code: h for h in document.hardware}
    members = {m.id: m.role for m in document.members} | {b.id: "brace" for b in document.braces} | {t.id: "tie" for t in document.ties}
    found: dict[tuple[str, str], tuple[str, list[str]]] = {}
    for joint in document.joints:
        if joint.fitting in kinds:
            role = _role(document, kinds[joint.fitting], joint, [members.get(one, "") for one in joint.holds])
            if role:
                found.setdefault((joint.fitting, role[0]), (role[1], []))[1].append(joint.id)
    for hardware in document.hardware:
        if hardware.kind in _BOARD_KINDS and not any(code == hardware.code for code, _ in found):
            found[hardware.code, "board"] = (f"{hardware.name}", [])
    made = [JointKind(fitting, role, title[:1].upper() + title[1:], tuple(ids)) for (fitting, role), (title, ids) in found.items()]
    return tuple(sorted((kind for kind in made if kind.role.partition(" ")[0] in _DRAWN), key=lambda kind: _rank(kind.role)))


_DRAWN = ("side", "roof", "tie", "web", "connector", "pass", "end", "slip", "seam", "foot", "wall", "board", "runner")


_ORDER = ("foot", "seam", "side", "roof", "pass", "tie", "web", "connector", "end", "slip", "runner", "wall", "board")


def _rank(role: str) -> int:
    first = role.partition(" ")[0]
    return _ORDER.index(first) if first in _ORDER else len(_ORDER)


def _role(document: Document, hardware: Hardware, joint: Joint, holds: list[str]) -> tuple[str, str] | None:
    """The role of one joint and its title, None for what joins nothing that a joint drawing could show."""
    station = _STATION_WORDS.get(joint.station, joint.station.replace("-", " "))
    if "brace" in holds:
        return _brace_role(document, hardware, joint, station)
    if holds and joint.holds[0].split(":")[1:2] == ["web"]:
        return (f"web {'tie' if 'tie' in holds else 'hoop'}", f"web, {hardware.name} on the {'tie' if 'tie' in holds else 'hoop'}")
    if "tie" in holds:
        return ("tie", f"collar tie, {hardware.name}")
    if hardware.kind == "connector":
        return ("connector", f"{hardware.name}, hoop and purlin")
    if hardware.kind == "band" and "end" in holds:
        return ("end", f"{hardware.name}, two butted") if joint.station != "ridge" else ("end ridge", f"{hardware.name} at the ridge")
    if hardware.kind == "screw":
        return _screw_role(holds)
    if hardware.kind == "bolt" and "post" in holds:
        return ("foot", "foot bolt, leg and post")
    if holds and set(holds) <= {"runner", "roll-pipe"}:
        return (f"runner splice {holds[0]}", hardware.name)
    if "runner" in holds:
        return ("runner", f"{hardware.name}, foot and runner")
    return _wall_role(hardware)


def _wall_role(hardware: Hardware) -> tuple[str, str] | None:
    if hardware.kind == "bracket":
        return ("wall", f"{hardware.name}, end wall")
    return ("board", hardware.name) if hardware.kind in _BOARD_KINDS else None


def _brace_role(document: Document, hardware: Hardware, joint: Joint, station: str) -> tuple[str, str]:
    brace = next(b for b in document.braces if b.id in joint.holds)
    if joint.id not in (brace.landing_from.joint, brace.landing_to.joint):
        return (f"pass {brace.zone}", f"{brace.zone} brace, clamped in passing")
    if hardware.hole_direction == "inward":
        return (f"pass {brace.zone} {joint.station}", f"{brace.zone} brace, {station}: held inside the hoop")
    both = len(bands_at(document.joints, joint)) > 1
    return (f"{brace.zone} {joint.station}", f"{brace.zone} brace, {station}: {'two bands butted' if both else 'one band'}")


def _screw_role(holds: list[str]) -> tuple[str, str] | None:
    if holds == ["section", "section"]:
        return ("seam", "seam of the hoop, screw")
    if holds and set(holds) <= {"stick", "end"}:
        return ("slip", "slip joint of a purlin, screw")
    return None


def bands_at(joints: Iterable[Joint], joint: Joint) -> list[Joint]:
    """The brace bands that share a joint's place, from below."""
    here = [one for one in joints if one.code == joint.code and one.fitting == joint.fitting and one.hoop == joint.hoop]
    return sorted(here, key=lambda one: one.from_foot_in or 0.0)
