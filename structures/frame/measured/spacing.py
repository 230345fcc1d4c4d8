"""What last sticks and bay gaps say of the spacing: how far the end hoop stands off, out of square, or leans at the ridge."""

from __future__ import annotations

import math

from structures.frame.document import Cut, Document, Member
from structures.frame.measured.tape import NOTHING_IN, Finding, Measured
from structures.frame.said import Said


def end_hoop(document: Document, measured: Measured) -> tuple[Finding, ...]:
    """What the sawn last sticks say: each run, then left against right, then the ridge against both."""
    off = {
        cut.run: measured.last_sticks[cut.run] - cut.cut_length_in
        for cut in document.cuts if cut.run in measured.last_sticks
    }
    found = [_run(document, cut, measured.last_sticks[cut.run]) for cut in document.cuts if cut.run in off]
    pairs = [run.removeprefix("L-") for run in off if run.startswith("L-") and f"R-{run.removeprefix('L-')}" in off]
    found += [_square(document, pair, off[f"L-{pair}"], off[f"R-{pair}"]) for pair in pairs]
    found += [_ridge(document, pair, off["ridge"], (off[f"L-{pair}"] + off[f"R-{pair}"]) / 2)
              for pair in pairs[:1] if "ridge" in off]
    return tuple(found)


def _run(document: Document, cut: Cut, measured_in: float) -> Finding:
    off = measured_in - cut.cut_length_in
    values = {"run": run_name(cut.run), "stick_in": measured_in, "computed_in": cut.cut_length_in, "off_in": abs(off),
              "hoop": document.measures.hoops, "bays": document.measures.bays}
    if abs(off) < NOTHING_IN:
        return Finding(cut.run, 0.0, Said("The last stick of the {run} is {stick_in}, as computed: its bays add up.", values))
    way = "further from" if off > 0 else "nearer to"
    return Finding(cut.run, off, Said(
        "The last stick of the {run} is {stick_in} and {computed_in} was computed: along it hoop {hoop} stands {off_in} "
        + way + " hoop 1 than designed, shared by {bays} bays.", values))


def _square(document: Document, pair: str, left: float, right: float) -> Finding:
    """Left against right at one pair of runs, and what that is at the feet if the hoop is flat."""
    off = right - left
    apart = _apart(document, pair)
    values = {"hoop": document.measures.hoops, "off_in": abs(off), "pair": run_name(pair),
              "feet_in": abs(off) * document.measures.width_in / apart if apart else abs(off), "apart_in": apart}
    if abs(off) < NOTHING_IN:
        return Finding("end hoop", 0.0, Said("Left and right {pair} agree: hoop {hoop} is as square as hoop 1.", values))
    out = "right" if off > 0 else "left"
    return Finding("end hoop", off, Said(
        "The " + out + " side of hoop {hoop} stands {off_in} further from hoop 1 than the other, measured {apart_in} apart at "
        "the {pair}s: the end hoop is out of square to hoop 1 by about {feet_in} from foot to foot. Measure both diagonals on "
        "the ground to see which end it is.", values))


def _ridge(document: Document, pair: str, ridge: float, sides: float) -> Finding:
    """The middle alone: the ridge against the mean of both sides."""
    off = ridge - sides
    values = {"hoop": document.measures.hoops, "off_in": abs(off), "pair": run_name(pair)}
    if abs(off) < NOTHING_IN:
        return Finding("ridge", 0.0, Said("The ridge and the {pair}s agree: hoop {hoop} does not lean against hoop 1.", values))
    way = "out, away from" if off > 0 else "in, toward"
    return Finding("ridge", off, Said(
        "Only the middle is off: at the ridge hoop {hoop} stands {off_in} further " + way + " hoop 1 than its sides do. Hold a "
        "plumb line from the crown of both end hoops to see which one leans.", values))


def gaps_off(document: Document, measured: Measured) -> tuple[Finding, ...]:
    """Each bay whose gap is off, and what the measured ones add up to."""
    clear = document.measures.clear_gap_in
    found = []
    for bay, gap in sorted(measured.gaps.items()):
        off = gap - clear
        if abs(off) >= NOTHING_IN:
            way = "wider" if off > 0 else "narrower"
            found.append(Finding(f"bay {bay}", off, Said(
                "Bay {bay} is {off_in} " + way + " than the {clear_in} between its hoops: {gap_in} was measured.",
                {"bay": bay, "off_in": abs(off), "clear_in": clear, "gap_in": gap})))
    if len(measured.gaps) > 1:
        found.append(_sum(document, measured, clear))
    return tuple(found)


def _sum(document: Document, measured: Measured, clear: float) -> Finding:
    total = math.fsum(measured.gaps.values()) - clear * len(measured.gaps)
    values = {"count": len(measured.gaps), "bays": document.measures.bays, "off_in": abs(total)}
    which = "All {bays} bays" if len(measured.gaps) == document.measures.bays else "The {count} bays measured, of {bays},"
    if abs(total) < NOTHING_IN:
        return Finding("bays", 0.0, Said(which + " add up as designed.", values))
    way = "long" if total > 0 else "short"
    return Finding("bays", total, Said(which + " add up to {off_in} too " + way + ".", values))


def run_name(run: str) -> str:
    """A run in words: "L-purlin" is "left purlin"."""
    for letter, side in (("L-", "left "), ("R-", "right ")):
        if run.startswith(letter):
            return side + run.removeprefix(letter) + ("" if run.endswith("purlin") else " purlin")
    return run if run.endswith("purlin") else f"{run} purlin"


def _apart(document: Document, pair: str) -> float:
    """How far the left and the right run of a pair lie apart."""
    run = next((member for member in document.members if _is_of(member, pair)), None)
    return 2 * abs(run.start[0]) if run else 0.0


def _is_of(member: Member, pair: str) -> bool:
    return member.role == "stick" and member.from_.endswith(f"-{pair}")
