"""Everything that is looked at on a walk, in walking order, from a frozen document and what was changed since.

Nothing here is stored: places follow from the frame. A walk goes along the right side from the tag end, round the far
end wall, back along the left side, and ends at the tag end wall; what has no side (ridge, ties) is looked at from the
right. A place at a hoop belongs to the bay of that number, the last hoop to the last bay; a brace's two ends belong to
the bay that the piece lies in. Pure: no Django.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from structures.frame.document import Brace, Document, Joint, Member, Panel, Point, Tie
from structures.frame.names import ends_named
from structures.frame.profile import Profile

_ID = re.compile(
    r"^(?P<code>(?:(?P<letter>[HB])(?P<number>[1-9]\d*)(?:-(?P<side>[LR]))?|E(?P<end>[12]))-(?P<last>[a-z][a-z0-9 -]*))"
    r":(?P<kind>[a-z][a-z -]*):(?P<ordinal>[1-9]\d*)$"
)
_SIDES = {"L": "left", "R": "right", None: ""}
_RUNS = {"ridge": "ridge purlin", "purlin": "side purlin", "upper": "upper purlin"}
_ITEM_OF_KIND = {
    "hoop": "hoop", "section": "hoop", "screw": "hoop", "post": "post", "bolt": "post", "brace": "brace", "tie": "tie",
    "band": "clamp", "connector": "clamp", "stick": "purlin", "end": "purlin", "slip": "purlin",
    "wall": "end-wall", "bracket": "end-wall", "door": "end-wall", "channel": "channel",
    "hip-board": "board", "base-board": "board", "film": "film", "web": "tie", "runner": "runner", "shoe": "runner", "wheel": "runner",
    "anchor": "anchor", "roll-pipe": "roll-up", "crank": "roll-up", "rope": "roll-up", "blower": "blower",
}
_KIND_WORDS = {
    "hoop": "hoop", "section": "hoop section", "screw": "seam screw", "post": "ground post", "bolt": "foot bolt",
    "brace": "brace", "tie": "collar tie", "band": "band clamp", "connector": "cross connector",
    "stick": "purlin stick", "end": "purlin end", "slip": "slip joint", "wall": "end wall and door",
    "bracket": "bracket of an upright", "channel": "channel and wire", "hip-board": "hip board", "base-board": "base board", "film": "film",
    "door": "door", "web": "web of the tie", "runner": "runner", "shoe": "runner shoe", "wheel": "wheel carrier",
    "anchor": "ground anchor", "roll-pipe": "roll-up pipe", "crank": "roll-up crank", "rope": "roll-up rope",
    "blower": "film blower",
}
# A splice is called and asked about by what it joins: the word of its line in the location code.
_SPLICES = {"runner": ("runner splice", "runner"), "hip": ("splice of the hip board", "board"),
            "foot": ("splice of the base board", "board"), "roll": ("sleeve of the roll-up pipe", "roll-up")}
_BY_BAY = "board"    # sticks of this role are looked at bay by bay, as the panels that they make
_BRACES = {"side-brace": "side brace", "roof-lower": "roof brace, lower piece", "roof-upper": "roof brace, upper piece"}
CORNERS = ("tag right", "far right", "far left", "tag left")


class PlaceError(ValueError):
    """The words are no place id."""


@dataclass(frozen=True, slots=True)
class Place:
    """One place looked at. `item` is its line of the checklist, `at` a point in inches for drawing and for order.

    `changed` says in words what was done to it since it was built as shipped; "" when nothing is known.
    """

    id: str
    code: str
    kind: str
    ordinal: int
    stretch: str
    item: str
    words: str
    at: Point
    corner: str = ""
    changed: str = ""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A bay's side or an end wall: what is looked at from one spot. `key` is `B2-R` or `E1`."""

    key: str
    words: str
    bay: int | None
    side: str
    end: int | None
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """What differs from what was shipped: `act` is "moved", "left out", "added" or "replaced".

    `place` is the piece's id, or a location code for everything that sits there; `words` say what was done.
    """

    act: str
    place: str
    words: str
    on: date


