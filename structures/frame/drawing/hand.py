"""What a picker holds in the hand: a piece's end in face and edge, and the piece against its nearest twin."""

from __future__ import annotations

import math
from collections.abc import Mapping

from structures.frame.lengths import MM_PER_INCH, inches_only, millimetres, show_length, sixteenths

from . import pencils
from .sheet import XY, Sheet, n, text_box, wrapped

_TUBE_PX = 42.0


def _small(inches: float, units: str) -> str:
    """A diameter or a gap: inches and sixteenths, or millimetres."""
    return millimetres(inches) if units == "metric" else inches_only(inches)


def render_piece(ends: str, *, tube_in: float, hand: str = "", twist_deg: float = 0.0, units: str = "us",
                 palette: Mapping[str, str] | None = None, name: str = "piece-narrow") -> str:
    """The end of a piece, 358 px wide, tube 42 px across.

    `ends` are the part's words: "flattened and drilled both ends" is shown on its flat and on its edge, "one plain,
    one swaged" end by end. `tube_in` is the outside diameter, `hand` "left" or "right" where the twist is made at the
    press: then a third row shows the far end turned, right like a screw thread.
    """
    kinds = _end_kinds(ends)
    rows = ["flat", "edge"] + (["turn"] if hand in ("left", "right") else []) if "flat" in kinds else kinds
    sheet = Sheet(358, 16 + 68 * len(rows), "narrow")
    size = max(f"{tube_in:g}", f"{tube_in:.2f}", key=len) if units == "us" else millimetres(tube_in)
    for i, row in enumerate(rows):
        _ROWS[row](sheet, 44 + 68 * i, tube_in, f"tube {size} across" if i == 0 else "")
    if "flat" in kinds:
        sheet.text((34, 116.5), f"both ends flat, {hand} twist" if hand else "both ends flat, no twist", size=13)
    if "turn" in rows:
        _turn(sheet, 180, hand, twist_deg)
    desc = f"{ends}; tube {size} across" + (f"; {hand} twist, {twist_deg:.1f} degrees." if hand else ".")
    return sheet.svg(name, "The end of this piece", desc, palette)


def _end_kinds(ends: str) -> list[str]:
    """Which ends to draw, from the words of the part."""
    words = ends.lower()
    if "flat" in words:
        return ["flat"]
    found = []
    if "plain" in words or "swage" not in words:
        found.append("drilled" if "hole" in words else "plain")
    if "swage" in words:
        found.append("swaged")
    return found


def _break(sheet: Sheet, y: float, half: float) -> None:
    sheet.polyline("brk", [(20, y - half - 6), (20, y - 6), (14, y - 2), (26, y + 3), (20, y + 7), (20, y + half + 6)])


def _flat(sheet: Sheet, y: float, tube_in: float, words: str) -> None:
    """The flattened end on its flat: it widens, then is trimmed to 1 1/8 and rounded 9/16 about the hole."""
    k = _TUBE_PX / tube_in
    half, wide, r = _TUBE_PX / 2, min(31.0, math.pi / 4 * _TUBE_PX), 0.5625 * k
    dx = math.sqrt(max(r * r - (0.925 * r) ** 2, 0.0))
    x, up = 266.0, 0.925 * r
    sheet.path("obj2 pap", f"M20 {n(y - half)}L140 {n(y - half)}C170 {n(y - half)} 178 {n(y - wide)} 200 {n(y - wide)}L232 "
                           f"{n(y - wide)}L{n(x - dx)} {n(y - up)}A{n(r)} {n(r)} 0 1 1 {n(x - dx)} {n(y + up)}L232 "
                           f"{n(y + wide)}L200 {n(y + wide)}C178 {n(y + wide)} 170 {n(y + half)} 140 {n(y + half)}L20 {n(y + half)}")
    sheet.circle("obj2 pap", (x, y), 0.171875 * k)
    sheet.line("cen", (x - 12, y), (x + 12, y))
    sheet.line("cen", (x, y - 12), (x, y + 12))
    _break(sheet, y, half)
    sheet.text((34, y + 4.5), words, size=13, kind="num")
    sheet.text((302, y + 4.5), "face", size=13, kind="q")


