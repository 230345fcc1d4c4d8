"""The section: a hoop seen from outside the tag end, with every mark on a running line along its left side."""

from __future__ import annotations

import math
from dataclasses import dataclass

from . import pencils
from .scene import Piece, Scene
from .section_kit import draw_hardware, draw_kit_lines, draw_skin, draw_wall, draw_webs, name_skin
from .sheet import XY, Box, Sheet, text_box
from .tubemarks import TubeMark, section_pieces, tube_marks


@dataclass(frozen=True, slots=True)
class Place:
    """Room of one size, px. `half` draws the left half only and keys its marks by letter."""

    width: float
    centre: float
    reach: float                   # from the ridge plane to the leg at most
    tallest: float
    out: float                     # running line from the tube's axis
    step: float                    # label to label
    top: float
    half: bool
    type: int


PLACES = {
    "wide": Place(1110, 545, 316, 322, 18, 19, 24, False, 13),
    "desk": Place(768, 398, 200, 260, 15, 19, 22, False, 12),
    "narrow": Place(358, 340, 239, 300, 12.5, 20, 34, True, 12),
}


@dataclass(frozen=True, slots=True)
class _Label:
    """A mark's label as it will stand: the tick on the running line, where the leader ends, the words' right edge."""

    mark: TubeMark
    tick: XY
    end: XY

    def lower(self, by: float) -> _Label:
        """The same label further down the sheet."""
        return _Label(self.mark, (self.tick[0], self.tick[1] + by), (self.end[0], self.end[1] + by))