@dataclass(frozen=True, slots=True)
class PlaceId:
    """A place id read: code, kind, ordinal, and where the code lies."""

    code: str
    kind: str
    ordinal: int
    hoop: int | None
    bay: int | None
    end: int | None
    side: str
    last: str


def read_place(text: str) -> PlaceId:
    """Read `H2-R-mid:band:1`. Raises `PlaceError` with one sentence."""
    found = _ID.match(text)
    if found is None:
        raise PlaceError(f"{text!r} is no place: write code, kind and ordinal like H2-R-mid:band:1 or E1-wall:wall:1.")
    number = int(found["number"]) if found["number"] else None
    return PlaceId(
        code=found["code"], kind=found["kind"], ordinal=int(found["ordinal"]),
        hoop=number if found["letter"] == "H" else None, bay=number if found["letter"] == "B" else None,
        end=int(found["end"]) if found["end"] else None, side=_SIDES[found["side"]], last=found["last"],
    )


def stretch_key(place: PlaceId, bays: int) -> str:
    """The key of the bay's side or end wall that a place belongs to; beyond the last bay means the last bay."""
    if place.end:
        return f"E{place.end}"
    bay = min(place.bay or place.hoop or 1, bays)
    return f"B{bay}-{'L' if place.side == 'left' else 'R'}"


def walk_of(
    document: Document, changes: Iterable[Change] = (), names: Mapping[int, str] | None = None
) -> tuple[Stretch, ...]:
    """Every stretch of the walk in walking order, each with its places from the ground up. `names` is what people call the ends,
    as in {1: "road end"}: an end wall's words say it, its key does not."""
    places = {place.id: place for place in _told_apart(_Finder(document).places())}
    for change in sorted(changes, key=lambda one: one.on):
        places = _changed(document, places, change)
    stretches = _stretches(document.measures.bays, places.values())
    return tuple(replace(one, words=ends_named(one.words, names or {})) if one.end else one for one in stretches)


def place_index(stretches: Iterable[Stretch]) -> dict[str, Place]:
    """Every place of a walk by its id."""
    return {place.id: place for stretch in stretches for place in stretch.places}


