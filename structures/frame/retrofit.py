"""What an add-on pack would need: the kit of a structure with one option more, less the kit of the structure as it stands.

Nothing here says that a pack fits: it counts what would come and go, and names what stands in the way.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from structures.frame.document import Document, Joint, Line, Mark, Piece
from structures.frame.names import listed, short_name
from structures.frame.said import Said

SAME_IN = 1 / 64     # two places along the tube that are closer than this are one
_HOOP = re.compile(r"^H(\d+)")
_SIDES = {"both": ("left", "right")}


@dataclass(frozen=True, slots=True)
class PackLine:
    """So many of one part, and the places they go to or come off; no places where a measure counts them (film, channel).

    `count` is what is needed on the frame; spares and whole packs are added when the pack is picked.
    """

    part: str
    name: str
    unit: str
    length_in: float | None
    hand: str
    count: int
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Shifted:
    """A fitting that stays on and moves along its tube, from the first figure to the second, in inches from the foot."""

    joint: str
    fitting: str
    was_in: float
    now_in: float


@dataclass(frozen=True, slots=True)
class AddOn:
    """A pack for a structure as it stands.

    `lines` come, `comes_off` goes (a part whose place changes is in both), `shifted` fittings move on their tubes. `pieces`
    are the new ones, with their landings, `bands` how many new bands there are, `marks` those of what is new only.
    `impossible` is empty, or says which fitting can't be put on without taking a section off. `look` are places that
    somebody said differ and that lie on a hoop where something new goes or something comes off.
    """

    lines: tuple[PackLine, ...]
    comes_off: tuple[PackLine, ...]
    shifted: tuple[Shifted, ...]
    pieces: tuple[Piece, ...]
    bands: int
    marks: tuple[Mark, ...]
    impossible: Said
    look: tuple[str, ...]

    @property
    def empty(self) -> bool:
        """Whether nothing would change."""
        return not (self.lines or self.comes_off or self.shifted)


def add_on(as_it_stands: Document, with_option: Document, *, changed: Collection[str] = ()) -> AddOn:
    """The difference of two documents of one structure, part by part and place by place.

    Both carry the same one-off changes, so that a piece that the maker left out or moved stays as it is. `changed` are
    places (codes or ids) where the standing structure is known to differ from what was shipped. Raises `ValueError` when
    the two are not of one family, length and spacing.
    """
    _same_structure(as_it_stands, with_option)
    was, now = _lines(as_it_stands), _lines(with_option)
    lines = _more(with_option.lines, was)
    off = _more(as_it_stands.lines, now)
    joints = _new_joints(as_it_stands, with_option)
    shifted = _shifted(as_it_stands, with_option)
    touched = [*(joint.id for joint in joints), *(place for line in off for place in line.places), *(s.joint for s in shifted)]
    return AddOn(
        lines, off, shifted, _new_pieces(as_it_stands, with_option), sum(joint.kind == "band" for joint in joints),
        _new_marks(as_it_stands, with_option), _in_the_way(with_option, joints), _near(changed, touched),
    )


def _same_structure(a: Document, b: Document) -> None:
    for what, one, other in (
        ("family", a.family, b.family), ("length", a.measures.length_in, b.measures.length_in),
        ("spacing", a.measures.spacing_in, b.measures.spacing_in),
    ):
        if one != other:
            raise ValueError(f"An add-on is for one structure: its {what} can't be {one} and {other}.")


def _lines(document: Document) -> dict[str, Line]:
    return {line.part: line for line in document.lines}


def _more(lines: Iterable[Line], others: Mapping[str, Line]) -> tuple[PackLine, ...]:
    """What each line has that the other's line of the same part has not."""
    found = []
    for line in lines:
        other = others.get(line.part)
        count, places = _surplus(line, other)
        if count:
            found.append(PackLine(line.part, short_name(line.name), line.unit, length_of(line), line.hand, count, places))
    return tuple(found)


def length_of(line: Line) -> float | None:
    """The length that tells a piece from its like, inches; None for bolts and screws, whose names say it."""
    return None if line.kind == "fastener" else line.length_in