class SectionView:
    """One hoop, drawn once."""

    def __init__(self, scene: Scene, size: str):
        self.scene, self.place, self.size = scene, PLACES[size], size
        m = scene.document.measures
        self.marks = tube_marks(scene)
        self.soil = 0.0
        reach = self.place.reach
        for _ in range(4):              # long figures push the leg inward until they have room
            self.scale = min(reach / (m.width_in / 2), self.place.tallest / m.peak_in)
            self.labels = self._labels()
            lack = 2 - min(self._label_box(label.mark, *label.end).x0 for label in self.labels)
            if lack <= 0:
                break
            reach -= lack + 1
        top = min([label.end[1] for label in self.labels] + [-m.peak_in * self.scale]) - 12
        shift = self.place.top - top
        self.labels = [label.lower(shift) for label in self.labels]
        self.soil = shift
        posts = scene.post_depth_in * self.scale
        self.foot = self.soil + max(30.0, posts + 4)
        self.sheet = Sheet(self.place.width, math.ceil(self.foot + (34 if self.place.half else 52)), size, scene.asked.layers)

    # geometry
    def at(self, x: float, z: float) -> XY:
        """Where (x across, z up) lies on the sheet."""
        return self.place.centre + x * self.scale, self.soil - z * self.scale

    def on_tube(self, from_foot: float, out: float = 0.0) -> XY:
        """A place on the left half, `out` px outside the tube's axis."""
        (u, z), (nu, nz) = self.scene.profile.point(from_foot), self.scene.profile.normal(from_foot)
        x, y = self.at(-u, z)
        return x - nu * out, y - nz * out

    def _running(self) -> list[XY]:
        """The running line, offset outward; straight pieces need their ends only."""
        profile, out = self.scene.profile, self.place.out
        points = []
        for start, segment in zip(profile.starts, profile.segments, strict=True):
            steps = max(1, math.ceil(segment.length_in / 4)) if segment.radius_in else 1
            points += [self.on_tube(min(start + segment.length_in * i / steps, profile.half_in - 1e-6), out)
                       for i in range(steps + 1)]
        return points

    # labels along the running line
    def _labels(self) -> list[_Label]:
        """Labels from the foot up, each at least a step above the one before and clear of the running line."""
        running = self._running()
        lines = [(*a, *b) for a, b in zip(running, running[1:], strict=False)]
        found: list[_Label] = []
        ceiling = math.inf
        half = self.scene.profile.half_in
        for mark in self.marks:
            tick = self.on_tube(min(mark.from_foot_in, half - 1e-6), self.place.out)
            lean = abs(self.scene.profile.normal(mark.from_foot_in)[1])
            reach = (13.0 if self.place.half else 17.0) + (6 if lean > 0.3 else 0)
            end_x = tick[0] - reach
            y = min(tick[1] - (7 if lean > 0.3 else 0), ceiling)
            while self._blocked(mark, end_x, y, lines):
                y -= 3
            found.append(_Label(mark, tick, (end_x, y)))
            ceiling = y - self.place.step
        return found

    def _blocked(self, mark: TubeMark, end_x: float, y: float, lines: list[tuple[float, float, float, float]]) -> bool:
        box = self._label_box(mark, end_x, y).grown(2)
        return any(box.crossed_by(*line) for line in lines)

    def _label_box(self, mark: TubeMark, end_x: float, y: float) -> Box:
        figure = text_box(end_x - 4, y + 4.5, self._figure(mark), 13 if self.place.half else 14, "end")
        if self.place.half:
            return Box(figure.x0 - 24, figure.y0, figure.x1, figure.y1)
        words = text_box(figure.x0 - 10, y + 4.5, mark.words, self.place.type, "end")
        return Box(words.x0, figure.y0, figure.x1, figure.y1)

    def _figure(self, mark: TubeMark) -> str:
        """The mark's figure; the narrow drawing says its unit once, at the top."""
        return mark.figure.removesuffix(" mm") if self.place.half else mark.figure

    # drawing
    def draw(self) -> Sheet:
        """Draw everything, far to near, labels last."""
        self._ground()
        draw_wall(self)
        self._tube_and_pieces()
        draw_skin(self)
        draw_hardware(self)
        with self.sheet.layer("marks"):
            self._running_line()
        if self.place.half:
            self._half_words()
        else:
            self._figures()
        name_skin(self)
        return self.sheet

    def _ground(self) -> None:
        m, p = self.scene.document.measures, self.place
        left = self.at(-m.width_in / 2, 0)[0]
        apex = self.at(0, m.peak_in)[1]
        self.sheet.line("cen", (p.centre, apex - (8 if p.half else 28)), (p.centre, self.soil + (24 if p.half else 28)))
        out = 34.0 if p.half else 60.0
        pencils.soil(self.sheet, left - out, p.centre if p.half else 2 * p.centre - left + out, self.soil)
        bottom = self.soil + self.scene.post_depth_in * self.scale
        for x in (left,) if p.half else (left, 2 * p.centre - left):
            if bottom > self.soil:
                self.sheet.polyline("hid", [(x - 3, self.soil), (x - 3, bottom), (x + 3, bottom), (x + 3, self.soil)])

    def _hoop(self) -> list[XY]:
        half = self.scene.profile.polyline(0.0, self.scene.profile.half_in, 0.1)
        left = [self.at(-u, z) for u, z in half]
        return left if self.place.half else left + [self.at(u, z) for u, z in reversed(half)][1:]

    def _tube_and_pieces(self) -> None:
        lit, phantoms = section_pieces(self.scene)
        self._ties()
        draw_webs(self)
        lines = [self.line_of(p) for p in lit if self.shows(p) and p.zone != "tie"]
        for a, b in lines:
            self.sheet.line("halo", a, b)
        self.sheet.tube("t3", self._hoop())
        self._seams_and_runs()
        draw_kit_lines(self)
        for a, b in lines:
            self.sheet.line("lit", a, b)
        for a, b in lines:
            self.sheet.circle("bolt", a, 2.7)
            self.sheet.circle("bolt", b, 2.7)
        for piece in phantoms:
            if self.shows(piece):
                pencils.phantom(self.sheet, *self.line_of(piece))

    def line_of(self, piece: Piece) -> tuple[XY, XY]:
        a, b = self.at(piece.start[0], piece.start[2]), self.at(piece.end[0], piece.end[2])
        if self.place.half and piece.zone == "tie":
            b = (self.place.centre, b[1])
        return a, b

    def shows(self, piece: Piece) -> bool:
        return not self.place.half or piece.zone == "tie" or piece.start[0] < 0

    def _ties(self) -> None:
        ties = {round(p.start[2], 2): p for p in self.scene.pieces if p.zone == "tie"}
        for tie in ties.values():
            a, b = self.line_of(tie)
            if any(self.scene.is_lit(p) for p in self.scene.pieces if p.zone == "tie"):
                pencils.lit_lines(self.sheet, [(a, b)])
                self.sheet.strokes.append((*a, *b))
            else:
                self.sheet.tube("t1", [a, b])

    def _seams_and_runs(self) -> None:
        for seam in self.scene.seams:
            sides = {"left": (-1,), "right": (1,), "": (-1,)}[seam.side]
            for sign in sides:
                if not self.place.half or sign < 0:
                    self._seam(seam.from_foot_in, sign)
        for run in self.scene.runs:
            if not self.place.half or run.x <= 0:
                self.sheet.circle("cut", self.at(run.x, run.z), 3.4)

    def _seam(self, from_foot: float, sign: int) -> None:
        s = min(from_foot, self.scene.profile.half_in - 1e-6)
        (u, z), (nu, nz) = self.scene.profile.point(s), self.scene.profile.normal(s)
        x, y = self.at(sign * u, z)
        dx, dy = sign * nu * 4.5, -nz * 4.5
        self.sheet.line("tick", (x - dx, y - dy), (x + dx, y + dy))

    def _running_line(self) -> None:
        out, half = self.place.out, self.scene.profile.half_in
        self.sheet.polyline("dim", self._running())
        for s in (0.0, *(mark.from_foot_in for mark in self.marks)):
            s = min(s, half - 1e-6)
            nu, nz = self.scene.profile.normal(s)
            self.sheet.line("ext", self.on_tube(s, 3.3), self.on_tube(s, out + 6))
            pencils.tick(self.sheet, self.on_tube(s, out), math.atan2(-nu, nz) + math.pi / 2 + math.pi / 2)
        for label in self.labels:
            self._label(label)

    def _label(self, label: _Label) -> None:
        mark, (x, y) = label.mark, label.end
        self.sheet.line("lead", (label.tick[0] - 3, label.tick[1] - (0 if y > label.tick[1] - 3 else 2)), (x, y))
        colour = "num blue" if mark.lit else "num q" if mark.offered else "num"
        size = 13 if self.place.half else 14
        box = self.sheet.text((x - 4, y + 4.5), self._figure(mark), size=size, kind=colour, anchor="end")
        if self.place.half:
            self.sheet.mark((box.x0 - 13, y), mark.key, lit=mark.lit, radius=8)
        else:
            self.sheet.text((box.x0 - 10, y + 4.5), mark.words, size=self.place.type, kind="q" if mark.offered else "",
                            anchor="end")

    def _half_words(self) -> None:
        m, figure = self.scene.document.measures, self.scene.figure
        left = self.at(-m.width_in / 2, 0)[0]
        self.sheet.text(((left + self.place.centre) / 2 + 20, self.soil + 30), f"half width {figure(m.width_in / 2)}", size=12,
                        kind="q num", anchor="middle")
        words = f"{self.scene.side_of('right')} half alike" if self._alike() else f"{self.scene.side_of('left')} half"
        if self.scene.asked.units == "metric":
            words += ", marks in mm"
        self.sheet.text((self.place.centre + 6, 16), words, size=12, kind="q", anchor="end")
        for i, words in enumerate(reversed(self._facts())):
            self.sheet.text((self.place.centre - 6, self.soil - 28 - 16 * i), words, size=12, kind="q num", anchor="end")
        tie = next((p for p in self.scene.pieces if p.zone == "tie"), None)
        if tie:
            a = self.line_of(tie)[0]
            at = (a[0] + 22, a[1] + 18)
            self.sheet.text(at, f"tie {figure(tie.length_in)}", size=12, kind="q num")

    def _alike(self) -> bool:
        return all(self.scene.on_both_sides(seam) for seam in self.scene.seams)

    def _facts(self) -> list[str]:
        m, figure = self.scene.document.measures, self.scene.figure
        found = []
        if m.radius_in:
            found.append(f"radius {figure(m.radius_in)}")
        if m.pitch_deg:
            found.append(f"roof at {m.pitch_deg:g}°")
        found.append(f"peak {figure(m.peak_in)}")
        if not self._alike():
            right = [seam for seam in self.scene.seams if seam.side == "right"]
            side = self.scene.side_of("right")
            found += [f"seam {figure(self.scene.profile.half_in - seam.from_foot_in)} {side} of the ridge" for seam in right]
        return found

    # the figures of the wide section
    def _figures(self) -> None:
        m, p, figure = self.scene.document.measures, self.place, self.scene.figure
        left, right = self.at(-m.width_in / 2, 0)[0], self.at(m.width_in / 2, 0)[0]
        apex = self.at(0, m.peak_in)[1]
        y = self.foot + 30
        for x in (left, right):
            self.sheet.line("ext", (x, y - 10), (x, y + 5))
        pencils.dimension_across(self.sheet, left, right, y, figure(m.width_in), p.type)
        far = right + (176 if self.size == "wide" else 92)
        self.sheet.line("ext", (right + 69, self.soil), (far + 5, self.soil))
        self.sheet.line("ext", (p.centre + 8, apex), (far + 5, apex))
        pencils.dimension_up(self.sheet, far, self.soil, apex, figure(m.peak_in), right=True, size=p.type)
        if m.leg_in:
            x = right + (52 if self.size == "wide" else 30)
            self.sheet.line("ext", (right + 4, self.soil - m.leg_in * self.scale), (x + 5, self.soil - m.leg_in * self.scale))
            pencils.dimension_up(self.sheet, x, self.soil, self.soil - m.leg_in * self.scale,
                                 f"{figure(m.leg_in)} straight leg" if self.size == "wide" else f"{figure(m.leg_in)} leg",
                                 right=True, size=p.type)
        if m.radius_in and m.leg_in is not None:
            self._radius(m.radius_in, m.leg_in)
        if m.pitch_deg:
            self._pitch(math.radians(m.pitch_deg), m.pitch_deg)
        self._words_inside(apex)

    def _radius(self, radius: float, leg: float) -> None:
        """The arc's centre and a dimension out to the tube, half way round."""
        profile = self.scene.profile
        arc = next(i for i, segment in enumerate(profile.segments) if segment.radius_in)
        start, segment = profile.starts[arc], profile.segments[arc]
        foot_u, foot_z = profile.point(start)
        nu, nz = profile.normal(start)
        centre = self.at(foot_u - nu * radius, foot_z - nz * radius)
        angle = min(segment.length_in / radius / 2, math.radians(33))
        s = start + radius * angle
        u, z = profile.point(s)
        tip = pencils.toward(self.at(u, z), centre, 3.5)
        if math.dist(centre, (self.place.centre, centre[1])) < 12:
            centre = (self.place.centre, centre[1])
        self.sheet.line("dim", centre, tip)
        self.sheet.line("dim", (centre[0] - 4, centre[1]), (centre[0] + 4, centre[1]))
        self.sheet.line("dim", (centre[0], centre[1] - 4), (centre[0], centre[1] + 4))
        self._arrow(tip, centre)
        at = (centre[0] - 8, centre[1] + 4.5)
        self.sheet.text(at, f"radius {self.scene.figure(radius)}", size=self.place.type, kind="num", anchor="end")

    def _arrow(self, tip: XY, back: XY) -> None:
        length = math.dist(tip, back)
        ux, uy = (back[0] - tip[0]) / length, (back[1] - tip[1]) / length
        base = (tip[0] + ux * 10, tip[1] + uy * 10)
        self.sheet.polyline("arrow", [tip, (base[0] - uy * 1.8, base[1] + ux * 1.8), (base[0] + uy * 1.8, base[1] - ux * 1.8)],
                            closed=True)

    def _pitch(self, angle: float, degrees: float) -> None:
        """The roof's pitch as a small angle of its own, above the right roof."""
        half_u = self.scene.document.measures.width_in / 2
        out = half_u * self.scale * (0.47 if self._alike() else 0.62)
        x = self.place.centre + out
        y = self.at(0, self.scene.document.measures.peak_in)[1] + out * math.tan(angle) - 36
        self.sheet.line("dim", (x, y), (x + 64, y))
        self.sheet.line("dim", (x, y), (x + 64 * math.cos(angle), y + 64 * math.sin(angle)))
        self.sheet.path("dim", f"M{x + 50:.1f} {y:.1f}A50 50 0 0 1 {x + 50 * math.cos(angle):.1f} "
                               f"{y + 50 * math.sin(angle):.1f}")
        self.sheet.text((x + 70, y + 15), f"{degrees:g}°", size=self.place.type, kind="num")

    def _words_inside(self, apex: float) -> None:
        m, p, figure = self.scene.document.measures, self.place, self.scene.figure
        self.sheet.text((p.centre + 8, self.soil + 34), "centre line", size=p.type, kind="q")
        for words in ("marks run along the tube from each foot, both sides alike",
                      "marks run along the tube from each foot", "marks along the tube, from each foot"):
            if text_box(0, 0, words, p.type).x1 < m.width_in * self.scale - 60:
                self.sheet.text((p.centre, self.soil - 18), words, size=p.type, kind="q", anchor="middle")
                break
        self.sheet.text((p.centre + 24, apex - 20), f"developed {figure(m.developed_in)}", size=p.type, kind="q num")
        tie = next((t for t in self.scene.pieces if t.zone == "tie"), None)
        if tie:
            at = (p.centre + 12, self.at(0, tie.start[2])[1] + 18)
            self.sheet.text(at, f"tie {figure(tie.length_in)} hole to hole", size=p.type, kind="num")
        for seam in self.scene.seams:
            if seam.side == "right" and not self._alike():
                self._right_seam(seam.from_foot_in)

    def _right_seam(self, from_foot: float) -> None:
        """A seam that only the right side has, named there."""
        (u, z), (nu, nz) = self.scene.profile.point(from_foot), self.scene.profile.normal(from_foot)
        anchor = self.at(u, z)
        x, y = anchor[0] + nu * 5, anchor[1] - nz * 5
        words = f"seam, {self.scene.figure(self.scene.profile.half_in - from_foot)} right of the ridge"
        at = (self.place.centre + 72, self.at(0, self.scene.document.measures.peak_in)[1] + 17)
        self.sheet.line("lead", (x, y), (at[0] - 4, at[1] - 5))
        self.sheet.text(at, words, size=self.place.type)


def draw_section(scene: Scene, size: str) -> Sheet:
    """The section with marks; `size` is "wide", "desk" or "narrow"."""
    return SectionView(scene, size).draw()