class _Finder:
    """Reads the places out of one document."""

    def __init__(self, document: Document):
        self.document = document
        self.profile = Profile.read(document.profile)
        self.members = {member.id: member for member in document.members}
        self.webs = {member.id for member in document.members if read_place(member.id).kind == "web"}
        self.landings: dict[str, tuple[Brace | Tie, str]] = {}
        for brace in document.braces:
            low, high = sorted((brace.landing_from, brace.landing_to), key=lambda one: one.hole[2])
            self.landings[low.joint] = (brace, "lower end")
            self.landings[high.joint] = (brace, "upper end")
        for tie in document.ties:
            self.landings[tie.landing_from.joint] = (tie, "left end")
            self.landings[tie.landing_to.joint] = (tie, "right end")

    def places(self) -> Iterable[Place]:
        for hoop in range(1, self.document.measures.hoops + 1):
            yield from self._hoop(hoop)
        for member in self.document.members:
            if member.role not in ("section", _BY_BAY):
                yield self._member(member)
        for brace in self.document.braces:
            middle = _middle(brace.landing_from.hole, brace.landing_to.hole)
            yield self._place(brace.id, _BRACES.get(brace.role, "brace"), middle, corner=brace.corner)
        for tie in self.document.ties:
            yield self._place(tie.id, "collar tie", _middle(tie.landing_from.hole, tie.landing_to.hole))
        for joint in self.document.joints:
            yield self._joint(joint)
        for panel in self.document.panels:
            yield self._panel(panel)

    def _place(self, place_id: str, words: str, at: Point, *, item: str = "", corner: str = "", stretch: str = "") -> Place:
        read = read_place(place_id)
        return Place(
            id=place_id, code=read.code, kind=read.kind, ordinal=read.ordinal,
            stretch=stretch or stretch_key(read, self.document.measures.bays),
            item=item or _ITEM_OF_KIND.get(read.kind, "end-wall" if read.end else "clamp"),
            words=words, at=at, corner=corner,
        )

    def _hoop(self, hoop: int) -> Iterable[Place]:
        """Crown and both shoulders: the bends that give first. They are looked at, though no piece ends there."""
        y = (hoop - 1) * self.document.measures.spacing_in
        half = self.profile.half_in
        yield self._place(f"H{hoop}-ridge:hoop:1", "hoop crown", (0.0, y, self.profile.point(half)[1]))
        u, z = self.profile.point(self._shoulder_in())
        yield self._place(f"H{hoop}-R-shoulder:hoop:1", "hoop shoulder", (u, y, z))
        yield self._place(f"H{hoop}-L-shoulder:hoop:1", "hoop shoulder", (-u, y, z))

    def _shoulder_in(self) -> float:
        """Along the tube to the shoulder: its station or, where a family names none, the middle of the longest bend."""
        named = self.document.stations.get("shoulder")
        if named is not None:
            return named
        bends = [(g.length_in, start) for g, start in zip(self.profile.segments, self.profile.starts, strict=True) if g.radius_in]
        length, start = max(bends, default=(self.profile.half_in, 0.0))
        return start + length / 2

    def _member(self, member: Member) -> Place:
        return self._place(member.id, self._member_words(member), _middle(member.start, member.end))

    def _member_words(self, member: Member) -> str:
        read = read_place(member.id)
        if read.kind in ("stick", "end"):
            return f"{_RUNS.get(read.last, read.last)}, {'end piece' if read.kind == 'end' else 'stick'}"
        return _KIND_WORDS.get(read.kind, read.kind)

    def _joint(self, joint: Joint) -> Place:
        read = read_place(joint.id)
        piece, which = self.landings.get(joint.id, (None, ""))
        if isinstance(piece, Brace):
            key = stretch_key(read_place(piece.id), self.document.measures.bays)
            words = f"{_BRACES.get(piece.role, 'brace')}, {which}"
            return self._place(joint.id, words, joint.at, item="brace-end", corner=piece.corner, stretch=key)
        if isinstance(piece, Tie):
            return self._place(joint.id, f"collar tie, {which}", joint.at, item="tie")
        if read.kind == "splice":
            words, item = _SPLICES.get(read.last, ("splice", "board"))
            return self._place(joint.id, words, joint.at, item=item)
        if any(held in self.webs for held in joint.holds):
            end = "end at the tie" if read.last == "web" else "end at the hoop"
            return self._place(joint.id, f"web of the tie, {end}", joint.at, item="tie")
        return self._place(joint.id, self._joint_words(joint, read), joint.at)

    def _joint_words(self, joint: Joint, read: PlaceId) -> str:
        roles = {self.members[held].role for held in joint.holds if held in self.members}
        run = _RUNS.get(read.last, read.last)
        if read.kind == "band" and "end" in roles:
            return f"{run}, band of its end piece"
        if read.kind == "connector":
            return f"cross connector, {run}"
        if read.kind == "slip":
            return f"slip joint, {run}"
        return _KIND_WORDS.get(read.kind, read.kind)

    def _panel(self, panel: Panel) -> Place:
        spacing, length = self.document.measures.spacing_in, self.document.measures.length_in
        y = (panel.bay - 0.5) * spacing if panel.bay else (length if panel.end == 2 else 0.0)
        s = ((panel.s_from_in or 0.0) + (panel.s_to_in or panel.s_from_in or 0.0)) / 2
        u, z = self.profile.point(min(s, self.profile.half_in))
        words = _KIND_WORDS.get(panel.kind, panel.kind)
        if panel.kind == "film" and panel.zone:
            # The second sheet of a double film lies inside the first and has the next number at the same places.
            words = f"{'inner film' if read_place(panel.id).ordinal > 1 else 'film'}, {panel.zone}"
        stretch = f"E{panel.end}" if panel.end and not panel.bay else ""
        return self._place(panel.id, words, (-u if panel.side == "left" else u, y, z), stretch=stretch)


