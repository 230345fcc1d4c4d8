"""From a family and a configuration to the document that is frozen."""

from __future__ import annotations

from structures.frame.bring import make_bring
from structures.frame.build import Frame, build_frame
from structures.frame.choose import configuration_json
from structures.frame.document import ENGINE, SCHEMA, Document, Hardware, Measures
from structures.frame.family import Configuration, Family, FittingSet
from structures.frame.kit import count_kit, total_up
from structures.frame.marks import make_marks
from structures.frame.offers import answer_options
from structures.frame.sequence import make_sequence


def compute(family: Family, configuration: Configuration, *, sha256: str) -> Document:
    """Build the frame and derive everything from it. Raises `Refused` with all that can't stand.

    `sha256` is the checksum of the family file's text, which the document carries.
    """
    frame = build_frame(family, configuration)
    lines = count_kit(frame)
    return Document(
        schema=SCHEMA, engine=ENGINE, family=family.code, family_name=family.name, title=family.title,
        revision=family.revision, effective=family.effective.isoformat(), changed=family.changed,
        rated_wind=family.rated_wind, rated_snow=family.rated_snow, family_sha256=sha256,
        configuration=configuration_json(configuration), measures=_measures(frame),
        profile=frame.profile.write(),
        stations={name: station.from_foot_in for name, station in family.stations.items()},
        tubes=_tubes(family), put_up=family.hoop.put_up,
        options=answer_options(frame),
        lines=lines, members=tuple(frame.members), joints=tuple(frame.joints), braces=tuple(frame.braces),
        ties=tuple(frame.ties), marks=make_marks(frame), cuts=tuple(frame.cuts), panels=tuple(frame.panels),
        warnings=tuple({str(said): said for said in frame.warnings}.values()), totals=total_up(frame, lines),
        hardware=_hardware(frame), boxes=tuple(frame.boxes), bars=tuple(frame.bars), swings=tuple(frame.swings),
        tight=tuple(frame.tight), sequence=make_sequence(frame), bring=make_bring(frame),
    )


def _hardware(frame: Frame) -> tuple[Hardware, ...]:
    """The fitting sets that the frame has joints or fixings of, in the family's own order."""
    used = {joint.fitting for joint in frame.joints} | {footage.fixing for footage in frame.footages}
    return tuple(
        Hardware(f.code, f.name, f.kind, f.parts, f.width_in, f.hole_offset_in, f.hole_direction, f.goes_on, f.bolt_points,
                 _nut(frame, f), f.ear_in, f.head_in)
        for f in frame.family.fittings.values() if f.code in used
    )


def _nut(frame: Frame, fitting: FittingSet) -> str:
    """Where the nut lies; a set of screws alone has none, whatever the file leaves at its default."""
    roles = {frame.part(number).role for number, _ in fitting.parts}
    return fitting.nut if roles & {"bolt", "nut"} else "none"


def _measures(frame: Frame) -> Measures:
    shape = frame.family.shape
    return Measures(
        bays=frame.hoops - 1, hoops=frame.hoops, inner_hoops=max(frame.hoops - 2, 0), spacing_in=frame.spacing_in,
        length_in=frame.length_in, width_in=round(shape.width_in, 6), peak_in=frame.profile.peak_in,
        developed_in=2 * frame.half_in, ridge_mark_in=frame.half_in,
        clear_gap_in=frame.spacing_in - 2 * frame.hoop_radius_in, leg_in=shape.leg_in, radius_in=shape.radius_in,
        pitch_deg=shape.pitch_deg, tube_end_in=shape.tube_end_in,
    )


def _tubes(family: Family) -> dict[str, float]:
    """The outside diameter of the tube of each role."""
    sizes = {"hoop": family.tubes[family.hoop.tube].diameter_in}
    for part in family.parts.values():
        if part.tube and part.role != "section":
            sizes.setdefault(part.role, family.tubes[part.tube].diameter_in)
    return sizes
