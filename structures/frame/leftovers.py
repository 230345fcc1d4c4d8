"""What is left over when the frame stands, so that nobody takes it for a missing piece: offcuts, spares, what fills a pack."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from structures.frame.document import Document, Line
from structures.frame.lengths import show_length

LEAST_OFFCUT_IN = 1 / 16
# Pieces that come as long as they are, and the sticks and ends of a purlin run, whose cuts the document lists.
CUT_ELSEWHERE = frozenset({"section", "post", "stick", "end", "web"})


@dataclass(frozen=True, slots=True)
class Leftover:
    """What remains when the frame stands: `kind` "offcut" (of `length_in`), "spare" or "pack rounding"."""

    kind: str
    name: str
    count: int
    length_in: float | None = None


def leftovers_of(document: Document) -> tuple[tuple[Line, tuple[Leftover, ...]], ...]:
    """Every part that something remains of, in the kit's order, with what remains."""
    sawn = offcuts(document)
    found = []
    for line in document.lines:
        rest = (*sawn.get(line.part, ()), *extras(line.name, line.quantity - line.needed, line))
        if rest:
            found.append((line, rest))
    return tuple(found)


def extras(name: str, extra: int, line: Line | None) -> list[Leftover]:
    """`extra` pieces of a part beyond what the frame needs: its spares first, the rest fills a pack."""
    if line is None or not extra:
        return []
    spares = min(extra, line.spares)
    found = [Leftover("spare", name, spares), Leftover("pack rounding", name, extra - spares)]
    return [leftover for leftover in found if leftover.count]


def offcuts(document: Document) -> dict[str, list[Leftover]]:
    """What is sawn off the last stick of each run, by part; equal lengths together."""
    stock = {line.part: line.length_in or 0.0 for line in document.lines}
    sawn = [(cut.part, cut.offcut_in) for cut in document.cuts]
    sawn += [(member.part, stock.get(member.part, 0.0) - member.length_in) for member in document.members
             if member.role not in CUT_ELSEWHERE]
    counts = Counter((part, round(off_in, 3)) for part, off_in in sawn if off_in > LEAST_OFFCUT_IN)
    found: dict[str, list[Leftover]] = {}
    for (part, length), count in counts.items():
        found.setdefault(part, []).append(Leftover("offcut", "offcut", count, length))
    return found


def leftover_words(leftovers: Iterable[Leftover | Mapping[str, Any]], units: str = "us") -> str:
    """What remains when the frame stands: "nothing", or so many of what and why. Takes them as stored in JSON, too."""
    said = []
    for given in leftovers:
        leftover = asdict(given) if isinstance(given, Leftover) else given
        count = leftover["count"]
        if leftover["kind"] == "offcut":
            many = count != 1
            said.append(
                f"{count} offcut{'s' if many else ''} of about {show_length(leftover['length_in'], units)}"
                f"{', one from each run' if many else ''}. {'They are not missing pieces' if many else 'It is no missing piece'}"
            )
        elif leftover["kind"] == "spare":
            said.append(f"{count} {leftover['name']}, spare")
        else:
            said.append(f"{count} {leftover['name']}, to fill a pack")
    return "; ".join(said) if said else "nothing"
