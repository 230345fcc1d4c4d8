"""From a family and a configuration to the document that is frozen."""

from __future__ import annotations

import dataclasses

from structures.frame.bring import make_bring
from structures.frame.build import Frame, build_frame
from structures.frame.choose import configuration_json, not_made
from structures.frame.document import ENGINE, SCHEMA, Document, Hardware, Measures, OptionAnswer
from structures.frame.family import Configuration, Family, Option
from structures.frame.kit import count_kit, total_up
from structures.frame.marks import make_marks
from structures.frame.refusal import Refused
from structures.frame.said import Said
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
        options=tuple(_answer(frame, option) for option in family.options),
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
                 f.nut, f.ear_in, f.head_in)
        for f in frame.family.fittings.values() if f.code in used
    )


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


def _answer(frame: Frame, option: Option) -> OptionAnswer:
    """How this configuration stands to an option: included, or which kind of no, with what it brings or would bring."""
    included = option.code in frame.configuration.options
    because, words = ("", Said("")) if included else _kind_of_no(frame, option)
    pieces, bands = _brings(frame if included else _with(frame, option, because), option.code)
    return OptionAnswer(option.code, option.name, included, option.offer == "standard", because, words, pieces, bands)


def _kind_of_no(frame: Frame, option: Option) -> tuple[str, Said]:
    if option.replaced_by:
        return "replaced", Said("Replaced by {by}.", {"by": option.replaced_by})
    if option.offer == "not offered":
        return "not made for this size", Said("{note}", {"note": option.note or "Not offered in this revision."})
    said = not_made(option, frame.length_in, frame.spacing_in)
    if said:
        return "not made for this size", Said(f"Not made for this size: {said.template}.", said.values)
    return "offered, not bought", Said("Offered, not bought.")


def _with(frame: Frame, option: Option, because: str) -> Frame | None:
    """The frame as it would be with one option more, where it could be had and brings pieces or bands."""
    if because != "offered, not bought" or not _brings_pieces(frame.family, option.code):
        return None
    configuration = dataclasses.replace(
        frame.configuration, options=(frame.configuration.options | {option.code, *option.needs}) - {*option.excludes}
    )
    try:
        return build_frame(frame.family, configuration)
    except Refused:
        return None


def _brings_pieces(family: Family, code: str) -> bool:
    """Whether an option has pieces or bands at all; film, channel and fixtures are none, and need no frame to be counted."""
    pieces = {item.option for group in (family.runs, family.chains, family.ties) for item in group}
    pieces |= {web.option for ties in family.ties for web in ties.webs}
    pieces |= {strip.option for strip in family.strips if strip.splice}
    return code in pieces


def _brings(frame: Frame | None, code: str) -> tuple[int, int]:
    """How many pieces and bands of a frame belong to an option."""
    if frame is None:
        return 0, 0
    pieces = sum(piece.option == code for piece in frame.pieces())
    bands = sum(joint.option == code and joint.kind == "band" for joint in frame.joints)
    return pieces, bands