def _edge(sheet: Sheet, y: float, tube_in: float, words: str) -> None:
    """The flattened end on its edge, twice the wall thick."""
    half, thin, x = _TUBE_PX / 2, 3.0, 266.0
    hole = 0.171875 * _TUBE_PX / tube_in
    sheet.path("obj2 pap", f"M20 {n(y - half)}L140 {n(y - half)}C176 {n(y - half)} 184 {n(y - thin)} 208 {n(y - thin)}L284 "
                           f"{n(y - thin)}L284 {n(y + thin)}L208 {n(y + thin)}C184 {n(y + thin)} 176 {n(y + half)} 140 "
                           f"{n(y + half)}L20 {n(y + half)}")
    for side in (-hole, hole):
        sheet.line("hid", (x + side, y - thin), (x + side, y + thin))
    sheet.line("cen", (x, y - 14), (x, y + 14))
    _break(sheet, y, half)
    sheet.text((302, y + 4.5), "edge", size=13, kind="q")


def _plain(sheet: Sheet, y: float, tube_in: float, words: str) -> None:
    half = _TUBE_PX / 2
    sheet.path("obj2 pap", f"M20 {n(y - half)}L268 {n(y - half)}L268 {n(y + half)}L20 {n(y + half)}")
    _break(sheet, y, half)
    sheet.text((34, y + 4.5), words, size=13, kind="num")
    sheet.text((284, y + 4.5), "plain end", size=13, kind="q")


def _drilled(sheet: Sheet, y: float, tube_in: float, words: str) -> None:
    _plain(sheet, y, tube_in, words)
    sheet.circle("obj2 pap", (222, y), 6)
    sheet.line("cen", (210, y), (234, y))
    sheet.line("cen", (222, y - 12), (222, y + 12))


def _swaged(sheet: Sheet, y: float, tube_in: float, words: str) -> None:
    """The end necked down to go into a plain one."""
    half, neck = _TUBE_PX / 2, _TUBE_PX / 2 * 0.86
    sheet.path("obj2 pap", f"M20 {n(y - half)}L176 {n(y - half)}L188 {n(y - neck)}L268 {n(y - neck)}L268 {n(y + neck)}L188 "
                           f"{n(y + neck)}L176 {n(y + half)}L20 {n(y + half)}")
    _break(sheet, y, half)
    sheet.text((34, y + 4.5), words, size=13, kind="num")
    sheet.text((284, y + 4.5), "swaged end", size=13, kind="q")


def _turn_row(sheet: Sheet, y: float, tube_in: float, words: str) -> None:
    """Drawn by `_turn`, which knows the hand."""


def _turn(sheet: Sheet, y: float, hand: str, twist_deg: float) -> None:
    """Looking along the piece: the near flat solid, the far flat dashed and turned; right turns like a screw thread.

    The turn is drawn at 24 degrees whatever it is, since a true one of 5 could not be seen; the words say how large.
    """
    x, half, angle = 62.0, 27.0, math.radians(24 if hand == "right" else -24)
    far = _bar((x, y), half, 3.0, angle)
    sheet.polyline("hid", far, closed=True)
    sheet.polyline("obj2 pap", _bar((x, y), half, 3.0, 0.0), closed=True)
    start, end = (x + 38.0, y), (x + 38.0 * math.cos(angle), y + 38.0 * math.sin(angle))
    sweep = 1 if hand == "right" else 0
    sheet.path("hand", f"M{n(start[0])} {n(start[1])}A38 38 0 0 {sweep} {n(end[0])} {n(end[1])}")
    lean = angle + (math.pi / 2 if hand == "right" else -math.pi / 2)
    tip = (end[0] + 7 * math.cos(lean), end[1] + 7 * math.sin(lean))
    side = (3.2 * math.cos(angle), 3.2 * math.sin(angle))
    sheet.polyline("arrow", [tip, (end[0] + side[0], end[1] + side[1]), (end[0] - side[0], end[1] - side[1])], closed=True)
    degrees = f", {twist_deg:.1f}°" if twist_deg else ""
    sheet.text((120, y - 3), f"far end turned {hand}{degrees}", size=13)
    sheet.text((120, y + 14), "looking along it; turn drawn larger", size=12, kind="q")


def _bar(centre: XY, half: float, thick: float, angle: float) -> list[XY]:
    ux, uy = math.cos(angle), math.sin(angle)
    return [(centre[0] + a * half * ux - b * thick * uy, centre[1] + a * half * uy + b * thick * ux)
            for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))]


_ROWS = {"flat": _flat, "edge": _edge, "plain": _plain, "drilled": _drilled, "swaged": _swaged, "turn": _turn_row}


