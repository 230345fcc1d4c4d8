"""Pictures that stand in for photos in the demo: drawn, marked as drawn, and different for each place and visit."""

from __future__ import annotations

import hashlib
from io import BytesIO

from PIL import Image, ImageDraw

WIDE, HIGH = 800, 1000
_GROUND, _SKY, _TUBE, _LIGHT, _DARK, _INK = "#8c8479", "#dfe3de", "#9aa3a8", "#c6cdd1", "#5c656b", "#12161a"


def stand_in(of: str, on: str, *, wrong: bool = False) -> bytes:
    """A JPEG of a leg with a brace end or, for a corner, of three legs in a row. `of` and `on` are written into it."""
    shift = int(hashlib.sha256(f"{of}{on}".encode()).hexdigest()[:4], 16) % 60
    image = Image.new("RGB", (WIDE, HIGH), _SKY)
    draw = ImageDraw.Draw(image)
    draw.polygon([(0, 480 - shift), (WIDE, 400 - shift), (WIDE, 760), (0, 780)], fill="#c9cfc7")
    draw.polygon([(0, 760), (WIDE, 720), (WIDE, HIGH), (0, HIGH)], fill=_GROUND)
    if "corner" in of:
        _row(draw, shift)
    else:
        _brace_end(draw, shift, wrong)
    _written(draw, of, on)
    out = BytesIO()
    image.save(out, "JPEG", quality=82)
    return out.getvalue()


def _leg(draw: ImageDraw.ImageDraw, x: int, width: int, foot: int) -> None:
    draw.rectangle((x, 0, x + width, foot), fill=_TUBE)
    draw.rectangle((x + width // 5, 0, x + width // 2, foot), fill=_LIGHT)
    draw.rectangle((x + width - width // 6, 0, x + width, foot), fill=_DARK)


def _row(draw: ImageDraw.ImageDraw, shift: int) -> None:
    for x, width, foot in ((470 + shift, 40, 700), (300 + shift, 60, 760), (90 + shift, 90, 860)):
        _leg(draw, x, width, foot)
    draw.line((120 + shift, 300, 330 + shift, 540), fill=_DARK, width=22)
    draw.line((330 + shift, 540, 490 + shift, 660), fill=_DARK, width=16)


def _brace_end(draw: ImageDraw.ImageDraw, shift: int, wrong: bool) -> None:
    x, lifted = 370 + shift, 70 if wrong else 0
    _leg(draw, x, 120, 830)
    draw.rectangle((x - 24, 560, x + 144, 680), fill="#8b949a")
    draw.rectangle((x - 24, 570, x + 144, 596), fill="#b8c0c4")
    draw.line((0, 260 - lifted, x + 40 - lifted, 600 - lifted), fill=_TUBE, width=56)
    draw.line((0, 250 - lifted, x + 40 - lifted, 588 - lifted), fill=_LIGHT, width=14)
    draw.ellipse((x + 10, 590, x + 74, 654), fill=_DARK)


def _written(draw: ImageDraw.ImageDraw, of: str, on: str) -> None:
    draw.rectangle((0, HIGH - 96, WIDE, HIGH), fill="white")
    # The decoder's own letters, made larger: no font file lies where every machine has one.
    draw.text((24, HIGH - 80), f"Stand-in, drawn and not taken\n{of}, {on}", fill=_INK, font_size=30)
