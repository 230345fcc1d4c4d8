"""What a crew builds from, told from one frozen document: the build sheet, the sheet for the rain, the life-size cards.

Pure: documents in, rows and sentences out, lengths already in the reader's own units. Nothing is computed here that the
document does not hold; what it does not hold is said in one sentence.
"""

from __future__ import annotations

from structures.frame.sheet.braces import BraceRow, TieRow
from structures.frame.sheet.cards import Card, CardEnd, card_parts, make_card
from structures.frame.sheet.corners import CornerPage, LandingRow
from structures.frame.sheet.drawn import OVERALL, corner_drawing, joint_drawings, overall
from structures.frame.sheet.marks import MarkGroup, MarkRow
from structures.frame.sheet.purlins import CutRow
from structures.frame.sheet.rain import RainCorner, rain_corners
from structures.frame.sheet.steps import Stage, StepRow
from structures.frame.sheet.telling import Telling
from structures.frame.sheet.whole import KEY, BuildSheet, Heading, build_sheet

__all__ = [
    "KEY", "OVERALL", "BraceRow", "BuildSheet", "Card", "CardEnd", "CornerPage", "CutRow", "Heading", "LandingRow", "MarkGroup", "MarkRow",
    "RainCorner", "Stage", "StepRow", "Telling", "TieRow", "build_sheet", "card_parts", "corner_drawing", "joint_drawings",
    "make_card", "overall", "rain_corners",
]
