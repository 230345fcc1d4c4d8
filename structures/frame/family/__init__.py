"""What a family file says, once read: plain frozen dataclasses, all lengths in inches.

`structures.frame.reader` makes a `Family` from TOML text and refuses what can't be; `structures.frame.build` turns a
`Family` and a `Configuration` into a frame. Nothing in here computes.
"""

from __future__ import annotations

from structures.frame.family.hoop import Base, Hoop, Posts, Seam, Shape, Station
from structures.frame.family.lines import Chain, Landing, PurlinRun, TieSet, Web
from structures.frame.family.parts import FittingSet, Part, Tube
from structures.frame.family.skin import Allowance, Door, EndWall, FilmSheet, Fixture, Strip
from structures.frame.family.whole import Configuration, Family, OneOff, Option

__all__ = [
    "Allowance", "Base", "Chain", "Configuration", "Door", "EndWall", "Family", "FilmSheet", "FittingSet", "Fixture", "Hoop",
    "Landing", "OneOff", "Option", "Part", "Posts", "PurlinRun", "Seam", "Shape", "Station", "Strip", "TieSet", "Tube",
    "Web",
]
