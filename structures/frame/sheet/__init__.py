"""What a crew builds from, told from one frozen document: the build sheet, the sheet for the rain, the life-size cards.

Pure: documents in, rows and sentences out, lengths already in the reader's own units. Nothing is computed here that the
document does not hold; what it does not hold is said in one sentence.
"""

from __future__ import annotations

from structures.frame.sheet.braces import BraceRow, TieRow
from structures.frame.sheet.corners import CornerPage, LandingRow
from structures.frame.sheet.marks import MarkGroup, MarkRow
from structures.frame.sheet.purlins import CutRow
from structures.frame.sheet.steps import Stage, StepRow
from structures.frame.sheet.telling import Telling
from structures.frame.sheet.whole import KEY, BuildSheet, Heading, build_sheet

__all__ = [
    "KEY", "BraceRow", "BuildSheet", "CornerPage", "CutRow", "Heading", "LandingRow", "MarkGroup", "MarkRow", "Stage", "StepRow",
    "Telling", "TieRow", "build_sheet",
]
