"""The strokes that every view shares: soil, dimensions, lit and phantom pieces, flags, long breaks."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from .scene import Piece
from .sheet import XY, Box, Sheet, n, text_box

FLAG_WORDS = {"stop": "stop and ask", "mend": "mend this week", "again": "look again"}


def along(a: XY, b: XY, t: float) -> XY:
    """The point a fraction t of the way from a to b."""
    return a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t


def toward(a: XY, b: XY, px: float) -> XY:
    """The point px from a toward b."""
    length = math.dist(a, b) or 1.0
    return along(a, b, px / length)


def soil(sheet: Sheet, x0: float, x1: float, y: float) -> None:
    """The ground line with its hatching, one path for all strokes."""
    sheet.line("obj2", (x0, y), (x1, y), solid=True)
    # a mark on the soil line is worse than one on a tube, and one on its hatching no better
    sheet.strokes += [(x0, y, x1, y)] * 3 + [(x0, y + 4, x1, y + 4)] * 2
    strokes = []
    x = x0 + 4
    while x < x1 - 4:
        strokes.append(f"M{n(x)} {n(y + 1)}l-6 6")
        x += 11
    sheet.path("hatch", "".join(strokes))


def tick(sheet: Sheet, at: XY, angle: float = 0.0) -> None:
    """A dimension's tick at 45 degrees to its line, which runs at `angle` (radians)."""
    dx, dy = 5 * math.cos(angle - math.pi / 4), 5 * math.sin(angle - math.pi / 4)
    sheet.line("tick", (at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy))


def dimension_across(sheet: Sheet, x0: float, x1: float, y: float, words: str, size: int = 13) -> None:
    """A dimension from x0 to x1 at height y, its figure above the line."""
    x0, x1 = min(x0, x1), max(x0, x1)
    sheet.line("dim", (x0 - 5, y), (x1 + 5, y))
    tick(sheet, (x0, y))
    tick(sheet, (x1, y))
    sheet.text(((x0 + x1) / 2, y - 5), words, size=size, kind="num", anchor="middle")


def dimension_up(sheet: Sheet, x: float, y0: float, y1: float, words: str, *, right: bool, size: int = 13) -> None:
    """A dimension from y0 up to y1 at x, its figure beside the line."""
    sheet.line("dim", (x, y0 + 5), (x, y1 - 5))
    tick(sheet, (x, y0))
    tick(sheet, (x, y1))
    at = (x + 6, (y0 + y1) / 2 + 4.5) if right else (x - 6, (y0 + y1) / 2 + 4.5)
    sheet.text(at, words, size=size, kind="num", anchor="start" if right else "end")


def lit_lines(sheet: Sheet, lines: Sequence[tuple[XY, XY]], *, small: bool = False, holes: bool = True) -> None:
    """Lit pieces: first every wash, then every line, then a white hole at each landing (purlins and boards have none)."""
    wash, line = ("halo-s", "lit-s") if small else ("halo", "lit")
    for a, b in lines:
        sheet.line(wash, a, b)
    for a, b in lines:
        sheet.line(line, a, b)
    if holes and not small:
        for a, b in lines:
            sheet.circle("bolt", a, 2.7)
            sheet.circle("bolt", b, 2.7)


def lit_pieces(sheet: Sheet, pieces: Sequence[tuple[str, str, XY, XY]], *, small: bool = False) -> None:
    """Lit pieces by place id, part and ends: as `lit_lines`, each in a group of its own that a page can find."""
    wash, line = ("halo-s", "lit-s") if small else ("halo", "lit")
    for _, _, a, b in pieces:
        sheet.line(wash, a, b)
    for ident, part, a, b in pieces:
        with sheet.piece(ident, part):
            sheet.line(line, a, b)
    for _, _, a, b in () if small else pieces:
        sheet.circle("bolt", a, 2.7)
        sheet.circle("bolt", b, 2.7)


def phantom(sheet: Sheet, a: XY, b: XY) -> None:
    """A piece that is not there: phantom dash, open ends."""
    sheet.line("gone2", a, b)
    sheet.circle("gone-end", a, 3.4)
    sheet.circle("gone-end", b, 3.4)


def broken_piece(sheet: Sheet, a: XY, b: XY, *, loose: int | None) -> None:
    """A piece with something wrong: red, its end pulled off: the first (0) or second (1), the second if none is known."""
    fixed, end = (b, a) if loose == 0 else (a, b)
    length = math.dist(fixed, end) or 1.0
    along_x, along_y = (end[0] - fixed[0]) / length, (end[1] - fixed[1]) / length
    sag = 8 if along_x >= 0 else -8
    tip = (fixed[0] + along_x * length * 0.86 - along_y * sag, fixed[1] + along_y * length * 0.86 + along_x * sag)
    sheet.line("fault", fixed, tip)
    sheet.circle("fault-end", tip, 3.4)