def render_twin(length_in: float, twin_name: str, twin_length_in: float, *, hand: str = "", twin_hand: str = "",
                holes: bool = True, units: str = "us", palette: Mapping[str, str] | None = None,
                name: str = "twin-narrow") -> str:
    """A piece over its nearest twin, left holes in line, the gap between their right ends dimensioned; 358 px wide.

    The middle of both is left out at a long break and the gap is drawn larger than the lengths; its figure is the
    difference of the lengths as they are shown. Equal lengths of other hands say so instead. `holes` False draws
    square ends.
    """
    gap_words = _gap_words(length_in, twin_length_in, units)
    far, near = 322.0, 322.0
    if gap_words:
        gap = min(40 + 28 * abs(length_in - twin_length_in), 130.0)
        far, near = (322.0, 322.0 - gap) if length_in > twin_length_in else (322.0 - gap, 322.0)
    lines = wrapped(f"not this: {twin_name}" + (f", {twin_hand} twist" if twin_hand and twin_hand not in twin_name else ""),
                   near - text_box(0, 0, show_length(twin_length_in, units), 14).x1 - 22, 14)
    drop = 18.5 * (len(lines) - 1)
    sheet = Sheet(358, 128 + drop, "narrow")
    _bar_row(sheet, 40, far, True, holes)
    _bar_row(sheet, 92 + drop, near, False, holes)
    sheet.text((12, 26), "this one" + (f", {hand} twist" if hand else ""), size=14, kind="blue")
    sheet.text((far + 6, 26), show_length(length_in, units), size=14, kind="num blue", anchor="end")
    for i, words in enumerate(lines):
        sheet.text((12, 80 + 18.5 * i), words, size=14)
    sheet.text((near + 6, 80 + drop), show_length(twin_length_in, units), size=14, kind="num", anchor="end")
    if gap_words:
        _gap(sheet, far, near, 92 + drop, gap_words)
    else:
        sheet.text((322, 116 + drop), "same length, other hand" if hand != twin_hand else "same length", size=13, anchor="end")
    desc = f"This piece, {show_length(length_in, units)}, over {twin_name}, {show_length(twin_length_in, units)}, left holes in line; " + (
        f"they differ by {gap_words}." if gap_words else "they are equally long.")
    return sheet.svg(name, "This piece against its nearest twin", desc, palette)


def _gap_words(length_in: float, twin_in: float, units: str) -> str:
    """The difference of the figures as shown; "" when they read alike."""
    if units == "metric":
        gap_mm = abs(math.floor(length_in * MM_PER_INCH + 0.5) - math.floor(twin_in * MM_PER_INCH + 0.5))
        return f"{gap_mm} mm" if gap_mm else ""
    gap = abs(sixteenths(length_in) - sixteenths(twin_in))
    return inches_only(gap / 16) if gap else ""


def _bar_row(sheet: Sheet, y: float, end: float, lit: bool, holes: bool) -> None:
    if lit:
        sheet.line("halo", (18, y), (end, y))
    sheet.line("lit" if lit else "gone2", (18, y), (end, y))
    for x in (18.0, end):
        if holes:
            sheet.circle("bolt" if lit else "gone-end", (x, y), 4.2)
        else:
            sheet.line("lit-s" if lit else "gone2", (x, y - 7), (x, y + 7))
    pencils_at = min(150.0, (18 + end) / 2)
    sheet.raw(f'<rect class="mask" x="{n(pencils_at - 5)}" y="{n(y - 10)}" width="10" height="20"/>')
    for x in (pencils_at - 5, pencils_at + 5):
        sheet.line("brk", (x + 3, y - 10), (x - 3, y + 10))


def _gap(sheet: Sheet, far: float, near: float, y: float, words: str) -> None:
    low, high = min(far, near), max(far, near)
    for x, top in ((far, 48.0), (near, y + 8)):
        sheet.line("ext", (x, top), (x, y + 24))
    sheet.line("dim", (low - 5, y + 18), (high + 5, y + 18))
    pencils.tick(sheet, (low, y + 18))
    pencils.tick(sheet, (high, y + 18))
    box = text_box((low + high) / 2, y + 13, words, 13, "middle")
    if box.x1 - box.x0 + 8 < high - low:
        sheet.text(((low + high) / 2, y + 13), words, size=13, kind="num", anchor="middle")
    else:
        sheet.text((low - 12, y + 22), words, size=13, kind="num", anchor="end")
