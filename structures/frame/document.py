"""The frozen document: one configuration's computed frame and everything derived from it, as JSON and as dataclasses.

Confirming an order stores this document, and every later drawing, answer, mark, walk and pack reads it; it is never
built again. `SCHEMA` names the shape of the document, `ENGINE` the computation that filled it: build output that
changes must change `ENGINE`, a test says so. Documents of every earlier schema stay readable.

Lengths are inches, angles degrees, weights pounds. Coordinates are (x across, y along from hoop 1, z up from the ground
line), x = 0 at the ridge plane, left negative, seen from outside the tag end.
"""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, get_args, get_origin, get_type_hints

from structures.frame.said import Said

SCHEMA = 1
ENGINE = "1.0.0"
Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Measures:
    """The sizes of the whole. `ridge_mark_in` is half of `developed_in`; `clear_gap_in` the gap between two hoops."""

    bays: int
    hoops: int
    inner_hoops: int
    spacing_in: float
    length_in: float
    width_in: float
    peak_in: float
    developed_in: float
    ridge_mark_in: float
    clear_gap_in: float
    leg_in: float | None
    radius_in: float | None
    pitch_deg: float | None
    tube_end_in: float


@dataclass(frozen=True, slots=True)
class OptionAnswer:
    """One option as this configuration has it. `no_because` is "" when included, else one of `not made for this size`,
    `offered, not bought`, `replaced`, `not offered`; `no_words` says it to a person."""

    code: str
    name: str
    included: bool
    standard: bool
    no_because: str
    no_words: Said
    pieces: int
    bands: int


@dataclass(frozen=True, slots=True)
class Because:
    """One reason of a count: `count` = `per` for each place in `where`, or by a measure said in `words`."""

    kind: str
    count: int
    per: int
    where: tuple[str, ...]
    words: Said


@dataclass(frozen=True, slots=True)
class Line:
    """One part of the kit. `quantity` = `needed` + `spares` + `pack_rounding`; `needed` = the sum over `because`."""

    part: str
    name: str
    role: str
    kind: str
    unit: str
    quantity: int
    needed: int
    spares: int
    pack_rounding: int
    weight_lb: float | None        # of `quantity`; None is unknown
    length_in: float | None
    ends: str
    hand: str
    tube: str
    because: tuple[Because, ...]


@dataclass(frozen=True, slots=True)
class Member:
    """One piece of tube or lengthwise stock. `from_` and `to` are location codes (`from`, `to` in JSON).

    `start` and `end` are the ends of its axis (hole to hole for flattened ends). A hoop section follows the hoop's
    centre line from `start` to `end`: `hoop`, `s_from_in`, `s_to_in` measured along the tube from the LEFT foot over
    the ridge.
    """

    id: str
    role: str
    part: str
    from_: str
    to: str
    length_in: float
    start: Point
    end: Point
    radius_in: float
    option: str
    hoop: int | None
    s_from_in: float | None
    s_to_in: float | None


@dataclass(frozen=True, slots=True)
class Joint:
    """Where members meet: a band, connector, screw or bolt. `at` lies on the hoop's or stick's axis.

    `code` is the location code, `id` is code:kind:ordinal. `holds` are the ids of the members that it joins.
    """

    id: str
    code: str
    kind: str
    fitting: str
    at: Point
    hoop: int | None
    side: str
    station: str
    from_foot_in: float | None
    holds: tuple[str, ...]
    option: str


@dataclass(frozen=True, slots=True)
class Landing:
    """Where one end of a brace or tie meets a hoop. `hole` is the bolt hole's centre.

    `nominal_in` is the mark as designed, `from_foot_in` where the band's centre comes to lie for the made length;
    `node_in` the mark of the node (the butt line where two bands meet). `set` is true for the end placed by its mark.
    """

    code: str
    joint: str
    hoop: int
    side: str
    station: str
    node_in: float
    from_foot_in: float
    nominal_in: float
    set: bool
    hole: Point


@dataclass(frozen=True, slots=True)
class Brace:
    """One brace piece. `hand` is "left", "right" or "none" as the geometry has it; the part says what is made.

    `gaps` are the shortest gaps to each kind of neighbour, less radii; `clearance_in` is the least of them and
    `clearance_to` the place id or word of that neighbour.
    """

    id: str
    role: str
    zone: str
    option: str
    part: str
    corner: str                    # "tag left", "tag right", "far left", "far right", "mid left", "mid right"
    chain: str
    from_: str
    to: str
    length_in: float
    computed_in: float
    twist_deg: float
    hand: str
    twist_made: bool
    bend_from_deg: float
    bend_to_deg: float
    clearance_in: float
    clearance_to: str
    gaps: Mapping[str, float]
    set_end: str                   # "from" or "to"
    landing_from: Landing
    landing_to: Landing


@dataclass(frozen=True, slots=True)
class Tie:
    """One collar tie, left landing to right landing."""

    id: str
    role: str
    option: str
    part: str
    from_: str
    to: str
    length_in: float
    hoop: int
    station_in: float
    from_ridge_in: float
    landing_from: Landing
    landing_to: Landing


Piece = Member | Brace | Tie       # what is picked and carried


