"""Braces and ties as a crew reads them: which piece, how long, which end is turned, what is set and what follows."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from structures.frame.document import Brace, Landing, Member, Reach, Tie
from structures.frame.names import hoops_words, listed
from structures.frame.sheet.telling import Telling, following_end

NO_TWIST_DEG = 0.05
MM_STEP_IN = 10 / 25.4
NO_MOVE_IN = 1 / 32


@dataclass(frozen=True, slots=True)
class BraceRow:
    """One brace piece, or several that differ by their corner alone; `turned` is "none" or "unknown" where it is so."""

    letter: str
    piece: str
    part: str
    corners: str
    length: str
    twist: str
    set_at: str
    follows: str
    turned: str
    moves: str
    furthest: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class TieRow:
    """Ties or webs of one part, and where they go, in words."""

    letter: str
    piece: str
    part: str
    count: int
    length: str
    where: str


def brace_row(telling: Telling, brace: Brace) -> BraceRow:
    """One piece of one corner, with its location codes."""
    follows = following_end(telling.document, brace)
    fixed, free = _ends(brace, follows)
    return BraceRow(
        letter=telling.letter(brace.part), piece=piece_words(telling, brace), part=brace.part, corners=brace.corner,
        length=telling.figure(brace.length_in), twist=twist_words(brace), set_at=fixed.code if fixed.set else f"from {fixed.code}",
        follows=free.code, turned=turned_code(brace), moves=moves_words(telling, brace.reach),
        furthest=furthest_words(telling, brace.reach),
    )


def tie_piece_row(telling: Telling, tie: Tie) -> BraceRow:
    """A tie as a piece among a corner's braces: both ends lie by their marks and nothing follows."""
    return BraceRow(
        telling.letter(tie.part), telling.name(tie.part), tie.part, "", telling.figure(tie.length_in), "none",
        "both ends", "none", "none", "unknown", "unknown",
    )


def brace_rows(telling: Telling) -> tuple[BraceRow, ...]:
    """Every brace piece; pieces of several corners that are set, turned and led alike share a row."""
    alike: dict[tuple[str, ...], list[BraceRow]] = defaultdict(list)
    for brace in telling.document.braces:
        row = brace_row(telling, brace)
        alike[row.letter, row.part, str(brace.chain), row.length, row.twist, _station(row.set_at), _station(row.follows),
              row.moves, row.furthest].append(row)
    rows = [_together(group) for group in alike.values()]
    return tuple(sorted(rows, key=lambda row: (row.letter or "~", row.set_at)))


def _together(rows: list[BraceRow]) -> BraceRow:
    first = rows[0]
    codes = {name: codes_words([getattr(row, name) for row in rows]) for name in ("set_at", "follows", "turned")}
    return BraceRow(
        first.letter, first.piece, first.part, listed(dict.fromkeys(row.corners for row in rows)), first.length, first.twist,
        codes["set_at"], codes["follows"], codes["turned"], first.moves, first.furthest, len(rows),
    )


def codes_words(codes: list[str]) -> str:
    """Codes in a row; where left and right are both there the side is left out: "H3-foot and H11-foot"."""
    lead = "from " if all(code.startswith("from ") for code in codes) else ""
    bare = [code.removeprefix(lead) for code in codes]
    sides: dict[str, set[str]] = defaultdict(set)
    for code in bare:
        sides[_both_sides(code)].add(code)
    return lead + listed(dict.fromkeys(_both_sides(code) if len(sides[_both_sides(code)]) > 1 else code for code in bare))


def _both_sides(code: str) -> str:
    return code.replace("-L-", "-", 1) if "-L-" in code else code.replace("-R-", "-", 1)


