"""Drawings of a frozen frame, as SVG text: every number is a CSS pixel at 1:1, drawn for its place and never scaled.

`render` draws a whole document, `render_joint` one joint of its kind, `render_life_end` a flattened end at its own size,
`render_bay` one bay for a walk round, `render_piece` and `render_twin` what a picker holds in the hand, `family_icon` the
small end view. All of them read the document only; coordinates, counts and codes
are the document's own.
"""

from __future__ import annotations

from .bay import render_bay
from .corner_rows import CornerRow
from .hand import render_piece, render_twin
from .icon import family_icon
from .joints import JointKind, KeyRow, joint_key, joint_kinds, render_joint
from .lifesize import LifeEnd, life_ends, render_life_end
from .scene import letters
from .standing import Standing, caption
from .standing import places as standing
from .style import DARK, GREY, LIGHT, STYLESHEET
from .tubemarks import TubeMark
from .whole import CORNER_VIEWS, LAYERS, SIZES, VIEWS, corner_rows, render, section_marks, views_of

__all__ = [
    "CORNER_VIEWS", "DARK", "GREY", "LAYERS", "LIGHT", "SIZES", "STYLESHEET", "VIEWS", "CornerRow", "JointKind", "KeyRow",
    "LifeEnd", "Standing", "TubeMark", "caption", "corner_rows", "family_icon", "joint_key", "joint_kinds", "letters",
    "life_ends", "render", "render_bay", "render_joint", "render_life_end", "render_piece", "render_twin", "section_marks",
    "standing", "views_of",
]
