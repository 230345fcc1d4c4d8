"""What to look for at each kind of place, and the class that each finding suggests.

The classes are this trade's common practice and only a suggestion: the person who looks chooses, the owner decides.
Pure: no Django.
"""

from __future__ import annotations

from dataclasses import dataclass

from inspections.states import AGAIN, MEND, STOP


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that may be wrong: a code, the words, and the class suggested."""

    code: str
    words: str
    suggests: str


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the checklist. `unless` says when a more urgent class is usual; "" when never."""

    code: str
    name: str
    look_for: str
    findings: tuple[Finding, ...]
    unless: str = ""
    photo: str = ""


_RUST = Finding("rust", "red rust", MEND)
_OTHER = Finding("other", "something else, said in the note", AGAIN)


def _item(code: str, name: str, look_for: str, *findings: Finding, unless: str = "", photo: str = "") -> Item:
    return Item(code, name, look_for, (*findings, _OTHER), unless, photo)


ITEMS = {
    item.code: item
    for item in (
        _item(
            "hoop", "hoop crown and shoulder", "A kink, a flat spot, an M-shape, a split at a swage.",
            Finding("kink", "kink or flat spot", STOP), Finding("m-shape", "M-shape or sag", STOP),
            Finding("split", "split at the swage", STOP), Finding("screw-out", "seam screw out", MEND), _RUST,
        ),
        _item(
            "post", "ground post", "Lifted, leaning, bolt sheared, soil washed out.",
            Finding("lifted", "lifted out of the ground", STOP), Finding("sheared", "bolt sheared or gone", STOP),
            Finding("leaning", "leaning", MEND), Finding("washout", "soil washed out", MEND), _RUST,
            photo="One wide, one close with the soil line in it.",
        ),
        _item(
            "brace-end", "brace end", "A lifted brace end, a loosened band clamp, a bolt gone. Take it in both hands.",
            Finding("lifted-end", "brace end lifted off its clamp", MEND),
            Finding("loose-band", "band clamp loosened", MEND), Finding("bolt-gone", "bolt or nut gone", MEND),
            _RUST, unless="Two in one corner: stop and ask.",
            photo="One close with a thumb for scale, so that the flat end and the band's ears can be seen.",
        ),
        _item(
            "brace", "corner brace", "Bent, rattling by hand, missing.",
            Finding("bent", "bent", MEND), Finding("rattles", "rattles by hand", MEND),
            Finding("missing", "missing", MEND), _RUST, unless="Two in one corner: stop and ask.",
        ),
        _item(
            "tie", "collar tie", "Missing, slid down the hoop, its band open.",
            Finding("missing", "missing", MEND), Finding("slid", "slid down the hoop", MEND),
            Finding("loose-band", "band clamp loosened or open", MEND), Finding("bent", "bent", MEND), _RUST,
            unless="Before snow: stop and ask.",
        ),
        _item(
            "clamp", "band clamp or connector", "A loosened clamp: does it turn by hand? Rust in the bend, a witness mark moved.",
            Finding("loose-band", "clamp loosened, turns by hand", MEND),
            Finding("moved", "witness mark moved", MEND), Finding("bolt-gone", "bolt or nut gone", MEND), _RUST,
            unless="Many in a row: stop and ask.", photo="One close, with the witness mark in it.",
        ),
        _item(
            "purlin", "purlin", "Bent, drifted sideways, a slip joint's screw out.",
            Finding("bent", "bent", MEND), Finding("drifted", "drifted sideways", MEND),
            Finding("screw-out", "slip joint's screw out", MEND), _RUST,
        ),
        _item(
            "end-wall", "end wall and door", "Racked, a post loose, the latch failing, a door newly jammed.",
            Finding("racked", "racked", MEND), Finding("post-loose", "post loose", MEND),
            Finding("latch", "latch fails", MEND), Finding("jammed", "door newly jammed", STOP),
            unless="With wind due: stop and ask.",
        ),
        _item(
            "anchor", "ground anchor", "Pulled up, loose in the soil, its strap or bolt slack.",
            Finding("pulled", "pulled out of the ground", STOP), Finding("loose-anchor", "loose in the soil", MEND),
            Finding("bolt-gone", "bolt or nut gone", MEND), _RUST, unless="With wind due: stop and ask.",
        ),
        _item(
            "runner", "runner or rail", "A splice that opens, a hoop's foot off its shoe or wheel, a bend, soil washed out under it.",
            Finding("foot-off", "a hoop's foot off its shoe or wheel", STOP), Finding("splice-open", "splice open or its bolts out", MEND),
            Finding("bent", "bent", MEND), Finding("washout", "soil washed out", MEND), _RUST,
            unless="After a move, before the anchors are on again: stop and ask.",
        ),
        _item(
            "channel", "channel and wire", "Wire end out, a screw pulled, channel lifted, timber rotten under it.",
            Finding("wire-out", "wire end out", MEND), Finding("screw-pulled", "screw pulled", MEND),
            Finding("lifted", "channel lifted", MEND), Finding("rot", "timber rotten under it", MEND),
            unless="With wind due: stop and ask.",
        ),
        _item(
            "board", "hip or base board", "Rot at the bolts, a split.",
            Finding("rot", "rot at the bolts", MEND), Finding("split", "split", MEND),
        ),
        _item(
            "roll-up", "roll-up side", "Pipe bent, a clip off, a rope slack, the crank free-wheeling.",
            Finding("bent", "bent", MEND), Finding("clip-off", "clip off", MEND), Finding("rope-slack", "rope slack or torn", MEND),
            Finding("free-wheels", "crank free-wheels", MEND), Finding("splice-open", "splice open or its bolts out", MEND),
        ),
        _item(
            "blower", "blower of the double film", "Limp or fluttering film, water between the sheets, a blower that stands still.",
            Finding("limp", "limp or fluttering", AGAIN), Finding("water-between", "water between the sheets", AGAIN),
            Finding("stands-still", "blower stands still", AGAIN), unless="With wind due: mend this week.",
        ),
        _item(
            "film", "film", "Film wear: bright dots at the hoops, a tear, slack, brittle or cloudy film.",
            Finding("tear", "tear near the channel", MEND), Finding("hole", "hole", MEND),
            Finding("dots", "film wear: bright dots or slots at a hoop", AGAIN), Finding("slack", "slack", AGAIN),
            Finding("brittle", "brittle or cloudy", AGAIN),
            photo="One against the light, so that the dots show.",
        ),
    )
}


def finding_of(item: str, code: str) -> Finding | None:
    """The finding of that code on that line of the checklist; None when the line has no such finding."""
    return next((finding for finding in ITEMS[item].findings if finding.code == code), None)


def finding_words(code: str) -> str:
    """The words of a finding wherever it stands on the list; the code itself when no line has it any more."""
    found = (finding.words for item in ITEMS.values() for finding in item.findings if finding.code == code)
    return next(found, code)
