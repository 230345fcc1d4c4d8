"""The frozen document: one configuration's computed frame and everything derived from it, as JSON and as dataclasses.

Confirming an order stores this document, and every later drawing, answer, mark, walk and pack reads it; it is never
built again. `SCHEMA` names the shape of the document, `ENGINE` the computation that filled it: build output that
changes must change `ENGINE`, a test says so. Documents of every earlier schema stay readable.

Lengths are inches, angles degrees, weights pounds. Coordinates are (x across, y along from hoop 1, z up from the ground
line), x = 0 at the ridge plane, left negative, seen from outside the tag end.
"""

from __future__ import annotations

from structures.frame.document.pieces import Brace, Flat, Joint, Landing, Member, Piece, Point, Reach, Tail, Tie
from structures.frame.document.reading import read_document, write_document
from structures.frame.document.room import Bar, Box, Swing, Tight
from structures.frame.document.whole import ENGINE, SCHEMA, Document, Measures, OptionAnswer, Panel, Totals
from structures.frame.document.work import Because, Cut, Hardware, Line, Mark, Step

__all__ = [
    "ENGINE", "SCHEMA", "Bar", "Because", "Box", "Brace", "Cut", "Document", "Flat", "Hardware", "Joint", "Landing", "Line",
    "Mark", "Measures", "Member", "OptionAnswer", "Panel", "Piece", "Point", "Reach", "Step", "Swing", "Tail", "Tie", "Tight",
    "Totals", "read_document", "write_document",
]