@dataclass(frozen=True, slots=True)
class Mark:
    """Where something goes on a group of hoops with equal marks.

    `from_foot_in` is the centre, `edge_in` the lower edge measured from `datum` on `piece`; `from_datum_in` the centre
    measured from there. `side` "both", "left", "right" or "" (ridge). `codes` are the places it makes.
    """

    hoops: tuple[int, ...]
    side: str
    code: str                      # the station's word
    kind: str
    name: str
    from_foot_in: float
    piece: str
    datum: str                     # "foot", "seam", "ridge"
    from_datum_in: float
    edge_in: float
    option: str


@dataclass(frozen=True, slots=True)
class Cut:
    """The sticks of one run. `saw_end` of the last stick is sawn to `cut_length_in`; `offcut_in` is left over.

    `lay_in` is what the last stick covers between its two joints.
    """

    run: str                       # "ridge", "L-purlin", "R-purlin", ...
    part: str
    sticks: int
    stick_in: float
    cut_length_in: float
    lay_in: float
    saw_end: str
    offcut_in: float
    joints_in: tuple[float, ...]   # mouths of the slip joints, from hoop 1


@dataclass(frozen=True, slots=True)
class Panel:
    """A piece of film between two hoops, or a bay's length of channel or board: something looked at on a walk."""

    id: str
    code: str
    kind: str                      # "film", "channel", "hip-board", "base-board", "end wall"
    bay: int | None
    end: int | None
    side: str
    zone: str
    s_from_in: float | None        # along the tube from that side's foot
    s_to_in: float | None
    option: str


@dataclass(frozen=True, slots=True)
class Totals:
    """`weight_lb` is tube and posts; `fittings_weight_lb` what is stated for the rest, None when any is unknown."""

    pieces: int
    weight_lb: float
    fittings_weight_lb: float | None
    heaviest: str
    heaviest_lb: float
    longest: str
    longest_in: float


@dataclass(frozen=True, slots=True)
class Document:
    """Everything about one configuration, computed once."""

    schema: int
    engine: str
    family: str
    family_name: str
    title: str
    revision: str
    effective: str
    changed: str
    rated_wind: str
    rated_snow: str
    family_sha256: str
    configuration: Mapping[str, Any]
    measures: Measures
    profile: tuple[Mapping[str, Any], ...]
    stations: Mapping[str, float]
    tubes: Mapping[str, float]     # role to outside diameter; "hoop", "post", "purlin", "side-brace", ...
    put_up: str
    options: tuple[OptionAnswer, ...]
    lines: tuple[Line, ...]
    members: tuple[Member, ...]
    joints: tuple[Joint, ...]
    braces: tuple[Brace, ...]
    ties: tuple[Tie, ...]
    marks: tuple[Mark, ...]
    cuts: tuple[Cut, ...]
    panels: tuple[Panel, ...]
    warnings: tuple[Said, ...]
    totals: Totals

    def pieces(self) -> Iterator[Piece]:
        """Every piece that is picked and carried: hoop sections, posts, purlins, braces and ties."""
        yield from self.members
        yield from self.braces
        yield from self.ties


def read_document(text: str | Mapping[str, Any]) -> Document:
    """Read a document of any schema from JSON text or parsed JSON. Raises `ValueError` for a schema of the future."""
    data = json.loads(text) if isinstance(text, str) else text
    if data.get("schema") not in _READERS:
        raise ValueError(f"Schema {data.get('schema')!r} is not known here: this program reads {sorted(_READERS)}.")
    return _READERS[data["schema"]](data)


def write_document(document: Document) -> dict[str, Any]:
    """The document as plain JSON values, rounded to a millionth so that equal input gives equal text everywhere."""
    plain: dict[str, Any] = _plain(document)
    return plain


def _plain(value: Any) -> Any:
    if isinstance(value, float):
        return round(value, 6) + 0.0
    if dataclasses.is_dataclass(value):
        names = _fields(type(value))
        return {json_name: _plain(getattr(value, name)) for name, json_name in names}
    if isinstance(value, Mapping):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    return value


_FIELDS: dict[type, tuple[tuple[str, str], ...]] = {}


def _fields(kind: type) -> tuple[tuple[str, str], ...]:
    if kind not in _FIELDS:
        _FIELDS[kind] = tuple((f.name, f.name.rstrip("_")) for f in dataclasses.fields(kind))
    return _FIELDS[kind]


def _build(kind: Any, value: Any) -> Any:
    """Make a value of the annotated type from plain JSON."""
    if isinstance(kind, type) and dataclasses.is_dataclass(kind):
        hints = _hints(kind)
        return kind(**{name: _build(hints[name], value[json_name]) for name, json_name in _fields(kind)})
    origin = get_origin(kind)
    if origin is tuple:
        inner = get_args(kind)
        if len(inner) == 2 and inner[1] is Ellipsis:
            return tuple(_build(inner[0], item) for item in value)
        return tuple(value)
    return value


_HINTS: dict[type, dict[str, Any]] = {}


def _hints(kind: type) -> dict[str, Any]:
    if kind not in _HINTS:
        _HINTS[kind] = get_type_hints(kind)
    return _HINTS[kind]


def _read_1(data: Mapping[str, Any]) -> Document:
    document: Document = _build(Document, data)
    return document


_READERS = {1: _read_1}
