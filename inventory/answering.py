"""What an order included and where each piece goes: the rows of an answer, from one frozen document.

Pure. The words for a person are made in `inventory.answer_words`; here are groups, counts and places.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from inventory.whereabouts import chains_in_words, chains_said, hoops_said
from structures.frame import drawing
from structures.frame.document import Brace, Document, Line, OptionAnswer, Tie
from structures.frame.said import Said

ENDS = ("tag", "far", "mid")


@dataclass(frozen=True, slots=True)
class PieceRow:
    """One part of the braces or ties: how many, how long (inches, hole to hole), and the places at each end.

    `tag`, `far` and `mid` are words made of location codes, "" where no piece of it lies there.
    """

    mark: str
    role: str
    option: str
    part: str
    name: str
    hand: str
    length_in: float
    count: int
    tag: str
    far: str
    mid: str
    ids: tuple[str, ...]

    @property
    def tag_words(self) -> str:
        """The places at the tag end in words."""
        return chains_in_words(self.tag)

    @property
    def far_words(self) -> str:
        """The places at the far end in words."""
        return chains_in_words(self.far)

    @property
    def mid_words(self) -> str:
        """The places at mid-length in words."""
        return chains_in_words(self.mid)


@dataclass(frozen=True, slots=True)
class LandingRow:
    """A mark along the tube: on which hoops, of what, inches from the foot and from the nearest end of its piece."""

    hoops: str
    side: str
    station: str
    name: str
    from_foot_in: float
    datum: str
    from_datum_in: float
    edge_in: float
    option: str


@dataclass(frozen=True, slots=True)
class NoRow:
    """An option that this order has not: which kind of no, and its words."""

    code: str
    name: str
    kind: str
    words: Said
    pieces: int
    bands: int


def piece_rows(document: Document, letters: Mapping[str, str]) -> tuple[PieceRow, ...]:
    """Braces then ties, one row for each part and hand. `letters` gives each part the mark that its drawing has."""
    lines = {line.part: line for line in document.lines}
    groups: dict[tuple[str, str], list[Brace]] = {}
    for brace in document.braces:
        groups.setdefault((brace.role, brace.part), []).append(brace)
    rows = [_brace_row(braces, lines, letters) for braces in groups.values()]
    ties: dict[str, list[Tie]] = {}
    for tie in document.ties:
        ties.setdefault(tie.part, []).append(tie)
    rows += [_tie_row(group, lines, letters) for group in ties.values()]
    return tuple(sorted(rows, key=lambda row: row.mark or "~"))


def _brace_row(braces: list[Brace], lines: Mapping[str, Line], letters: Mapping[str, str]) -> PieceRow:
    first = braces[0]
    at = {end: [b for b in braces if b.corner.startswith(end)] for end in ENDS}
    line = lines.get(first.part)
    return PieceRow(
        mark=letters.get(first.part, ""), role=first.role, option=first.option, part=first.part,
        name=line.name if line else first.part, hand=line.hand if line else "", length_in=first.length_in,
        count=len(braces), ids=tuple(b.id for b in braces),
        **{end: chains_said([(b.from_, b.to) for b in group]) for end, group in at.items()},
    )


def _tie_row(ties: list[Tie], lines: Mapping[str, Line], letters: Mapping[str, str]) -> PieceRow:
    first = ties[0]
    line = lines.get(first.part)
    return PieceRow(
        mark=letters.get(first.part, ""), role=first.role, option=first.option, part=first.part,
        name=line.name if line else first.part, hand="", length_in=first.length_in, count=len(ties),
        tag=f"across {hoops_said(t.hoop for t in ties)}", far="", mid="", ids=tuple(t.id for t in ties),
    )


def landing_rows(document: Document, options: Iterable[str] = ()) -> tuple[LandingRow, ...]:
    """Marks along the tube from the foot upward; of these options only, when any are named."""
    wanted = set(options)
    rows = [
        LandingRow(hoops_said(mark.hoops), mark.side, mark.code, mark.name, mark.from_foot_in, mark.datum,
                   mark.from_datum_in, mark.edge_in, mark.option)
        for mark in document.marks
        if not wanted or mark.option in wanted
    ]
    return tuple(sorted(rows, key=lambda row: (row.from_foot_in, row.name, row.hoops)))


def no_rows(document: Document) -> tuple[NoRow, ...]:
    """Options that are not included: offered and not bought first, then not made for this size, then the rest."""
    order = ("offered, not bought", "not made for this size", "replaced", "not offered")
    rows = [_no_row(option) for option in document.options if not option.included]
    return tuple(sorted(rows, key=lambda row: (order.index(row.kind) if row.kind in order else len(order), row.name)))


def _no_row(option: OptionAnswer) -> NoRow:
    return NoRow(option.code, option.name, option.no_because, option.no_words, option.pieces, option.bands)


def corner_shown(document: Document, lit: Collection[str], asked: str = "") -> tuple[str, tuple[str, ...]]:
    """The corner that is drawn as seen from inside, such as "tag-right", and all that can be: the one asked for, else the first
    in which a lit piece is; ("", ()) for a frame without braces."""
    there = tuple(view.partition("-")[2] for view in drawing.views_of(document) if view.startswith("inside-"))
    if not document.braces or not there:
        return "", ()
    held = {brace.corner.replace(" ", "-") for brace in document.braces if brace.id in lit}
    return (asked if asked in there else next((corner for corner in there if corner in held), there[0])), there


def joint_shown(
    document: Document, lit: Collection[str], asked: str = ""
) -> tuple[drawing.JointKind | None, tuple[drawing.JointKind, ...]]:
    """The joint of a brace or tie that is drawn, and all kinds of them: the one whose role is asked for, else the first that
    holds a lit piece; (None, ()) where the document knows no hardware."""
    pieces = {brace.id for brace in document.braces} | {tie.id for tie in document.ties}
    holds = {joint.id: {*joint.holds} & pieces for joint in document.joints}
    kinds = tuple(kind for kind in drawing.joint_kinds(document) if any(holds[joint] for joint in kind.joints))
    held = (kind for kind in kinds if any(holds[joint] & {*lit} for joint in kind.joints))
    return next((kind for kind in kinds if kind.role == asked), next(held, kinds[0] if kinds else None)), kinds


@dataclass(frozen=True, slots=True)
class Gap:
    """One part whose lists differ: ordered, picked and shipped are counts of pieces."""

    name: str
    ordered: int
    picked: int
    shipped: int


def gaps(rows: Iterable[tuple[str, int, int, int]]) -> tuple[Gap, ...]:
    """The (name, ordered, picked, shipped) rows whose three counts are not one."""
    return tuple(Gap(*row) for row in rows if len(set(row[1:])) > 1)