def flag(sheet: Sheet, at: XY, number: int, word: str) -> Box:
    """A numbered flag in the shape of its class: octagon, triangle or diamond, 28 px, centred at `at`."""
    x, y = at
    kind, text_kind, rise = "flag", "flagt", 5.0
    if word == "stop":
        corner = 5.5
        points = [(x - corner, y - 13), (x + corner, y - 13), (x + 13, y - corner), (x + 13, y + corner),
                  (x + corner, y + 13), (x - corner, y + 13), (x - 13, y + corner), (x - 13, y - corner)]
    elif word == "again":
        points = [(x, y - 14), (x + 14, y), (x, y + 14), (x - 14, y)]
        kind, text_kind = "flag-again", "flagt-again"
    else:
        points = [(x, y - 13), (x + 14, y + 11), (x - 14, y + 11)]
        rise = 8.5
    sheet.polyline(kind, points, closed=True)
    sheet.raw(f'<text class="f13 {text_kind}" x="{n(x)}" y="{n(y + rise)}" text-anchor="middle">{number}</text>')
    box = Box(x - 14, y - 14, x + 14, y + 14)
    sheet.boxes.append(box)
    return box


def tick_mark(sheet: Sheet, at: XY) -> None:
    """The tick of "looks as built", inside its ring."""
    x, y = at
    sheet.polyline("chk-tick", [(x - 2.6, y + 0.2), (x - 0.7, y + 2.2), (x + 2.8, y - 2.2)])


def hatched(sheet: Sheet, at: XY) -> None:
    """The hatching of "could not see", inside its ring of 4.6 px."""
    x, y = at
    sheet.path("chk-hatch", f"M{n(x - 4.2)} {n(y + 1)}L{n(x + 1)} {n(y - 4.2)}M{n(x - 3.2)} {n(y + 3.2)}L{n(x + 3.2)} "
                            f"{n(y - 3.2)}M{n(x - 1)} {n(y + 4.2)}L{n(x + 4.2)} {n(y - 1)}")


def zigzag(sheet: Sheet, x: float, y0: float, y1: float, lean: float = 5.0) -> None:
    """An upright break line with one zigzag in the middle."""
    m = (y0 + y1) / 2
    sheet.polyline("brk", [(x, y0), (x, m - 9), (x - lean, m - 3), (x + lean, m + 3), (x, m + 9), (x, y1)], solid=True)
    sheet.strokes += [(x, y0, x, y1)] * 2


def _mark_places(reach: float) -> list[tuple[float, float, float]]:
    """Where a mark may stand beside its piece: what the place costs in itself, px square off, fraction along; best first."""
    places = [(abs(offset) / 6 + abs(t - 0.5) * 4 + (1.5 if offset < 0 else 0), offset, t)
              for out in (9, 14, 20) for offset in (reach + out, -reach - out) for t in (0.5, 0.38, 0.62, 0.25, 0.75)]
    return sorted(places)


def _near(at: XY, a: XY, b: XY, span: float) -> bool:
    """Whether the line's box comes within `span` of a point."""
    return (min(a[0], b[0]) - span < at[0] < max(a[0], b[0]) + span
            and min(a[1], b[1]) - span < at[1] < max(a[1], b[1]) + span)


def place_mark(sheet: Sheet, a: XY, b: XY, letter: str, away: Iterable[tuple[XY, XY]], *, lit: bool = True,
               radius: float = 9, size: int = 12, ringed: bool = False, half: float = 0.0) -> bool:
    """Set a letter beside the piece from a to b, in the clearest of the places tried; False when none is free.

    `away` are lines that the mark must not lie on. Fewest object lines behind it wins, then the nearest place. `half` is
    half of the piece's width where it is drawn wide.
    """
    length = math.dist(a, b) or 1.0
    nx, ny = -(b[1] - a[1]) / length, (b[0] - a[0]) / length
    if ny < 0:
        nx, ny = -nx, -ny
    best: tuple[float, XY] | None = None
    reach = radius + (3.5 if ringed else 0)
    middle, span = along(a, b, 0.5), length / 2 + reach + 32
    lines = [(*p, *q) for p, q in away if _near(middle, p, q, span)]
    for least, offset, t in _mark_places(reach + half):
        if best is not None and least >= best[0]:
            break
        x, y = along(a, b, t)
        at = (x + nx * offset, y + ny * offset)
        box = Box(at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach)
        if not sheet.free(box, 4) or any(box.grown(1.5 + half).crossed_by(*line) for line in lines):
            continue
        cost = least + 4 * sheet.crossings(box)
        if best is None or cost < best[0]:
            best = (cost, at)
    if best is None:
        return False
    sheet.mark(best[1], letter, lit=lit, radius=radius, size=size, ringed=ringed)
    return True


def mark_groups(pieces: Iterable[Piece]) -> list[list[Piece]]:
    """Pieces that one mark stands for: the same part in the same chain of the same corner; each tie by itself."""
    found: dict[tuple[str, ...], list[Piece]] = {}
    for piece in pieces:
        key = (piece.part, piece.zone, piece.corner, piece.id if piece.zone == "tie" else "")
        found.setdefault(key, []).append(piece)
    return list(found.values())


def crossing(a: XY, b: XY, c: XY, d: XY) -> bool:
    """Whether the straight lines from a to b and from c to d cross."""
    def side(p: XY, q: XY, r: XY) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def fits(sheet: Sheet, at: XY, words: str, size: int, anchor: str = "start", gap: float = 3.0) -> bool:
    """Whether a line of words would lie on the sheet and clear of every label."""
    return sheet.free(text_box(*at, words, size, anchor), gap)
