"""One corner of the structure: where each band goes, which piece, which end is turned, and the steps that fit them."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from structures.frame import drawing
from structures.frame.document import Brace, Document, Tie
from structures.frame.names import listed
from structures.frame.sheet.braces import BraceRow, brace_row, tie_piece_row
from structures.frame.sheet.steps import StepRow, steps_with
from structures.frame.sheet.telling import Telling, landings_of

CORNERS = ("tag left", "tag right", "far left", "far right")
MIDDLES = ("mid left", "mid right")
_NOT_HERE = ("offered, not bought", "not made for this size", "replaced")


@dataclass(frozen=True, slots=True)
class LandingRow:
    """One band: `number` is the place's number on the close-up, "" for the second band at a place; `holds` is the
    letter of the piece in it, `ears` where its ears point: "hoop 2", "inside" for a tie's, "" for a piece that passes."""

    number: str
    code: str
    which: str
    piece: str
    measured: str
    edge: str
    centre: str
    from_foot: str
    holds: str
    ears: str
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
    def side_said(self) -> str:
        """Whose left or right the corner's name means, to who stands inside it."""
        return f"{self.corner.rpartition(' ')[2].capitalize()} is {self.corner.rpartition(' ')[2]} as seen from OUTSIDE the tag end."

    @property
    def view(self) -> str:
        """The name of the close-up from inside."""
        return f"inside-{self.corner.replace(' ', '-')}"


def corner_pages(telling: Telling) -> tuple[CornerPage, ...]:
    """The four corners, then mid-length where braces stand there, each with only what the document has; none without braces."""
    if not telling.document.braces:
        return ()
    at = {brace.corner for brace in telling.document.braces}
    others = [corner for corner in MIDDLES if corner in at]
    return tuple(_page(telling, corner, n) for n, corner in enumerate((*CORNERS, *others), 1))


def _page(telling: Telling, corner: str, number: int) -> CornerPage:
    braces = [brace for brace in telling.document.braces if brace.corner == corner]
    ids = tuple(brace.id for brace in braces)
    hoops = {at.hoop for brace in braces for at in landings_of(brace)}
    ties = [tie for tie in telling.document.ties if tie.hoop in hoops and corner in CORNERS]
    landings = landing_rows(telling, corner)
    places = (*ids, *(at.joint for brace in braces for at in landings_of(brace)))
    return CornerPage(
        corner=corner, number=number, title=_title(corner, number), you_stand=_you_stand(corner),
        hoops=_hoops_from_left(telling.document, corner, braces), landings=landings,
        braces=(*(brace_row(telling, brace) for brace in _as_built(braces)), *(tie_piece_row(telling, tie) for tie in ties[:1])),
        steps=tuple(_located(telling, step, landings) for step in steps_with(telling, places)),
        absent=_ties_said(telling, ties) + absent_words(telling, "at this corner" if corner in CORNERS else "here", has=bool(braces)),
        ids=ids,
    )


def _ties_said(telling: Telling, ties: list[Tie]) -> str:
    """In which steps the ties drawn here go on: those put in every tie of the frame, so they stand with the whole order of work."""
    steps = [str(step.number) for step in steps_with(telling, [tie.id for tie in ties])]
    return f"The ties go on in step{'s' if len(steps) > 1 else ''} {listed(steps)}. " if steps else ""


def _located(telling: Telling, step: StepRow, landings: tuple[LandingRow, ...]) -> StepRow:
    """A step with the letters and numbers of this corner's drawing behind its parts and places: "SB26 (A) at H3-L-foot (1)"."""
    signs = {row.code: row.number for row in landings if row.number} | telling.letters
    if not signs:
        return step
    codes = "|".join(re.escape(code) for code in sorted(signs, key=len, reverse=True))
    does = re.sub(rf"(?<![\w-])({codes})(?![\w-])", lambda found: f"{found[0]} ({signs[found[0]]})", step.does)
    return replace(step, does=does.replace(") (", ", "))


def _ears(telling: Telling) -> dict[str, str]:
    """Where the ears of each band point, by its joint: along the row to the piece's other end, or inward."""
    ears: dict[str, str] = {}
    for brace in telling.document.braces:
        ears[brace.landing_from.joint] = f"hoop {brace.landing_to.hoop}"
        ears[brace.landing_to.joint] = f"hoop {brace.landing_from.hoop}"
    for tie in telling.document.ties:
        ears |= {tie.landing_from.joint: "inside", tie.landing_to.joint: "inside"}
    return ears


def _title(corner: str, number: int) -> str:
    end, _, side = corner.partition(" ")
    if corner in CORNERS:
        return f"Corner {number} of {len(CORNERS)}: {end} end, {side}"
    return f"Mid-length, {side}"


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


def landing_rows(telling: Telling, corner: str) -> tuple[LandingRow, ...]:
    """Every band at this corner with the numbers of its drawings, from the ground upward, ties last."""
    rows = drawing.corner_rows(telling.document, corner.replace(" ", "-"), units=telling.units)
    ears = _ears(telling)
    found = []
    for n, row in enumerate(rows):
        first = n == 0 or rows[n - 1].number != row.number
        found.append(LandingRow(
            number=str(row.number) if first else "", code=row.code, which=row.which,
            piece=telling.section(row.on) if row.on else "unknown",
            measured=row.measure if first or not row.measure else "butted on it", edge=row.edge or "unknown",
            centre=row.centre or "unknown", from_foot=row.from_foot, holds=row.letter, ears=ears.get(row.place, ""), joint=row.place,
        ))
    return tuple(found)


def absent_words(telling: Telling, here: str, *, has: bool) -> str:
    """One sentence on what is not here and which kind of no it is."""
    said = [f"This order has no {'other brace' if has else 'brace'} {here}"]
    for kind in _NOT_HERE:
        names = [option.name[:1].lower() + option.name[1:] for option in telling.document.options
                 if not option.included and option.no_because == kind]
        if names:
            said.append(f"{kind}: {listed(names)}")
    return "; ".join(said) + "."
