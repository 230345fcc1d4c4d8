"""Drawings of a frozen frame, as SVG text: every number is a CSS pixel at 1:1, drawn for its place and never scaled.

`render` draws a whole document, `render_bay` one bay for a walk round, `render_piece` and `render_twin` what a picker
holds in the hand, `family_icon` the small end view. All of them read the document only; coordinates, counts and codes
are the document's own.
"""

from __future__ import annotations

from .bay import render_bay
from .hand import render_piece, render_twin
from .icon import family_icon
from .scene import letters
from .style import DARK, GREY, LIGHT, STYLESHEET
from .tubemarks import TubeMark
from .whole import LAYERS, SIZES, VIEWS, render, section_marks

__all__ = [
    "DARK", "GREY", "LAYERS", "LIGHT", "SIZES", "STYLESHEET", "VIEWS", "TubeMark", "family_icon", "letters", "render",
    "render_bay", "render_piece", "render_twin", "section_marks",
]
