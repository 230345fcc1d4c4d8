"""One bay of one side, for a walk round: every place as a check in its state, things wrong flagged in clear space.

Seen from outside that side: on the right side the lower hoop number stands at the left, on the left side at the right.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from html import escape

from structures.frame.document import Document, Point

from . import pencils
from .flags import CLASS_OF, RANK
from .lanes import down
from .scene import Asked, Piece, Scene
from .sheet import XY, Box, Sheet, n, text_box


@dataclass(frozen=True, slots=True)
class Place:
    """Room of one size, px."""

    width: float
    left: float                    # of the bay's left hoop
    bay: float                     # widest bay
    tallest: float
    top: float
    type: int
    flag_x: float                  # from the right hoop to the flags


PLACES = {
    "narrow": Place(358, 114, 76, 258, 38.5, 12, 48),
    "desk": Place(560, 180, 128, 420, 44, 13, 56),
}


@dataclass(slots=True)
class Spot:
    """All places with one location code: where it truly is, where its check is drawn, and the state shown."""

    code: str
    ids: list[str]
    true: XY
    state: str
    at: XY = field(default=(0.0, 0.0))


class BayView:
    """One bay, drawn once."""

    def __init__(self, document: Document, bay: int, side: str, states: Mapping[str, str], size: str,
                 points: Mapping[str, Point]):
        # something wrong, no class chosen yet, is a fault all the same
        self.states = {place_id: state or "fault" for place_id, state in states.items()}
        self.scene = Scene(document, Asked(faults={one: state for one, state in self.states.items() if state in CLASS_OF}))
        self.bay, self.side, self.place = bay, side, PLACES[size]
        m, p = document.measures, self.place
        self.scale = min(p.tallest / m.peak_in, p.bay / m.spacing_in)
        self.soil = p.top + m.peak_in * self.scale
        self.px = m.spacing_in * self.scale
        self.mirrored = side == "left"
        self.sheet = Sheet(p.width, math.ceil(self.soil + 44), size)
        self.right_hoop = p.left + self.px
        self.spots = self._spots(points)

    # projection
    def at(self, y: float, z: float) -> XY:
        """A place y along the structure and z up; the bay in hand lies between its two hoops."""
        into = (y - self.scene.y(self.bay)) * self.scale
        x = self.right_hoop - into if self.mirrored else self.place.left + into
        return x, self.soil - z * self.scale

    # places
    def _spots(self, points: Mapping[str, Point]) -> list[Spot]:
        found: dict[str, Spot] = {}
        for place_id, state in self.states.items():
            code = place_id.partition(":")[0]
            point = points.get(place_id) or self.scene.point_of(place_id) or (0.0, self.scene.y(self.bay), 0.0)
            spot = found.setdefault(code, Spot(code, [], self._inside(point), state))
            spot.ids.append(place_id)
            spot.state = min(spot.state, state, key=RANK.index)
        return sorted(found.values(), key=lambda s: (-s.true[1], s.true[0], s.code))

    def _inside(self, point: Point) -> XY:
        """The place on the sheet; what lies beyond this bay (the middle of a long stick) is shown in its middle."""
        spacing = self.scene.document.measures.spacing_in
        start = self.scene.y(self.bay)
        y = point[1] if start - 1 <= point[1] <= start + spacing + 1 else start + spacing / 2
        return self.at(y, max(point[2], 0.0))

    # drawing
    def draw(self, chosen: str, href: str) -> Sheet:
        """Draw the bay, its checks last so that they can be tapped."""
        self._frame()
        self._pieces()
        self._settle()
        wrong = [spot for spot in self.spots if spot.state in CLASS_OF]
        self._broken()
        self._rings()
        self._words_above()
        for spot in self.spots:
            self.sheet.boxes.append(Box(spot.at[0] - 5, spot.at[1] - 5, spot.at[0] + 5, spot.at[1] + 5))
        self._flags(wrong)
        self._names()
        for spot in self.spots:
            self._check(spot, chosen, href)
        return self.sheet

    def _frame(self) -> None:
        p, sheet = self.place, self.sheet
        reach_l, reach_r = p.left - self.px - 14, self.right_hoop + self.px + 14
        reach_l = max(reach_l, 14.0)
        sheet.rect("now", Box(p.left - 12, p.top - 12, self.right_hoop + 12, self.soil + 6))
        peak = self.scene.document.measures.peak_in
        lines = [(run.kind, peak if run.code == "ridge" else run.z) for run in self.scene.runs if run.side in ("", self.side)]
        lines += [(board.kind, board.z) for board in self.scene.boards if board.side == self.side]
        for kind, z in lines:
            y = self.soil - z * self.scale
            sheet.line("far" if kind == "purlin" else "far thin", (reach_l, y), (reach_r, y))
        for kind, z in lines:
            y = self.soil - z * self.scale
            if kind == "purlin":
                sheet.tube("t1", [(p.left - 12, y), (self.right_hoop + 12, y)])
            else:
                sheet.line("obj1", (p.left - 12, y), (self.right_hoop + 12, y))
        for hoop in self._neighbours():
            x = self.at(self.scene.y(hoop), 0)[0]
            sheet.line("far", (x, self.soil), (x, p.top))
        for x in (p.left, self.right_hoop):
            sheet.tube("t2", [(x, self.soil), (x, p.top)])
        pencils.soil(sheet, max(reach_l - 10, 6), min(reach_r + 10, p.width - 6), self.soil)

    def _neighbours(self) -> list[int]:
        found = [hoop for hoop in (self.bay - 1, self.bay + 2) if 1 <= hoop <= self.scene.hoops]
        return [hoop for hoop in found if 16 <= self.at(self.scene.y(hoop), 0)[0] <= self.place.width - 60]

    def _line(self, piece: Piece) -> tuple[XY, XY]:
        return self.at(piece.start[1], piece.start[2]), self.at(piece.end[1], piece.end[2])

    def _pieces(self) -> None:
        sign = -1 if self.side == "left" else 1
        for piece in self.scene.pieces:
            if piece.zone == "tie" or (piece.start[0] + piece.end[0]) * sign <= 0:
                continue
            bay = min(piece.hoops)
            if bay == self.bay and not self.scene.is_wrong(piece):
                self.sheet.line("obj3", *self._line(piece))
            elif abs(bay - self.bay) == 1 and max(piece.hoops) - bay == 1:
                a, b = self._line(piece)
                if all(14 <= x <= self.place.width - 50 for x, _ in (a, b)):
                    self.sheet.line("far", a, b)

    def _broken(self) -> None:
        for piece in self.scene.pieces:
            if piece.zone == "tie" or min(piece.hoops) != self.bay or not self.scene.is_wrong(piece):
                continue
            if (piece.start[0] < 0) == (self.side == "left"):
                pencils.broken_piece(self.sheet, *self._line(piece), loose=self.scene.loose_end(piece))

    # checks
    def _settle(self) -> None:
        """Every spot's check at its own place, or beside it when another is too near."""
        taken: list[XY] = []
        middle = (self.place.left + self.right_hoop) / 2
        for spot in self.spots:
            out = -1 if spot.true[0] < middle else 1
            x, y = spot.true
            tries = [(x, y), (x + out * 13, y), (x - out * 13, y), (x + out * 13, y - 7), (x - out * 13, y - 7),
                     (x + out * 26, y), (x - out * 26, y), (x + out * 26, y - 9), (x - out * 26, y - 9),
                     (x + out * 13, y + 10), (x - out * 13, y + 10), (x - out * 26, y + 10), (x, y - 11)]
            spot.at = next((t for t in tries if all(math.dist(t, other) >= 11.5 for other in taken)
                            and 8 < t[0] < self.place.width - 8), (x, y))
            taken.append(spot.at)

    def _check(self, spot: Spot, chosen: str, href: str) -> None:
        sheet, at = self.sheet, spot.at
        if math.dist(at, spot.true) > 1:
            sheet.line("nudge", spot.true, at)
            sheet.circle("dot", spot.true, 1.6)
        if href:
            target = escape(href.replace("{code}", spot.code), quote=True)
            sheet.raw(f'<a href="{target}" aria-label="{escape(spot.code, quote=True)}">')
        others = [math.dist(at, other.at) for other in self.spots if other is not spot]
        reach = max(8.0, min(24.0, min(others, default=48.0) / 2))
        sheet.raw(f'<circle class="target" data-place="{escape(spot.code, quote=True)}" cx="{n(at[0])}" cy="{n(at[1])}" '
                  f'r="{n(reach)}"/>')
        self._state(spot)
        if chosen in (spot.code, *spot.ids):
            sheet.circle("chosen", at, 9.5)
        if href:
            sheet.raw("</a>")

    def _state(self, spot: Spot) -> None:
        sheet, at = self.sheet, spot.at
        if spot.state in CLASS_OF:
            sheet.circle("again-ring" if CLASS_OF[spot.state] == "again" else "fault-ring", at, 8)
        elif spot.state == "well":
            sheet.circle("chk-well", at, 4.8)
            pencils.tick_mark(sheet, at)
        elif spot.state == "unseen":
            sheet.circle("chk-unseen", at, 4.8)
            pencils.hatched(sheet, at)
        else:
            sheet.circle("chk-not", at, 4.6)

    # labels
    def _flags(self, wrong: list[Spot]) -> None:
        """Numbered flags in a lane right of the bay, in the order that keeps leaders from crossing."""
        p = self.place
        room = int((self.soil - p.top) / 31)
        shown = sorted(wrong, key=lambda s: RANK.index(s.state))[:room]
        shown.sort(key=lambda s: s.at[1])
        x = self.right_hoop + p.flag_x
        places = down([spot.at[1] - 30 for spot in shown], 31, p.top, self.soil - 16)
        places = _uncrossed([spot.at for spot in shown], x - 13, places)
        numbers = {spot.code: i for i, spot in enumerate(wrong, 1)}
        for spot, y in zip(shown, places, strict=True):
            word = CLASS_OF[spot.state]
            end = (x - 13.0, y + (9 if word == "mend" else 0))
            self.sheet.line("lead" if word == "again" else "lead-red", pencils.toward(spot.at, end, 8), end)
        for spot, y in zip(shown, places, strict=True):
            again = CLASS_OF[spot.state] == "again"
            size = 14 if text_box(x + 18, y, spot.code, 14).x1 < p.width - 2 else 12
            box = text_box(x + 18, y + 5, spot.code, size)
            self.sheet.rect("mask", Box(box.x0 - 3, box.y0, box.x1 + 3, box.y1))
            pencils.flag(self.sheet, (x, y), numbers[spot.code], CLASS_OF[spot.state])
            self.sheet.text((x + 18, y + 5), spot.code, size=size, kind="" if again else "red")

    def _rings(self) -> None:
        for hoop in (*self._neighbours(), self.bay, self.bay + 1):
            x = self.at(self.scene.y(hoop), 0)[0]
            self.sheet.bubble((x, self.soil + 26), hoop, named=hoop in (self.bay, self.bay + 1))

    def _words_above(self) -> None:
        at = ((self.place.left + self.right_hoop) / 2, self.place.top - 19)
        self.sheet.text(at, f"bay {self.bay}, {self.side}", size=13, kind="lab", anchor="middle")

    def _names(self) -> None:
        """The lengthwise lines' names in the right margin, or in the left one where a flag stands."""
        peak = self.scene.document.measures.peak_in
        named = {"ridge": peak}
        for run in self.scene.runs:
            if run.side == self.side:
                named["purlin" if run.code == "purlin" else f"{run.code} purlin"] = run.z
        if self.scene.hip:
            named[self.scene.hip[0]] = self.scene.profile.point(self.scene.hip[1])[1]
        edge = min(self.right_hoop + self.px + 20, self.place.width - 66)
        for words, z in named.items():
            y = self.soil - z * self.scale
            lower = y + (16 if z == peak else 4)
            for at in ((edge, lower), (edge, lower - 14), (edge, lower + 14), (self.place.left - self.px + 8, y - 5)):
                if pencils.fits(self.sheet, at, words, self.place.type, "start", 2):
                    self.sheet.text(at, words, size=self.place.type, kind="q")
                    break