def _told_apart(found: Iterable[Place]) -> Iterable[Place]:
    """The same places, those with one code and one name told apart by where they sit."""
    alike: dict[tuple[str, str], list[Place]] = {}
    for place in found:
        alike.setdefault((place.code, place.words), []).append(place)
    for group in alike.values():
        for place in group:
            yield place if len(group) == 1 else replace(place, words=f"{place.words}, {_which(place, group)}")


def _which(place: Place, group: Sequence[Place]) -> str:
    if len(group) > 2:
        return f"{sorted(one.ordinal for one in group).index(place.ordinal) + 1} of {len(group)}"
    other = group[1] if place is group[0] else group[0]
    if abs(place.at[2] - other.at[2]) > 0.1:
        return "the upper one" if place.at[2] > other.at[2] else "the lower one"
    if abs(place.at[0] - other.at[0]) > 0.1:
        return "the right one" if place.at[0] > other.at[0] else "the left one"
    return f"{1 if place.ordinal < other.ordinal else 2} of 2"


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2)


def _changed(document: Document, places: Mapping[str, Place], change: Change) -> dict[str, Place]:
    """The places after one change. A piece takes its own two landings along; what else sits at their codes stays."""
    said = f"{change.act}, seen {change.on.day} {change.on:%B %Y}: {change.words}"
    own = {key for key, place in places.items() if change.place in (key, place.code)} | _landings_of(document, change.place)
    if change.act == "added" or (change.act != "left out" and not own):
        return {**places, change.place: _added(document, change.place, said)}
    if change.act == "left out":
        return {key: place for key, place in places.items() if key not in own}
    return {key: replace(place, changed=said) if key in own else place for key, place in places.items()}


def _landings_of(document: Document, piece_id: str) -> set[str]:
    pieces: tuple[Brace | Tie, ...] = (*document.braces, *document.ties)
    return {landing.joint for one in pieces if one.id == piece_id for landing in (one.landing_from, one.landing_to)}


def _added(document: Document, place_id: str, said: str) -> Place:
    """A piece that the frozen frame does not know, by id or by code. Words that are neither are asked about at the tag end."""
    profile = Profile.read(document.profile)
    try:
        read = read_place(place_id if ":" in place_id else f"{place_id}:added:1")
    except PlaceError:
        return Place(place_id, place_id, "added", 1, "E1", "end-wall", "added piece", (0.0, 0.0, 0.0), changed=said)
    y = ((read.hoop - 1) if read.hoop else (read.bay or 1) - 0.5) * document.measures.spacing_in
    u, z = profile.point(min(document.stations.get(read.last, 0.0), profile.half_in))
    return Place(
        id=place_id, code=read.code, kind=read.kind, ordinal=read.ordinal,
        stretch=stretch_key(read, document.measures.bays), item=_ITEM_OF_KIND.get(read.kind, "clamp"),
        words=_KIND_WORDS.get(read.kind, f"{read.kind} piece"), at=(-u if read.side == "left" else u, y, z), changed=said,
    )


def _stretches(bays: int, places: Iterable[Place]) -> tuple[Stretch, ...]:
    by_key: dict[str, list[Place]] = {}
    for place in places:
        by_key.setdefault(place.stretch, []).append(place)
    right = [(f"B{bay}-R", bay, "right") for bay in range(1, bays + 1)]
    left = [(f"B{bay}-L", bay, "left") for bay in range(bays, 0, -1)]
    route = [
        *(Stretch(key, f"Bay {bay}, {side} side", bay, side, None, ()) for key, bay, side in right),
        Stretch("E2", "Far end wall", None, "", 2, ()),
        *(Stretch(key, f"Bay {bay}, {side} side", bay, side, None, ()) for key, bay, side in left),
        Stretch("E1", "Tag end wall", None, "", 1, ()),
    ]
    filled = (replace(stretch, places=tuple(sorted(by_key.get(stretch.key, ()), key=_upward))) for stretch in route)
    return tuple(stretch for stretch in filled if stretch.places)


def _upward(place: Place) -> tuple[float, float, str, str, int]:
    """From the ground up, since a person stands at one spot and looks from the post to the ridge."""
    return (round(place.at[2]), place.at[1], place.code, place.kind, place.ordinal)