def tie_rows(telling: Telling) -> tuple[TieRow, ...]:
    """Ties by part and place, then the webs between a tie and its hoop."""
    groups: dict[tuple[str, float], list[Tie]] = defaultdict(list)
    for tie in telling.document.ties:
        groups[tie.part, round(tie.station_in, 3)].append(tie)
    rows = [
        TieRow(telling.letter(part), telling.name(part), part, len(ties), telling.figure(ties[0].length_in),
               f"across {hoops_said(tie.hoop for tie in ties)}, {telling.figure(ties[0].station_in)} up from each foot, "
               f"{telling.figure(ties[0].from_ridge_in)} down from the ridge, to the middle of its bands")
        for (part, _), ties in groups.items()
    ]
    webs: dict[str, list[Member]] = defaultdict(list)
    for member in telling.document.members:
        if member.role == "web":
            webs[member.part].append(member)
    return (*rows, *(_web_row(telling, part, members) for part, members in webs.items()))


def _web_row(telling: Telling, part: str, webs: list[Member]) -> TieRow:
    hoops = {int(web.from_.partition("-")[0].removeprefix("H")) for web in webs}
    top = telling.place(webs[0].to).split()[-1]
    return TieRow(telling.letter(part), telling.name(part), part, len(webs), telling.figure(webs[0].length_in),
                  f"on {hoops_said(hoops)}, from the tie up to the band at its mark, {top}")


def hoops_said(hoops: Iterable[int]) -> str:
    """ "hoop 3", "hoops 1 and 13"."""
    numbers = sorted(set(hoops))
    return f"hoop{'' if len(numbers) == 1 else 's'} {hoops_words(numbers)}"


def piece_words(telling: Telling, brace: Brace) -> str:
    """What the piece is; how it is turned stands in a column of its own."""
    return telling.name(brace.part).removesuffix(f", {brace.hand} twist")


def twist_words(brace: Brace) -> str:
    """How far it is turned from end to end, which way, and who turns it."""
    if abs(brace.twist_deg) < NO_TWIST_DEG:
        return "none"
    by = "made at the press" if brace.twist_made else "taken up in the bands"
    return f"{abs(brace.twist_deg):.1f}° {brace.hand}, {by}"


def turned_code(brace: Brace) -> str:
    """Where the end lies that the twist turns: the one bolted last. "none" for a piece without a twist."""
    if not brace.twist_made:
        return "none"
    if not brace.turned_end:
        return "unknown"
    return brace.landing_from.code if brace.turned_end == "from" else brace.landing_to.code


def moves_words(telling: Telling, reach: Reach | None) -> str:
    """How far the following end comes away from its mark when its bay is too wide."""
    if reach is None:
        return "unknown"
    if reach.moves_in is None:
        return "no longer reaches when the bay is too wide"
    per_inch = 2 * reach.moves_in
    if abs(per_inch) < NO_MOVE_IN:
        return "hardly moves"
    way = "higher" if per_inch > 0 else "lower"
    if telling.units == "metric":
        return f"about {telling.small(abs(per_inch) * MM_STEP_IN)} {way} for each 10 mm the bay is too wide"
    return f"about {telling.small(abs(per_inch))} {way} for each 1 in. the bay is too wide"


def furthest_words(telling: Telling, reach: Reach | None) -> str:
    """Between which places of its hoop the following band may come to lie, and what it meets there."""
    if reach is None:
        return "unknown"
    low, high = (f"{telling.figure(at)} ({_stop(stop)})" for at, stop in
                 ((reach.low_in, reach.low_stop), (reach.high_in, reach.high_stop)))
    return f"{low} to {high}"


def _stop(stop: str) -> str:
    """What is met at a furthest place: a place id without its hoop and side, or a word."""
    code, _, kind = stop.partition(":")
    return f"{_station(code)} {kind.partition(':')[0]}".strip() if kind else stop


def _station(code: str) -> str:
    """The station of a code, "from" kept: what is left when hoop and side are taken away."""
    lead = "from " if code.startswith("from ") else ""
    parts = code.removeprefix("from ").split("-")
    rest = parts[2:] if len(parts) > 1 and parts[1] in ("L", "R") else parts[1:]
    return lead + "-".join(rest)


def _ends(brace: Brace, follows: str) -> tuple[Landing, Landing]:
    """The end that is placed first, and the one that follows."""
    return ((brace.landing_to, brace.landing_from) if follows == "from" else (brace.landing_from, brace.landing_to))