def _uncrossed(anchors: list[XY], x: float, places: list[float]) -> list[float]:
    """Swap lane places until no two straight leaders cross; each swap shortens their sum, so it ends."""
    places = list(places)
    changed = True
    while changed:
        changed = False
        for i in range(len(places)):
            for j in range(i + 1, len(places)):
                now = math.dist(anchors[i], (x, places[i])) + math.dist(anchors[j], (x, places[j]))
                swapped = math.dist(anchors[i], (x, places[j])) + math.dist(anchors[j], (x, places[i]))
                if swapped < now - 1e-6:
                    places[i], places[j] = places[j], places[i]
                    changed = True
    return places


def render_bay(document: Document, bay: int, side: str, states: Mapping[str, str], size: str = "narrow", *,
               points: Mapping[str, Point] | None = None, chosen: str = "", href: str = "",
               palette: Mapping[str, str] | None = None, name: str = "") -> str:
    """Bay `bay` (1 at the tag end) of `side` "right" or "left", seen from outside, with the state of its places.

    `states` gives each place looked at there (place id) its state: "not", "well", "unseen", or, when something is
    wrong, its class "stop", "mend", "again" ("fault" or "" before a class is chosen). Places with one code share a check,
    which shows the one that asks for most. `points` gives the coordinates (inches) of places that the document does
    not know. `chosen` is the place or code in hand. Each check holds `<circle class="target" data-place="CODE">`,
    whose centre a script takes for the nearest; with `href` ("?place={code}") it is a link as well. `size` is
    "narrow" (358 px) or "desk" (560). Raises `ValueError` for a bay, side or size that there is not.
    """
    if size not in PLACES or side not in ("left", "right") or not 1 <= bay <= document.measures.bays:
        raise ValueError(f"There is no {size} drawing of bay {bay}, {side}: bays are 1 to {document.measures.bays}, "
                         f"sides left and right, sizes {', '.join(PLACES)}.")
    view = BayView(document, bay, side, states, size, points or {})
    sheet = view.draw(chosen, href)
    wrong = [spot.code for spot in view.spots if spot.state in CLASS_OF]
    counted = {state: sum(1 for spot in view.spots if spot.state == state) for state in ("well", "unseen", "not")}
    desc = (f"Bay {bay} between hoops {bay} and {bay + 1}, {side} side. "
            + (f"Something wrong at {', '.join(wrong)}. " if wrong else "")
            + f"{counted['well']} look as built, {counted['unseen']} could not be seen, {counted['not']} not looked at.")
    return sheet.svg(name or f"bay-{bay}-{side}-{size}", f"Bay {bay}, {side} side, from outside", desc, palette,
                     role="group" if href else "img")