def _surplus(line: Line, other: Line | None) -> tuple[int, tuple[str, ...]]:
    """How many more of a part, and where. Counts with places are told apart place by place, since one that is moved comes
    off and goes on; counts by a measure only by how many."""
    here, there = _at_places(line), _at_places(other) if other else Counter[str]()
    extra = here - there
    measured = max(_by_measure(line) - (_by_measure(other) if other else 0), 0)
    return extra.total() + measured, tuple(place for place in here if place in extra)


def _at_places(line: Line) -> Counter[str]:
    found: Counter[str] = Counter()
    for because in line.because:
        for place in because.where:
            found[place] += because.per
    return found


def _by_measure(line: Line) -> int:
    return sum(because.count for because in line.because if not because.where)


def _new_pieces(was: Document, now: Document) -> tuple[Piece, ...]:
    had = {(piece.id, piece.part) for piece in was.pieces()}
    return tuple(piece for piece in now.pieces() if (piece.id, piece.part) not in had)


def _new_joints(was: Document, now: Document) -> list[Joint]:
    had = {(joint.id, joint.fitting) for joint in was.joints}
    return [joint for joint in now.joints if (joint.id, joint.fitting) not in had]


def _shifted(was: Document, now: Document) -> tuple[Shifted, ...]:
    had = {(joint.id, joint.fitting): joint.from_foot_in for joint in was.joints}
    return tuple(
        Shifted(joint.id, joint.fitting, before, joint.from_foot_in) for joint in now.joints
        if (before := had.get((joint.id, joint.fitting))) is not None and joint.from_foot_in is not None
        and abs(before - joint.from_foot_in) > SAME_IN
    )


def _new_marks(was: Document, now: Document) -> tuple[Mark, ...]:
    """The rows of `now`, on the hoops and sides where `was` has no such mark."""
    had = {(hoop, side, *_kind_of(mark)) for mark in was.marks for side in _sides(mark) for hoop in mark.hoops}
    found = []
    for mark in now.marks:
        new = {side: tuple(hoop for hoop in mark.hoops if (hoop, side, *_kind_of(mark)) not in had) for side in _sides(mark)}
        if len(set(new.values())) == 1:
            new = {mark.side: next(iter(new.values()))}
        found += [replace(mark, side=side, hoops=hoops) for side, hoops in new.items() if hoops]
    return tuple(found)


def _sides(mark: Mark) -> tuple[str, ...]:
    return _SIDES.get(mark.side, (mark.side,))


def _kind_of(mark: Mark) -> tuple[str, str, str, float]:
    return mark.code, mark.kind, mark.name, round(mark.from_foot_in / SAME_IN)


def _in_the_way(document: Document, joints: Iterable[Joint]) -> Said:
    """A fitting that only slips over an end can't be put on a tube that is joined at both: which, where, on what."""
    slips = {hardware.code: hardware for hardware in document.hardware if hardware.goes_on == "slips over an end"}
    stuck = [joint for joint in joints if joint.fitting in slips]
    if not stuck:
        return Said("")
    names = " or ".join(dict.fromkeys(slips[joint.fitting].name for joint in stuck))
    sections = dict.fromkeys(section for joint in stuck if (section := _section_of(document, joint)))
    return Said(
        "The {fitting} only slips over the end of a tube, and the tube at {places} is joined at both ends: it can't be put on "
        "without taking {sections} off.",
        {"fitting": names, "places": listed(dict.fromkeys(joint.code for joint in stuck)),
         "sections": "the section " + listed(sections) if sections else "a section"},
    )


def _section_of(document: Document, joint: Joint) -> str:
    """The hoop section on which a joint lies, by its place id; "" where it lies on no hoop."""
    if joint.hoop is None or joint.from_foot_in is None:
        return ""
    whole = document.measures.developed_in
    s = whole - joint.from_foot_in if joint.side == "right" else joint.from_foot_in
    for member in document.members:
        if (member.hoop == joint.hoop and member.s_from_in is not None and member.s_to_in is not None
                and member.s_from_in - SAME_IN <= s <= member.s_to_in + SAME_IN):
            return member.id
    return ""


def _near(changed: Collection[str], touched: Iterable[str]) -> tuple[str, ...]:
    """The changed places that lie on a hoop at which something is done."""
    hoops = {hoop for place in touched if (hoop := _hoop_of(place))}
    return tuple(place for place in changed if _hoop_of(place) in hoops)


def _hoop_of(place: str) -> str:
    found = _HOOP.match(place)
    return found[1] if found else ""
