"""A document told to people as plain text: the kit as a table, and the places of one part as sentences."""

from __future__ import annotations

import difflib

from structures.frame.document import Brace, Document, Joint, Line, Member
from structures.frame.lengths import feet_inches
from structures.frame.refusal import Refusal, Refused
from structures.frame.sequence.words import role_word
from structures.frame.sheet import Telling
from structures.frame.sheet.flats import flat_rows
from structures.frame.sheet.gaps import gap_rows


def kit_table(document: Document) -> str:
    """The kit of one structure for people: size, counts with reasons, cuts and totals."""
    m = document.measures
    ends = document.configuration["ends"]
    head = [
        f"{document.family_name} revision {document.revision}, {document.title}",
        f"{feet_inches(m.length_in)} long, {m.bays} bays of {feet_inches(m.spacing_in)}, {m.hoops} hoops; "
        f"base {document.configuration['base']}; ends {ends[0]} and {ends[1]}",
        "",
    ]
    return "\n".join([*head, *_options(document), "", *_lines(document), "", *_cuts(document), *_totals(document),
                      *(f"Note: {warning}" for warning in document.warnings)])


def _options(document: Document) -> list[str]:
    wide = max((len(option.name) for option in document.options), default=0)
    return [
        f"  {option.name:<{wide}}  " + ("included" if option.included else str(option.no_words).rstrip(".").lower()
                                        if option.no_because == "offered, not bought" else str(option.no_words))
        for option in document.options
    ]


def _lines(document: Document) -> list[str]:
    rows = [("Part", "Name", "Length", "Count", "Needed", "Spare", "Pack", "lb")]
    rows += [
        (line.part, line.name, "" if line.length_in is None else feet_inches(line.length_in), str(line.quantity),
         str(line.needed), str(line.spares or ""), str(line.pack_rounding or ""),
         "unknown" if line.weight_lb is None else f"{line.weight_lb:,.1f}")
        for line in document.lines
    ]
    widths = [max(len(row[column]) for row in rows) for column in range(8)]
    right = (False, False, True, True, True, True, True, True)
    out = []
    for row in rows:
        cells = [cell.rjust(w) if r else cell.ljust(w) for cell, w, r in zip(row, widths, right, strict=True)]
        out.append("  ".join(cells).rstrip())
    out.insert(1, "-" * max(map(len, out)))
    return out


def _cuts(document: Document) -> list[str]:
    return [
        f"Run {cut.run}: {cut.sticks} sticks of {feet_inches(cut.stick_in)}; saw the last at its {cut.saw_end} end to "
        f"{feet_inches(cut.cut_length_in)}, offcut {feet_inches(cut.offcut_in)}."
        for cut in document.cuts
    ]


def _totals(document: Document) -> list[str]:
    t = document.totals
    return [
        f"{t.pieces} pieces; tube and posts {t.weight_lb:,.0f} lb; heaviest piece {t.heaviest}, {t.heaviest_lb:.1f} lb; "
        f"longest {t.longest}, {feet_inches(t.longest_in)}.",
    ]


def work_told(document: Document) -> str:
    """The order of work with its cautions, what to bring, the tightest gaps and the flattened ends; a step to a paragraph."""
    said = [f"{document.title}, revision {document.revision}, {feet_inches(document.measures.length_in)} long: the order of work", ""]
    if not document.sequence:
        said += ["This document was worked out before the order of work was kept; ask for the kit again to have it.", ""]
    for step in document.sequence:
        how = f" ({step.how})" if step.how else ""
        said += [f"{step.step}. {step.does}{how}", f"   Why: {step.why}"]
        said += [f"   ! {caution}" for caution in step.cautions]
        said += [f"   {step.not_yet}"] if step.not_yet else []
    said += ["", "To bring:", *(f"  {thing}" for thing in document.bring)] if document.bring else []
    telling = Telling(document)
    gaps = [f"  {row.piece} at {row.code}, to {row.near}: {row.gap}" for row in gap_rows(telling)]
    said += ["", "Tightest gaps:", *gaps] if gaps else []
    ends = dict.fromkeys(f"  {row.piece}, {row.end}: {row.made}" + (f", {row.unmade} while its twist is not made" if row.turned else "")
                         for row in flat_rows(telling))
    said += ["", "Flattened ends, as made, and the hoop's line that the film follows:", *ends] if ends else []
    said += ["", *(f"Note: {warning}" for warning in document.warnings)] if document.warnings else []
    return "\n".join(said)


def find_line(document: Document, part: str) -> Line:
    """The line of a part, however its number is typed. Raises `Refused` naming the nearest."""
    known = {line.part.lower(): line for line in document.lines}
    if part.lower() in known:
        return known[part.lower()]
    near = difflib.get_close_matches(part.lower(), known, n=1, cutoff=0.4)
    would = f"did you mean {known[near[0]].part}?" if near else "it has " + ", ".join(x.part for x in document.lines) + "."
    raise Refused([Refusal("part-not-in-kit", "Part {part!r} is not in this kit: {would}",
                           {"part": part, "would": would}, "why")])


def why_part(document: Document, part: str) -> str:
    """Why the kit has so many of a part, and every place of it as a sentence."""
    line = find_line(document, part)
    said = [f"{line.part}, {line.name}: {line.quantity} = {line.needed} needed + {line.spares} spare + "
            f"{line.pack_rounding} to fill packs."]
    places = place_sentences(document)
    for because in line.because:
        single = because.where and because.per == 1
        said.append(f"{because.words}:" if single else f"{because.count}: {because.words}" + (":" if because.where else "."))
        said += [f"  {places.get(place, f'At {place}.')}" for place in because.where]
    return "\n".join(said)


def place_sentences(document: Document) -> dict[str, str]:
    """Every place of the frame as a sentence, by its id."""
    said = {brace.id: _brace(brace) for brace in document.braces}
    said |= {tie.id: f"{tie.id}: across hoop {tie.hoop}, {feet_inches(tie.station_in)} up from each foot." for tie in
             document.ties}
    said |= {member.id: _member(member) for member in document.members}
    names = {piece.id: f"the {role_word(piece.role)} {piece.id.split(':')[0]}"
             for piece in document.pieces()}
    said |= {joint.id: _joint(joint, names) for joint in document.joints}
    return said


def _brace(brace: Brace) -> str:
    turn = f", {brace.hand} twist of {abs(brace.twist_deg):.1f} degrees" if brace.twist_made else ""
    ends = [f"{at.code}, {feet_inches(at.from_foot_in)} up" for at in (brace.landing_from, brace.landing_to)]
    return f"{brace.id}: from {ends[0]}, to {ends[1]}{turn}."


def _member(member: Member) -> str:
    where = f"at {member.from_}" if member.from_ == member.to else f"from {member.from_} to {member.to}"
    return f"{member.id}: {where}, {feet_inches(member.length_in)} long."


def _joint(joint: Joint, names: dict[str, str]) -> str:
    holds = " and ".join(names.get(held, held) for held in joint.holds) or "the end wall"
    if joint.hoop is None:
        return f"{joint.id}: {feet_inches(joint.at[1])} from hoop 1, holds {holds}."
    side = f", {joint.side}" if joint.side else ""
    mark = "" if joint.from_foot_in is None else f", {feet_inches(joint.from_foot_in)} up from the foot"
    return f"{joint.id}: on hoop {joint.hoop}{side}{mark}, holds {holds}."
