"""The answer in one or two sentences, to be read aloud. Pure: from a frozen document, as pieces of text and whether bold."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from inventory.answering import Gap, no_rows
from structures.frame.document import Brace, Document
from structures.frame.names import listed

Said = tuple[tuple[str, bool], ...]
_SMALL = {1: "one", 2: "two", 3: "three", 4: "four"}
_PIECE_WORDS = {"roof-lower": "lower roof", "roof-upper": "upper roof", "side-brace": "side"}


def braces_said(document: Document, verb: str) -> Said:
    """Which braces: "This order included **16 corner brace pieces: 8 side and 8 roof**, two chains in each corner." """
    braces = document.braces
    if not braces:
        return ((f"This order {verb} ", False), ("no corner braces", True), (". ", False), *_turned(braces), *_nos(document, verb))
    zones = Counter(brace.zone for brace in braces)
    mid = Counter(brace.zone for brace in braces if brace.corner.startswith("mid"))
    kind = "brace" if mid else "corner brace"
    count = f"{len(braces)} {kind} piece{'' if len(braces) == 1 else 's'}"
    by_zone = listed(f"{n} {zone}" for zone, n in zones.items())
    only = next(iter(zones))
    counts = f"{count}: {by_zone}" if len(zones) > 1 else f"{count}, all in the {'sides' if only == 'side' else only}"
    chains = len({brace.zone for brace in braces if not brace.corner.startswith("mid")})
    said = [(f"This order {verb} ", False), (counts, True)]
    said.append((f", {_SMALL.get(chains, chains)} chain{'' if chains == 1 else 's'} in each corner" if _alike(braces) else "", False))
    if mid:
        where = listed(f"{n} {zone}" for zone, n in mid.items())
        said.append((f"; {where} pieces of these stand at mid-length", False))
    return (*said, (". ", False), *_turned(braces), *_nos(document, verb))


def _alike(braces: Sequence[Brace]) -> bool:
    """Whether all four corners have the same pieces."""
    corners: dict[str, Counter[str]] = {}
    for brace in braces:
        if not brace.corner.startswith("mid"):
            corners.setdefault(brace.corner, Counter())[brace.role] += 1
    found = list(corners.values())
    return len(found) == 4 and all(corner == found[0] for corner in found)


def _turned(braces: Sequence[Brace]) -> Said:
    """"The lower roof pieces are turned, **2 to the left and 2 to the right**." """
    turned = Counter((brace.role, brace.hand) for brace in braces if brace.twist_made)
    said: list[tuple[str, bool]] = []
    for role in dict.fromkeys(role for role, _ in turned):
        hands = listed(f"{turned[role, hand]} to the {hand}" for hand in ("left", "right") if turned[role, hand])
        name = _PIECE_WORDS.get(role, role.replace("-", " "))
        some = sum(turned[role, hand] for hand in ("left", "right"))
        if some == sum(brace.role == role for brace in braces):
            said += [(f"The {name} pieces are turned, ", False), (hands, True), (". ", False)]
        else:
            said += [(f"Of the {name} pieces {some} {'is' if some == 1 else 'are'} turned, ", False), (hands, True), (". ", False)]
    return tuple(said)


def _nos(document: Document, verb: str) -> Said:
    """What was offered and not bought, in one sentence."""
    names = [row.name[:1].lower() + row.name[1:] for row in no_rows(document) if row.kind == "offered, not bought"]
    if not names:
        return ()
    return ((f"It {'did not include' if verb == 'included' else 'does not include'} {_either(names)}.", False),)


def _either(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def gap_sentence(gap: Gap) -> str:
    """The gap of one part between what was ordered, picked and shipped."""
    if gap.picked == gap.shipped:
        left = gap.ordered - gap.shipped
        come = f"{left:,} {'is' if left == 1 else 'are'} still to come"
        return f"{gap.name}: {gap.shipped:,} of {gap.ordered:,} were picked and shipped; {come}."
    return f"{gap.name}: of {gap.ordered:,}, {gap.picked:,} were picked and {gap.shipped:,} shipped."


def gaps_said(gaps: Sequence[Gap], most: int = 3) -> list[str]:
    """The gaps one by one; many are counted instead."""
    said = [gap_sentence(gap) for gap in gaps[:most]]
    if len(gaps) > most:
        more = len(gaps) - most
        said.append(f"{more} more part{'' if more == 1 else 's'} differ: see the packages.")
    return said


def plain(said: Iterable[tuple[str, bool]]) -> str:
    """The sentence without its weights."""
    return "".join(text for text, _ in said).strip()
