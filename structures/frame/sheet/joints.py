"""The joints, one of each kind: what hardware it takes and which way the bolt points."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Hardware
from structures.frame.sheet.telling import Telling

_GOES_ON = {
    "opens": "opens, so it goes on at any time",
    "slips over an end": "slips over an end, so it goes on before the section is joined",
}
GOES_ROUND = ("band", "connector")     # what goes round a tube, and so may have to go over its end


@dataclass(frozen=True, slots=True)
class JointRow:
    """One fitting set as it is put on."""

    code: str
    name: str
    parts: str
    bolt: str
    nut: str
    goes_on: str
    width: str


def joint_rows(telling: Telling) -> tuple[JointRow, ...]:
    """Every fitting set that the document's joints use, in its own order."""
    used = {joint.fitting for joint in telling.document.joints}
    return tuple(_row(telling, hardware) for hardware in telling.document.hardware if hardware.code in used)


def _row(telling: Telling, hardware: Hardware) -> JointRow:
    parts = ", ".join(f"{count} {telling.name(part)}" for part, count in hardware.parts)
    screw = hardware.nut in ("", "none")
    return JointRow(
        hardware.code, hardware.name, parts, f"{'driven' if screw else 'bolt points'} {hardware.bolt_points}",
        "no nut" if screw else f"nut {hardware.nut}",
        _GOES_ON.get(hardware.goes_on, hardware.goes_on) if hardware.kind in GOES_ROUND else "",
        telling.small(hardware.width_in) if hardware.width_in else "",
    )
