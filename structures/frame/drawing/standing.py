"""Where one stands, and what one sees from there: the view, which way it is turned, and the words for left and right.

Location codes are given once, standing outside the tag end: left, right and the count of hoops. Whoever stands elsewhere reads the
same codes in another order, so every place says what is on the left hand and what on the right.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from structures.frame.document import Document

from .closeup import CloseUp
from .corner import CORNERS, Corner, corners_of
from .scene import Asked, Scene

OUTSIDE_TAG, OUTSIDE_FAR = "outside tag end", "outside far end"
TURNING = ("frame", "section")      # what can be seen from either end
ENDS = {"tag": 1, "far": 2}


@dataclass(frozen=True, slots=True)
class Standing:
    """One place to stand. `code` names it for `render`, `views` are what is seen from there, the fullest first.

    `words` is a sentence on where one stands and how one looks; `left`, `right`, `near` and `far` say what lies there.
    """

    code: str
    views: tuple[str, ...]
    words: str
    left: str
    right: str
    near: str
    far: str


def places(document: Document, names: Mapping[int, str] | None = None) -> tuple[Standing, ...]:
    """Every place to stand: outside each end and side, outside each corner, inside facing each corner and, where braces stand
    there, mid-length. `names` is what people call the ends, as in {1: "road end"}."""
    words = _Words(document, names or {})
    return tuple(words.place(code) for code in _codes(document))


def _codes(document: Document) -> tuple[str, ...]:
    return (OUTSIDE_TAG, OUTSIDE_FAR, "outside left", "outside right",
            *(f"outside facing {key.replace('-', ' ')}" for key in CORNERS),
            *(f"inside facing {key.replace('-', ' ')}" for key in corners_of(document)))


def place_of(document: Document, view: str, standing: str = OUTSIDE_TAG, names: Mapping[int, str] | None = None) -> Standing | None:
    """Where one stands for a view; None for one that is seen from nowhere, such as the frame laid flat.

    Only the whole frame and the section can be seen from either end: for every other view `standing` changes nothing.
    Raises `ValueError` for a place that there is not.
    """
    codes = _codes(document)
    if standing not in codes:
        raise ValueError(f"There is no place {standing!r} to stand: there are {', '.join(codes)}.")
    way, _, key = view.partition("-")
    code = {"side": f"outside {key}", "corner": f"outside facing {key.replace('-', ' ')}",
            "inside": f"inside facing {key.replace('-', ' ')}"}.get(way, "")
    if view in TURNING:
        code = standing if standing == OUTSIDE_FAR else OUTSIDE_TAG
    return _Words(document, names or {}).place(code) if code in codes else None


def caption(document: Document, view: str, size: str = "wide", *, standing: str = OUTSIDE_TAG,
            names: Mapping[int, str] | None = None) -> str:
    """The sentences below a drawing: where one stands, which way one looks, and what is drawn larger than to scale; "" for one
    that is seen from nowhere."""
    place = place_of(document, view, standing, names)
    words = place.words if place else ""
    way, _, key = view.partition("-")
    if key not in corners_of(document) or way not in ("inside", "corner"):
        return words
    factor = CloseUp(Corner(Scene(document, Asked()), key), size, way == "inside").factor
    if factor < 1.05:
        return words
    return f"{words} Tubes, bands and the distance of each hole from its hoop are drawn {factor:.1f} times as large as to scale."


class _Words:
    def __init__(self, document: Document, names: Mapping[int, str]):
        self.names, self.hoops = names, document.measures.hoops
        self.scene = Scene(document, Asked())

    def place(self, code: str) -> Standing:
        """One place by its code."""
        if "facing" in code:
            return self.corner(code)
        where = code.removeprefix("outside ")
        return self.side(where) if where in ("left", "right") else self.end(where.removesuffix(" end"))

    def _end(self, end: str) -> str:
        name = self.names.get(ENDS[end], "")
        return f"the {end} end ({name})" if name else f"the {end} end"

    def end(self, end: str) -> Standing:
        """Outside one end, looking in."""
        near, far = (1, self.hoops) if end == "tag" else (self.hoops, 1)
        left, right = ("L", "R") if end == "tag" else ("R", "L")
        other = "far" if end == "tag" else "tag"
        words = f"You stand outside {self._end(end)}, looking in: places with {left} are on your left, with {right} on your right; " \
                f"hoop {near} is nearest."
        sides = {"L": "the left side (L)", "R": "the right side (R)"}
        return Standing(f"outside {end} end", TURNING, words, sides[left], sides[right],
                        f"hoop {near}, {self._end(end)}", f"hoop {far}, {self._end(other)}")

    def side(self, side: str) -> Standing:
        """Outside one side, looking at it."""
        hands = [f"hoop 1, {self._end('tag')}", f"hoop {self.hoops}, {self._end('far')}"]
        left, right = hands if side == "right" else reversed(hands)
        hand = "left" if side == "right" else "right"
        other = "left" if side == "right" else "right"
        words = f"You stand outside the {side} side, looking at it: hoop 1, {self._end('tag')}, is on your {hand}."
        return Standing(f"outside {side}", (f"side-{side}",), words, left, right, f"the {side} side", f"the {other} side")

    def corner(self, code: str) -> Standing:
        """Facing one corner, from outside or from inside."""
        inside = code.startswith("inside")
        end, side = code.split()[-2:]
        corner = Corner(self.scene, f"{end}-{side}")
        # from inside, whoever faces the right side has the tag end on the right hand
        own_right = ((side == "right") == (end != "far")) == inside
        order = list(reversed(corner.hoops)) if own_right else list(corner.hoops)
        place = f"the {side} side at mid-length" if end == "mid" else f"the {side} corner of {self._end(end)}"
        where = f"You stand {'inside, facing' if inside else 'outside, facing'} {place} and looking {'up' if inside else 'down'}"
        along = f"the {side} side, toward {self._end('tag' if end == 'far' else 'far')}"
        across = f"toward {self._end('tag')}" if end == "mid" else self._end(end)
        left, right = (along, across) if own_right else (across, along)
        near, far = (corner.hoops[-1], corner.hoops[0]) if inside else (corner.hoops[0], corner.hoops[-1])
        view = f"{'inside' if inside else 'corner'}-{end}-{side}"
        return Standing(code, (view,), f"{where}: hoops {_listed(order)} from your left.", left, right, f"hoop {near}", f"hoop {far}")


def _listed(hoops: Sequence[int]) -> str:
    """Hoops in a row, or the first and last of many."""
    return f"{hoops[0]} to {hoops[-1]}" if len(hoops) > 4 else ", ".join(map(str, hoops))
