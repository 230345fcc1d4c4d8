"""The figures of the whole-frame view: its length, its width, which bays are left out, the near end's name."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from . import pencils
from .eye import ACROSS, ALONG

if TYPE_CHECKING:
    from .frame import FrameView


class FrameFigures:
    """The figures beside one whole-frame view."""

    def __init__(self, view: FrameView):
        self.view, self.scene, self.sheet = view, view.scene, view.sheet
        self.words_at = (0.0, 0.0)

    def draw(self) -> None:
        """The length along the right side, the width across the near end, each with its figure; which bays are left out."""
        if self.view.place.figures:
            self._length()
        self._say_gaps()

    def _length(self) -> None:
        m, out = self.view.measures, self.view.place.ring_out
        ends = []
        for hoop in (1, m.hoops):
            foot = self.view.at(self.view.half, self.scene.y(hoop), 0)
            tip = self.view.off(foot, ACROSS, out * 2 - 0.5)
            self.sheet.line("ext", self.view.off(foot, ACROSS, out + 12), self.view.off(tip, ACROSS, 5))
            ends.append(tip)
        a, b = self.view.off(ends[0], ALONG, -4.5), self.view.off(ends[1], ALONG, 4.5)
        self.sheet.line("dim", a, b)
        for at in ends:
            pencils.tick(self.sheet, at, math.atan2(ALONG[1], ALONG[0]) - 0.9)
        middle = pencils.along(ends[0], ends[1], 0.5)
        words = f"{m.bays} bays at {self.scene.figure(m.spacing_in)} = {self.scene.figure(m.length_in)}"
        self.words_at = (middle[0] + 6, middle[1] + 22)
        self.sheet.text(self.words_at, words, size=13, kind="num")
        self._width()

    def _say_gaps(self) -> None:
        """Which bays are left out, below the figures, or in the empty corner of the narrow drawing."""
        bays = self.view.measures.bays
        gaps = " and ".join(f"{bays + 1 - last} to {bays + 1 - first}" if self.scene.asked.turned else f"{first} to {last}"
                            for _, first, last in self.view.axis.gaps())
        if not gaps:
            return
        words = f"bays {gaps} left out"
        if self.view.place.figures:
            self.sheet.text((self.words_at[0], self.words_at[1] + 18), words, size=13, kind="num q")
        else:
            at = (self.view.place.width - 6, self.sheet.height - 8)
            self.sheet.text(at, words, size=12, kind="num q", anchor="end")

    def _width(self) -> None:
        ends = []
        for x in (-self.view.half, self.view.half):
            foot = self.view.at(x, 0.0, 0)
            tip = self.view.off(foot, ALONG, -36.7)
            self.sheet.line("ext", self.view.off(foot, ALONG, -8.6), self.view.off(tip, ALONG, -8.6))
            ends.append(tip)
        self.sheet.line("dim", *ends)
        for at in ends:
            pencils.tick(self.sheet, at, math.atan2(ACROSS[1], ACROSS[0]) - 0.25)
        middle = pencils.along(ends[0], ends[1], 0.5)
        self.sheet.text((middle[0] - 8, middle[1] + 18), self.scene.figure(self.view.measures.width_in), size=13,
                        kind="num", anchor="end")
        words = self.scene.end_words(2 if self.scene.asked.turned else 1, middle[0] - 10, 13)
        with self.sheet.layer("names"):
            self.sheet.text((middle[0] - 8, middle[1] + 36), words, size=13, kind="q", anchor="end")
