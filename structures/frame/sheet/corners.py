"""One corner of the structure: where each band goes, which brace, which end is turned, and the steps that fit them."""

from __future__ import annotations

from dataclasses import dataclass

from structures.frame.document import Brace, Document, Landing, Mark
from structures.frame.names import listed
from structures.frame.sheet.braces import BraceRow, brace_row
from structures.frame.sheet.steps import StepRow, steps_with
from structures.frame.sheet.telling import Telling, landings_of

CORNERS = ("tag left", "tag right", "far left", "far right")
_WHICH = {1: ("",), 2: ("lower", "upper")}
_NOT_HERE = ("offered, not bought", "not made for this size", "replaced")


@dataclass(frozen=True, slots=True)
class LandingRow:
    """One band: `number` is the place's number on the close-up, "" for the second band at a place; `holds` is the
    letter of the piece in it."""

    number: str
    code: str
    which: str
    piece: str
    measured: str
    edge: str
    centre: str
    from_foot: str
    holds: str
    joint: str


@dataclass(frozen=True, slots=True)
class CornerPage:
    """Everything about one corner. `corner` is the document's word, "tag right"; `hoops` are read from one's left."""

    corner: str
    number: int
    title: str
    you_stand: str
    hoops: str
    landings: tuple[LandingRow, ...]
    braces: tuple[BraceRow, ...]
    steps: tuple[StepRow, ...]
    absent: str
    ids: tuple[str, ...]

    @property
    def view(self) -> str:
        """The name of the close-up of this corner from inside; "" for pieces that stand at no corner."""
        return f"inside-{self.corner.replace(' ', '-')}" if self.corner in CORNERS else ""


def corner_pages(telling: Telling) -> tuple[CornerPage, ...]:
    """The four corners, then what braces stand elsewhere, each with only what the document has; none without braces."""
    if not telling.document.braces:
        return ()
    others = sorted({brace.corner for brace in telling.document.braces} - set(CORNERS))
    return tuple(_page(telling, corner, n) for n, corner in enumerate((*CORNERS, *others), 1))


def _page(telling: Telling, corner: str, number: int) -> CornerPage:
    braces = [brace for brace in telling.document.braces if brace.corner == corner]
    rows = landing_rows(telling, braces)
    ids = tuple(brace.id for brace in braces)
    return CornerPage(
        corner=corner, number=number, title=_title(corner, number), you_stand=_you_stand(corner),
        hoops=_hoops_from_left(telling.document, corner, braces), landings=rows,
        braces=tuple(brace_row(telling, brace) for brace in _as_built(braces)),
        steps=steps_with(telling, (*ids, *(row.joint for row in rows))),
        absent=absent_words(telling, "at this corner" if corner in CORNERS else "here", has=bool(braces)), ids=ids,
    )


def _title(corner: str, number: int) -> str:
    end, _, side = corner.partition(" ")
    if corner in CORNERS:
        return f"Corner {number} of {len(CORNERS)}: {end} end, {side}"
    return f"Mid-length, {side}" if end == "mid" else corner.capitalize()


def _you_stand(corner: str) -> str:
    return "inside, facing it" if corner in CORNERS else f"inside, facing the {corner.rpartition(' ')[2]} side"


def _hoops_from_left(document: Document, corner: str, braces: list[Brace]) -> str:
    """Hoop numbers as they stand from one's left to one's right, looking at them from inside.

    Hoop 1 is at the tag end; who faces the right side from inside has the tag end at the right hand.
    """
    hoops = sorted({at.hoop for brace in braces for at in landings_of(brace)})
    if not hoops:
        last = document.measures.hoops
        hoops = [1] if corner.startswith("tag") else [last]
    if corner.endswith("right"):
        hoops.reverse()
    return ", ".join(map(str, hoops))


def _as_built(braces: list[Brace]) -> list[Brace]:
    """Side before roof, and in a chain the piece with the set landing first, as they are bolted."""
    def rank(brace: Brace) -> tuple[int, str, int]:
        return (0 if brace.zone == "side" else 1, brace.chain, 0 if brace.landing_from.set or brace.landing_to.set else 1)

    return sorted(braces, key=rank)


def landing_rows(telling: Telling, braces: list[Brace]) -> tuple[LandingRow, ...]:
    """Every band of these braces from the ground upward; places are numbered in that order."""
    found: dict[str, Landing] = {at.joint: at for brace in braces for at in landings_of(brace)}
    held = {at.joint: telling.letter(brace.part) for brace in braces for at in landings_of(brace)}
    bands = sorted(found.values(), key=lambda at: (at.from_foot_in, at.hoop))
    places: dict[str, list[Landing]] = {}
    for band in bands:
        places.setdefault(band.code, []).append(band)
    rows = []
    for number, group in enumerate(places.values(), 1):
        words = _WHICH.get(len(group)) or tuple(f"band {n}" for n in range(1, len(group) + 1))
        rows += [_row(telling, band, "" if n else str(number), words[n], held[band.joint]) for n, band in enumerate(group)]
    return tuple(rows)


def _row(telling: Telling, band: Landing, number: str, which: str, holds: str) -> LandingRow:
    mark: Mark | None = telling.mark_of(band)
    return LandingRow(
        number=number, code=band.code, which=which, piece=telling.name(mark.piece) if mark else "unknown",
        measured="butted on it" if which == "upper" else telling.measured(mark) if mark else "up from the foot",
        edge=telling.figure(mark.edge_in) if mark else "unknown",
        centre=telling.figure(mark.from_datum_in if mark else band.from_foot_in),
        from_foot=telling.figure(band.from_foot_in), holds=holds, joint=band.joint,
    )


def absent_words(telling: Telling, here: str, *, has: bool) -> str:
    """One sentence on what is not here and which kind of no it is."""
    said = [f"This order has no {'other brace' if has else 'brace'} {here}"]
    for kind in _NOT_HERE:
        names = [option.name[:1].lower() + option.name[1:] for option in telling.document.options
                 if not option.included and option.no_because == kind]
        if names:
            said.append(f"{kind}: {listed(names)}")
    return "; ".join(said) + "."
