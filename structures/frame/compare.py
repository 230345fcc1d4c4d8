"""Two documents side by side: what differs in kit, measures, options, marks and landings, and what of it can be lit.

Places at the far end are counted from the far end, so that a longer structure does not differ from a shorter one at every
corner only because its hoops have other numbers.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from structures.frame.document import Brace, Document, Mark, OptionAnswer, Tie
from structures.frame.kit import PIECE_WORDS

SAME_IN = 1 / 64     # lengths closer than this are the same

# Field of `Measures`, what it is in words, and whether it is a length, a count or an angle.
MEASURES = (
    ("length_in", "Length", "length"), ("spacing_in", "Hoops apart", "length"), ("bays", "Bays", "count"),
    ("hoops", "Hoops", "count"), ("width_in", "Width", "length"), ("peak_in", "Peak", "length"),
    ("developed_in", "Tube of one hoop", "length"), ("ridge_mark_in", "Ridge mark", "length"),
    ("clear_gap_in", "Clear gap between hoops", "length"), ("leg_in", "Straight leg", "length"),
    ("radius_in", "Radius", "length"), ("pitch_deg", "Roof pitch", "degrees"),
)


@dataclass(frozen=True, slots=True)
class CountChange:
    """One part of which the two kits have not the same: 0 is none of it."""

    part: str
    name: str
    unit: str
    first: int
    second: int

    @property
    def more(self) -> int:
        """How many more the second has; negative when it has fewer."""
        return self.second - self.first


@dataclass(frozen=True, slots=True)
class MeasureChange:
    """One size that differs. `kind` is "length" (inches), "count" or "degrees"; None is not stated."""

    name: str
    kind: str
    first: float | None
    second: float | None


@dataclass(frozen=True, slots=True)
class TextChange:
    """One thing in words that differs: base, an end wall, an option."""

    name: str
    first: str
    second: str


@dataclass(frozen=True, slots=True)
class MarkChange:
    """One station whose marks differ: the rows that each of the two has there, none for a mark that it has not."""

    code: str
    name: str
    first: tuple[Mark, ...]
    second: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class LandingChange:
    """Where pieces of one role (in words) land at one station, inches from the foot; and how long they are, hole to hole."""

    role: str
    station: str
    first: tuple[float, ...]
    second: tuple[float, ...]
    first_length_in: tuple[float, ...]
    second_length_in: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """All that differs. `lit_first` and `lit_second` hold piece ids and option codes to be lit; both are empty where nearly
    every piece differs (`all_differ`), since lighting them all would show nothing."""

    lines: tuple[CountChange, ...]
    measures: tuple[MeasureChange, ...]
    words: tuple[TextChange, ...]
    options: tuple[TextChange, ...]
    marks: tuple[MarkChange, ...]
    landings: tuple[LandingChange, ...]
    lit_first: frozenset[str]
    lit_second: frozenset[str]
    all_differ: bool

    @property
    def alike(self) -> bool:
        """Whether nothing differs."""
        return not (self.lines or self.measures or self.words or self.options or self.marks or self.landings)


def compare(first: Document, second: Document) -> Comparison:
    """Lay two documents beside each other. Order matters only for which is called first."""
    one, two = _own_pieces(first, second), _own_pieces(second, first)
    every = len(one) + len(two) == sum(len(d.braces) + len(d.ties) for d in (first, second)) > 0
    return Comparison(
        _lines(first, second), _measures(first, second), _words(first, second), _options(first, second),
        _marks(first, second), _landings(first, second),
        frozenset() if every else frozenset(one) | _own_options(first, second),
        frozenset() if every else frozenset(two) | _own_options(second, first),
        every,
    )


def _lines(first: Document, second: Document) -> tuple[CountChange, ...]:
    a, b = ({line.part: line for line in document.lines} for document in (first, second))
    rows = []
    for part in dict.fromkeys([*a, *b]):
        line = b.get(part) or a[part]
        counts = [lines[part].quantity if part in lines else 0 for lines in (a, b)]
        if counts[0] != counts[1]:
            rows.append(CountChange(part, line.name, line.unit, counts[0], counts[1]))
    return tuple(rows)


def _measures(first: Document, second: Document) -> tuple[MeasureChange, ...]:
    pairs = [(words, kind, getattr(first.measures, field), getattr(second.measures, field)) for field, words, kind in MEASURES]
    rows = [MeasureChange(words, kind, a, b) for words, kind, a, b in pairs if not _same(a, b)]
    for role in dict.fromkeys([*first.tubes, *second.tubes]):
        a, b = first.tubes.get(role), second.tubes.get(role)
        # A tube that only one of them has belongs to a piece that only one has, and the kit says so.
        if a is not None and b is not None and not _same(a, b):
            rows.append(MeasureChange(f"Tube of the {role.replace('-', ' ')}", "length", a, b))
    return tuple(rows)


def _same(a: float | None, b: float | None) -> bool:
    return a == b if a is None or b is None else abs(a - b) < SAME_IN


def _words(first: Document, second: Document) -> tuple[TextChange, ...]:
    def told(document: Document) -> dict[str, str]:
        ends = document.configuration["ends"]
        return {
            "Family": document.family, "Revision": document.revision, "Base": document.configuration["base"],
            "End wall at the tag end": ends[0], "End wall at the far end": ends[1],
            "How the hoops are put up": document.put_up, "Rated wind": document.rated_wind, "Rated snow": document.rated_snow,
        }

    a, b = told(first), told(second)
    return tuple(TextChange(name, a[name], b[name]) for name in a if a[name] != b[name])


def _options(first: Document, second: Document) -> tuple[TextChange, ...]:
    a, b = ({option.code: option for option in document.options} for document in (first, second))
    names = {option.code: option.name for option in (*first.options, *second.options)}
    rows = []
    for code, name in names.items():
        one, two = a.get(code), b.get(code)
        said = [_option_words(option) for option in (one, two)]
        # What one has not and the other's revision never heard of is no difference between the two structures.
        if said[0] != said[1] and not (None in (one, two) and not any(option and option.included for option in (one, two))):
            rows.append(TextChange(name, said[0], said[1]))
    return tuple(rows)


def _option_words(option: OptionAnswer | None) -> str:
    if option is None:
        return "not known there"
    return "included" if option.included else str(option.no_words)


def _own_options(document: Document, other: Document) -> frozenset[str]:
    theirs = {option.code for option in other.options if option.included}
    return frozenset(option.code for option in document.options if option.included) - theirs


# marks
def _marks(first: Document, second: Document) -> tuple[MarkChange, ...]:
    a, b = _by_station(first), _by_station(second)
    rows = []
    for key in dict.fromkeys([*a, *b]):
        told = [{_told(mark, document) for mark in marks.get(key, ())} for marks, document in ((a, first), (b, second))]
        if told[0] != told[1]:
            rows.append(MarkChange(key[0], key[1], tuple(a.get(key, ())), tuple(b.get(key, ()))))
    return tuple(sorted(rows, key=lambda row: min(mark.from_foot_in for mark in (*row.first, *row.second))))


def _by_station(document: Document) -> dict[tuple[str, str], list[Mark]]:
    found: dict[tuple[str, str], list[Mark]] = defaultdict(list)
    for mark in document.marks:
        found[mark.code, mark.name].append(mark)
    return found


def _told(mark: Mark, document: Document) -> tuple[str, int, str, int, object]:
    return (mark.side, round(mark.from_foot_in / SAME_IN), mark.datum, round(mark.edge_in / SAME_IN),
            _which(mark.hoops, document.measures.hoops))


def _which(hoops: tuple[int, ...], total: int) -> object:
    """Which hoops, told so that structures of two lengths can agree: all, all inner ones, or counted from the nearer end."""
    if len(hoops) == total:
        return "every"
    if hoops == tuple(range(2, total)):
        return "inner"
    steps = {b - a for a, b in zip(hoops, hoops[1:], strict=False)}
    if len(hoops) > 2 and len(steps) == 1:
        return "every", min(steps), hoops[0]
    return tuple(_from_end(hoop, total) for hoop in hoops)


def _from_end(hoop: int, total: int) -> int:
    return hoop if 2 * hoop <= total + 1 else hoop - total - 1


# pieces
def _landings(first: Document, second: Document) -> tuple[LandingChange, ...]:
    a, b = _landed(first), _landed(second)
    lengths = [_lengths(document) for document in (first, second)]
    rows = []
    for role, station in dict.fromkeys([*a, *b]):
        spots = [_distinct(landed.get((role, station), ())) for landed in (a, b)]
        sizes = [_distinct(length.get(role, ())) for length in lengths]
        if not _all_same(*spots) or (all(spots) and not _all_same(*sizes)):
            rows.append(LandingChange(PIECE_WORDS.get(role, role.replace("-", " ")), station, spots[0], spots[1], sizes[0], sizes[1]))
    return tuple(rows)


def _pieces(document: Document) -> tuple[Brace | Tie, ...]:
    return (*document.braces, *document.ties)


def _landed(document: Document) -> dict[tuple[str, str], list[float]]:
    found: dict[tuple[str, str], list[float]] = defaultdict(list)
    for piece in _pieces(document):
        for landing in (piece.landing_from, piece.landing_to):
            found[piece.role, landing.station].append(landing.from_foot_in)
    return found


def _lengths(document: Document) -> dict[str, list[float]]:
    found: dict[str, list[float]] = defaultdict(list)
    for piece in _pieces(document):
        found[piece.role].append(piece.length_in)
    return found


def _distinct(values: Iterable[float]) -> tuple[float, ...]:
    """The values in order, those that are the same once."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] >= SAME_IN:
            kept.append(value)
    return tuple(kept)


def _all_same(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return len(a) == len(b) and all(_same(x, y) for x, y in zip(a, b, strict=True))


def _own_pieces(document: Document, other: Document) -> list[str]:
    """Ids of the braces and ties that the other has not at the same place of its frame."""
    theirs = {_place_of(piece, other) for piece in _pieces(other)}
    return [piece.id for piece in _pieces(document) if _place_of(piece, document) not in theirs]


def _place_of(piece: Brace | Tie, document: Document) -> tuple[object, ...]:
    ends = tuple(
        (landing.side, landing.station, round(landing.from_foot_in / SAME_IN)) for landing in (piece.landing_from, piece.landing_to)
    )
    if isinstance(piece, Tie):
        # Ties follow one another from the tag end; a longer structure has more of them.
        return piece.role, piece.part, piece.hoop, ends
    hoops = tuple(_from_end(landing.hoop, document.measures.hoops) for landing in (piece.landing_from, piece.landing_to))
    return piece.role, piece.part, piece.corner, hoops, ends
