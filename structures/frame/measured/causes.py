"""It won't meet: every cause solved for the gap that it would give, and ranked by the gap that was measured."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from structures.frame.document import Brace, Document, Landing, Tie
from structures.frame.measured.ends import Ends
from structures.frame.measured.tape import LookAlike, Measured, alike
from structures.frame.said import Said

FITS_IN = 1 / 8          # a cause whose gap is this near to the measured one gives it
LIKELY_IN = 1.0          # a bay further out than this was seen before the braces went on
FAR_IN = 6.0             # a cause whose gap is this far from the measured one is not worth a line
REACH_IN = 24.0          # a mark further off is not taken for another
ORDER = ("spacing", "ends swapped", "mark", "part")


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing that could be behind a gap: `gap_in` is the gap that it gives (+ the hole stops short, - it goes past),
    `settles` the one measurement that decides, with what it `reads_in` if this is the cause and `should_in` if not."""

    kind: str                      # one of ORDER
    says: Said
    gap_in: float
    settles: Said
    reads_in: float
    should_in: float
    fits: bool


def causes_of(
    document: Document, piece: Brace | Tie, end: str, gap_in: float, *, measured: Measured | None = None,
    more: Iterable[LookAlike] = (),
) -> tuple[Cause, ...]:
    """What gives that gap at one end ("from", "to") of a piece whose other end is bolted on, the likeliest first.

    `gap_in` is how far the end's hole stops short of its band's (negative: how far it goes past). Those that give it come
    first, in the order in which a builder checks (common practice, no source: spacing, then marks, then length), but a bay
    that would have to be out by over an inch comes after them; then the rest by how near their gap comes.
    """
    ends = Ends.of(document, piece)
    found = [*_spacing(document, ends, gap_in, measured or Measured()), *_marks(document, ends, gap_in),
             *_parts(document, ends, gap_in, more)]
    near = [cause for cause in found if cause.fits or abs(cause.gap_in - gap_in) <= FAR_IN]
    return tuple(sorted(near, key=lambda cause: _rank(cause, gap_in)))


def _rank(cause: Cause, gap_in: float) -> tuple[bool, bool, float, float]:
    far = cause.kind == "spacing" and abs(cause.reads_in - cause.should_in) > LIKELY_IN
    order = ORDER.index(cause.kind) if cause.fits else 0
    return not cause.fits, far, order, abs(cause.gap_in - gap_in)


def _spacing(document: Document, ends: Ends, gap_in: float, measured: Measured) -> Iterator[Cause]:
    """A measured bay has one gap to give; one that nobody measured is solved for the gap that was seen."""
    a, b = sorted((ends.landing("from").hoop, ends.landing("to").hoop))
    if a == b:
        return
    clear = document.measures.clear_gap_in + (b - a - 1) * document.measures.spacing_in
    bays = range(a, b)
    if all(bay in measured.gaps for bay in bays):
        wider: float | None = sum(measured.gaps[bay] - document.measures.clear_gap_in for bay in bays)
    else:
        wider = ends.wider_for(ends.piece.length_in + gap_in)
    if wider is None:
        return
    gives = ends.span(wider_in=wider) - ends.piece.length_in
    way = "far apart" if wider > 0 else "near"
    yield Cause(
        "spacing",
        Said("Hoops {a} and {b} stand {wider_in} too " + way + ".", {"a": a, "b": b, "wider_in": abs(wider)}), gives,
        Said("Measure the clear gap between hoops {a} and {b} at this height: {reads_in} if it is this, {should_in} if not.",
             {"a": a, "b": b, "reads_in": clear + wider, "should_in": clear}),
        clear + wider, clear, abs(gives - gap_in) <= FITS_IN,
    )


def _marks(document: Document, ends: Ends, gap_in: float) -> Iterator[Cause]:
    """One band on the mark of another thing on its hoop, or two marks of the chain swapped between their hoops."""
    for end in ("from", "to"):
        own = ends.landing(end)
        for at, what in sorted(_other_marks(document, own)):
            says = Said("The band at {code} sits on the mark of the {what}, {at_in} from the foot.",
                        {"code": own.code, "what": what, "at_in": at})
            yield _moved(ends, own, at, _with(ends, end, at), gap_in, "mark", says)
    for own, other in _swaps(document, ends):
        end = "from" if own == ends.landing("from") else "to"
        far = ends.landing("to" if end == "from" else "from")
        both = other.hoop == far.hoop
        says = Said("The marks of {code} and {other} are swapped.", {"code": own.code, "other": other.code})
        gives = _with(ends, end, other.from_foot_in, own.from_foot_in if both else None)
        yield _moved(ends, own, other.from_foot_in, gives, gap_in, "ends swapped", says)


def _with(ends: Ends, end: str, at: float, other_at: float | None = None) -> float:
    """The gap with one end's band there, and the other end's too where a place is given."""
    span = ends.span(at, other_at) if end == "from" else ends.span(other_at, at)
    return span - ends.piece.length_in


def _moved(ends: Ends, own: Landing, at: float, gives: float, gap_in: float, kind: str, says: Said) -> Cause:
    return Cause(
        kind, says, gives,
        Said("Measure from the foot to the middle of the band at {code}: {reads_in} if it is this, {should_in} if not.",
             {"code": own.code, "reads_in": at, "should_in": own.from_foot_in}),
        at, own.from_foot_in, abs(gives - gap_in) <= FITS_IN,
    )


def _swaps(document: Document, ends: Ends) -> list[tuple[Landing, Landing]]:
    """Pairs of the chain's marks at this corner that could be swapped, one of them this piece's own; each hoop pair once."""
    piece = ends.piece
    if isinstance(piece, Tie):
        return []
    chain = [brace for brace in document.braces if (brace.chain, brace.corner) == (piece.chain, piece.corner)]
    others = {at.hoop: at for brace in chain for at in (brace.landing_from, brace.landing_to)}
    pairs: dict[frozenset[int], tuple[Landing, Landing]] = {}
    for own in (piece.landing_from, piece.landing_to):
        for hoop, at in others.items():
            if hoop != own.hoop and at.station != own.station:
                pairs.setdefault(frozenset((own.hoop, hoop)), (own, at))
    return list(pairs.values())


def _other_marks(document: Document, own: Landing) -> set[tuple[float, str]]:
    """The other marks on the landing's hoop and side that are near enough to be taken for it."""
    return {
        (round(mark.from_foot_in, 3), f"{mark.name} at {mark.code}") for mark in document.marks
        if own.hoop in mark.hoops and mark.side in ("both", own.side, "")
        and 1 / 16 < abs(mark.from_foot_in - own.from_foot_in) <= REACH_IN
    }


def _parts(document: Document, ends: Ends, gap_in: float, more: Iterable[LookAlike]) -> Iterator[Cause]:
    for twin in alike(document, ends.piece, more):
        gives = ends.piece.length_in - twin.length_in
        yield Cause(
            "part", Said("The piece is a {name} ({part}).", {"name": twin.name[:1].lower() + twin.name[1:], "part": twin.part}),
            gives,
            Said("Measure the piece from hole to hole: {reads_in} if it is this, {should_in} if not.",
                 {"reads_in": twin.length_in, "should_in": ends.piece.length_in}),
            twin.length_in, ends.piece.length_in, abs(gives - gap_in) <= FITS_IN,
        )
