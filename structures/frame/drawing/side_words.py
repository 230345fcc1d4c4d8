"""What the side view says of its lit pieces: whole chains in words on the wide sheet, letters elsewhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

from . import pencils
from .lanes import across
from .scene import Piece
from .sheet import text_box

if TYPE_CHECKING:
    from .side import SideView

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six")


class SideWords:
    """The labels of one side view's pieces."""

    def __init__(self, view: SideView):
        self.view, self.scene, self.sheet = view, view.scene, view.sheet

    def draw(self) -> None:
        """Words where they fit, a letter for everything else; phantoms by letter."""
        lit = self.view.of_side(self.scene.lit)
        unsaid = pencils.mark_groups(lit)
        if self.view.place.words:
            unsaid = self._say_in_words(lit)
        lines = [self.view.line_of(p) for p in lit + self.view.of_side(self.scene.phantoms)]
        radius = 9 if self.view.place.width > 400 else 8.5
        for group in unsaid:
            piece = group[0]
            pencils.place_mark(self.sheet, *self.view.line_of(piece), self.scene.letters[piece.part], lines, radius=radius,
                               ringed=bool(self.scene.date_added(piece)))
        for group in pencils.mark_groups(self.view.of_side(self.scene.phantoms)):
            pencils.place_mark(self.sheet, *self.view.line_of(group[0]), self.scene.letters[group[0].part], lines,
                               lit=False, radius=radius)

    def _chains(self, pieces: list[Piece]) -> list[list[Piece]]:
        """Lit pieces by zone and corner, from left to right on the sheet."""
        found: dict[tuple[str, str], list[Piece]] = {}
        for piece in pieces:
            found.setdefault((piece.zone, piece.corner), []).append(piece)
        return sorted(found.values(), key=lambda chain: min(x for p in chain for x, _ in self.view.line_of(p)))

    def _say_in_words(self, lit: list[Piece]) -> list[list[Piece]]:
        """Label whole chains; returns the groups whose words found no room, to be marked by letter."""
        unsaid: list[list[Piece]] = []
        said: set[tuple[str, ...]] = set()
        chains = self._chains(lit)
        above = [c for c in chains if c[0].zone != "side"]
        unsaid += self._say_above(above, said)
        for chain in chains:
            if chain[0].zone == "side" and not self._say_beside(chain, said):
                unsaid += pencils.mark_groups(chain)
        return unsaid

    def _words(self, chain: list[Piece], said: set[tuple[str, ...]]) -> list[str]:
        """The chain's label, full first time, then shorter."""
        marks = [self.scene.letters[p.part] for p in chain]
        zone = f"{chain[0].zone} brace"
        figures = [self.scene.figure(p.length_in) for p in chain]
        if len(set(marks)) == 1:
            short = f"{zone} {marks[0]}"
            count = f"{_NUMBERS[len(chain)] if len(chain) < 7 else len(chain)} pieces {figures[0]} each"
            long = f"{short}, {count}" if len(chain) > 1 else f"{short}, {figures[0]}"
        else:
            names = [p.role.rpartition("-")[2] if p.role.count("-") == 1 else p.role for p in chain]
            short = f"{zone}: " + ", ".join(f"{name} {mark}" for name, mark in zip(names, marks, strict=True))
            long = short + f", {figures[0]} each" if len(set(figures)) == 1 else f"{zone}: " + ", ".join(
                f"{name} {mark} {figure}" for name, mark, figure in zip(names, marks, figures, strict=True))
        date = self.scene.date_added(chain[0])
        if date:
            short, long = f"{short}, {date}", f"{long}, {date}"
        key = (chain[0].zone, *figures)
        return [short] if key in said else [long, short]

    def _say_above(self, chains: list[list[Piece]], said: set[tuple[str, ...]]) -> list[list[Piece]]:
        """Roof chains: words on shelves above the ridge, a leader down to each."""
        anchors, words = [], []
        for chain in chains:
            a, b = self.view.line_of(max(chain, key=lambda p: p.end[2] + p.start[2]))
            anchors.append(pencils.along(a, b, 0.5))
            options = self._words(chain, said)
            words.append(options[0])
            said.add((chain[0].zone, *(self.scene.figure(p.length_in) for p in chain)))
        widths = [text_box(0, 0, w, 13).x1 for w in words]
        shelf = 34.0
        starts = across([a[0] for a in anchors], widths, 40, self.view.place.width - 40, 26)
        unsaid = []
        for chain, anchor, text, width, start in zip(chains, anchors, words, widths, starts, strict=True):
            if start is None:
                unsaid += pencils.mark_groups(chain)
                continue
            knee = start if abs(start - anchor[0]) < abs(start + width - anchor[0]) else start + width
            far = start + width if knee == start else start
            self.sheet.polyline("lead", [anchor, (knee, shelf), (far, shelf)])
            self.sheet.circle("dot", anchor, 2.2)
            self.sheet.text((start, shelf - 6), text, size=13, kind="lab")
        return unsaid

    def _say_beside(self, chain: list[Piece], said: set[tuple[str, ...]]) -> bool:
        """A side chain: words between the hoops, inward of the chain. False when there is no room."""
        points = [xy for p in chain for xy in self.view.line_of(p)]
        low = min(chain, key=lambda p: p.start[2] + p.end[2])
        anchor = pencils.along(*self.view.line_of(low), 0.5)
        middle = self.view.place.left + (self.view.place.width - self.view.place.left - self.view.place.right) / 2
        inward = 1 if sum(x for x, _ in points) / len(points) < middle else -1
        edge = max(x for x, _ in points) if inward > 0 else min(x for x, _ in points)
        others = [x for p in self.view.of_side(self.scene.lit) if p not in chain for x, _ in self.view.line_of(p)]
        beyond = min((x for x in others if x > edge), default=self.view.place.width) if inward > 0 else max(
            (x for x in others if x < edge), default=0.0)
        y = anchor[1] - 8
        for words in self._words(chain, said):
            at = (edge + inward * 33, y)
            box = text_box(*at, words, 13, "start" if inward > 0 else "end")
            room = box.x1 + 14 < beyond if inward > 0 else box.x0 - 14 > beyond
            if room and self.sheet.free(box, 8):
                knee = (edge + inward * 28, y - 4.5)
                self.sheet.line("lead", anchor, knee)
                self.sheet.circle("dot", anchor, 2.2)
                self.sheet.text(at, words, size=13, kind="lab", anchor="start" if inward > 0 else "end")
                said.add((chain[0].zone, *(self.scene.figure(p.length_in) for p in chain)))
                return True
        return False
