"""Packages in words: what an item is, where it goes on the frame, who lifts it, what remains.

Pure. `units` is "us" or "metric".
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Any

from inventory.answering import piece_rows
from inventory.packages import Packed, has_roof_sections
from inventory.whereabouts import SIDES, hoops_said, read_place
from structures.frame.document import Document, Line
from structures.frame.leftovers import LEAST_OFFCUT_IN
from structures.frame.lengths import show_length
from structures.frame.names import listed, short_name

_PIECES = {"side-brace": "brace", "roof-lower": "brace", "roof-upper": "brace", "tie": "tie", "end": "purlin end",
           "web": "web"}
_JOINTS = {**_PIECES, "connector": "connector", "seam": "seam", "slip": "slip joint", "post": "foot", "runner": "runner splice",
           "board": "board splice", "roll-pipe": "pipe sleeve", "wheel": "wheel carrier"}
_NUMBERS = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine"}
MOST = 400   # characters that a stored line keeps
MOST_LIFTERS = 3   # more hands than that find no room on one bundle


def item_words(packed: Packed, hand: str = "", *, turned: bool = False) -> str:
    """What one piece is: name, hand and ends. `turned` says that some look-alike is turned, so "no twist" is worth saying."""
    words = [short_name(packed.name)]
    if hand and f"{hand} twist" not in packed.name:
        words.append(f"{hand} twist")
    elif turned and not hand and "twist" not in packed.name:
        words.append("no twist")
    if packed.ends and packed.ends not in packed.name:
        words.append(packed.ends.replace("flattened and drilled", "flat"))
    return ", ".join(words) + (", spare" if packed.spare else "")


def turned_parts(document: Document) -> dict[str, tuple[str, bool]]:
    """By part, the hand that is made and whether its zone has turned pieces at all."""
    zones = {brace.zone for brace in document.braces if brace.twist_made}
    of_zone = {brace.part: brace.zone in zones for brace in document.braces}
    hands = {line.part: line.hand for line in document.lines}
    return {part: (hands.get(part, ""), turned) for part, turned in of_zone.items()}


def goes_words(packed: Packed, document: Document | None, units: str = "us") -> str:
    """Where these pieces go on the frame; "" for spares and loose parts."""
    if document is None or packed.spare:
        return ""
    line = next((line for line in document.lines if line.part == packed.part), None)
    if line is None:
        return ""
    teller = _TELLERS.get(packed.role) or _BY_KIND.get(line.kind, _by_reason)
    return teller(packed, line, document, units)[:MOST]


def _section(packed: Packed, line: Line, document: Document, units: str) -> str:
    places = [place for where in packed.places or _all(line) if (place := read_place(where))]
    hoops = hoops_said(place.n for place in places)
    if not places or places[0].station != "foot":
        return f"over the ridge, {hoops}"
    sides = " and ".join(SIDES[side] for side in sorted({place.side for place in places}) if side)
    return f"{sides} {'legs' if has_roof_sections(document) else 'halves'}, {hoops}".strip()


def _post(packed: Packed, line: Line, document: Document, units: str) -> str:
    inside = document.tubes.get("post", 0.0) < document.tubes.get("hoop", 0.0)
    return f"{'inside' if inside else 'outside'} each leg, {hoops_said(_hoops(line))}"


def _stick(packed: Packed, line: Line, document: Document, units: str) -> str:
    cuts = [cut for cut in document.cuts if cut.part == packed.part]
    if not cuts:
        return ""
    runs = f"{len(cuts)} run{'' if len(cuts) == 1 else 's'} of {listed(str(n) for n in sorted({cut.sticks for cut in cuts}))}"
    lays = listed(dict.fromkeys(show_length(cut.lay_in, units) for cut in cuts))
    return f"{runs}; last lay {lays}, cut to fit"


def _laid(packed: Packed, line: Line, document: Document, units: str) -> str:
    """ "2 runs of 6; last 6-0, cut to fit": runners, boards and roll-up pipes, which are laid stick by stick on both sides."""
    runs: dict[tuple[str, str], list[float]] = {}
    for member in document.members:
        if member.part == packed.part and (place := read_place(member.id)):
            runs.setdefault((place.side, place.station), []).append(member.length_in)
    if not runs:
        return _by_reason(packed, line, document, units)
    counts = listed(str(count) for count in sorted({len(lengths) for lengths in runs.values()}))
    sawn = sorted({lengths[-1] for lengths in runs.values() if line.length_in and lengths[-1] < line.length_in - LEAST_OFFCUT_IN})
    last = f"; last {listed(show_length(length, units) for length in sawn)}, cut to fit" if sawn else ""
    return f"{len(runs)} run{'' if len(runs) == 1 else 's'} of {counts}{last}"


def _at_feet(packed: Packed, line: Line, document: Document, units: str) -> str:
    return f"both feet of {hoops_said(_hoops(line))}"


def _web(packed: Packed, line: Line, document: Document, units: str) -> str:
    return f"from each tie up to its hoop, {hoops_said(_hoops(line))}"


def _end(packed: Packed, line: Line, document: Document, units: str) -> str:
    runs = {(place.side, place.station) for where in _all(line) if (place := read_place(where))}
    # A purlin end lies in a bay: the first bay's is at hoop 1, the last bay's at the last hoop.
    bays = {place.n for where in _all(line) if (place := read_place(where))}
    last = document.measures.hoops
    hoops = {1, last} if document.measures.bays == 1 else {1 if bay == 1 else last for bay in bays}
    return f"{hoops_said(hoops)}, {_NUMBERS.get(len(runs), len(runs))} run{'' if len(runs) == 1 else 's'}"


def _brace(packed: Packed, line: Line, document: Document, units: str) -> str:
    row = next((row for row in piece_rows(document, {}) if row.part == packed.part), None)
    if row is None:
        return _by_reason(packed, line, document, units)
    mid = f"; mid-length {row.mid}" if row.mid else ""
    if row.tag and row.far and not any(side in f"{row.tag}{row.far}" for side in ("-L-", "-R-")):
        return f"each corner, {row.tag}{mid}"
    return "; ".join(part for part in (row.tag, row.far) if part) + mid


def _tie(packed: Packed, line: Line, document: Document, units: str) -> str:
    return hoops_said(_hoops(line))


def _band(packed: Packed, line: Line, document: Document, units: str) -> str:
    roles = [member.role for member in document.members]
    roles += [brace.role for brace in document.braces] + [tie.role for tie in document.ties]
    pieces = Counter(roles)
    kinds = [because.kind for because in line.because]
    if all(because.count == 2 * pieces.get(because.kind, -1) for because in line.because):
        return f"2 to each {_or(_PIECES.get(kind, kind) for kind in kinds)}".replace(" or ", " and ")
    return "; ".join(because.words.in_units(units) for because in line.because)


def _connector(packed: Packed, line: Line, document: Document, units: str) -> str:
    places = [place for where in _all(line) if (place := read_place(where))]
    runs = len({(place.side, place.station) for place in places})
    return f"{runs} run{'' if runs == 1 else 's'} on {hoops_said(place.n for place in places)}"


def _fastener(packed: Packed, line: Line, document: Document, units: str) -> str:
    """ "1 to each brace band, 2 to a connector": the reasons that have places, by how many each place takes."""
    by_per: dict[int, list[str]] = {}
    rest = []
    for because in line.because:
        if because.where:
            words = "band" if because.kind in _PIECES else _JOINTS.get(because.kind, because.kind)
            by_per.setdefault(because.per, []).append(words)
        else:
            rest.append(because.words.in_units(units))
    placed = [f"{per} to each {_or(words)}" for per, words in sorted(by_per.items())]
    return "; ".join([*placed, *rest])


def _bracket(packed: Packed, line: Line, document: Document, units: str) -> str:
    ends = {place.n for where in _all(line) if (place := read_place(where)) and place.row == "E"}
    return f"end wall uprights, {hoops_said(ends, 'E')}" if ends else _by_reason(packed, line, document, units)


def _by_reason(packed: Packed, line: Line, document: Document, units: str) -> str:
    return "; ".join(because.words.in_units(units) for because in line.because)


def _all(line: Line) -> list[str]:
    return [where for because in line.because for where in because.where]


def _hoops(line: Line) -> list[int]:
    return [place.n for where in _all(line) if (place := read_place(where)) and place.row == "H"]


def _or(words: Iterable[str]) -> str:
    return listed(dict.fromkeys(words)).replace(" and ", " or ")


_TELLERS = {
    "section": _section, "post": _post, "stick": _stick, "end": _end, "side-brace": _brace, "roof-lower": _brace,
    "roof-upper": _brace, "tie": _tie, "band": _band, "connector": _connector,
    "bracket": _bracket, "runner": _laid, "board": _laid, "roll-pipe": _laid, "web": _web, "anchor": _at_feet, "shoe": _at_feet,
    "wheel": _at_feet,
}
_BY_KIND = {"fastener": _fastener}


def caution_words(caution: Mapping[str, Any], units: str = "us") -> str:
    """One caution for the person who lifts."""
    if caution["code"] == "look-up":
        return f"{show_length(caution['length_in'], units)} long, look up before lifting"
    people, single = caution["people"], caution.get("single_lb")
    by_hand = f"{_NUMBERS[people]} people" if people <= MOST_LIFTERS else ""
    if single is None:
        return f"{by_hand} to lift it" if by_hand else "not lifted by hand"
    return f"{f'{by_hand}, or open it' if by_hand else 'open it to carry'}: single piece {single:,.0f} lb"


def weight_words(weight_lb: float | None) -> str:
    """Pounds to the whole one, or the word."""
    return "weight unknown" if weight_lb is None else f"{weight_lb:,.0f} lb"
