"""A structure as it looks from its far end: everything half a turn round its middle, while ids and codes stay.

What stood on the left then stands on the right and hoop 1 is the farthest. Only for drawing: whoever reads a document for its
marks or counts reads the document itself.
"""

from __future__ import annotations

from dataclasses import replace

from structures.frame.document import Bar, Box, Brace, Document, Joint, Landing, Member, Panel, Point, Swing, Tie

_SIDES = {"left": "right", "right": "left"}


def turned(document: Document) -> Document:
    """The same document with its places turned half round: x and -x, tag end and far end, change places."""
    return _Turn(document).whole()


def other_side(side: str) -> str:
    """The side that takes a side's place; the ridge and "both" keep theirs."""
    return _SIDES.get(side, side)


class _Turn:
    def __init__(self, document: Document):
        self.document = document
        self.length, self.hoops = document.measures.length_in, document.measures.hoops
        self.around = document.measures.developed_in

    def whole(self) -> Document:
        """The document, turned."""
        d = self.document
        return replace(
            d, members=tuple(map(self._member, d.members)), joints=tuple(map(self._joint, d.joints)),
            braces=tuple(map(self._brace, d.braces)), ties=tuple(map(self._tie, d.ties)),
            panels=tuple(map(self._panel, d.panels)), boxes=tuple(map(self._box, d.boxes)),
            bars=tuple(map(self._bar, d.bars)), swings=tuple(map(self._swing, d.swings)),
        )

    def point(self, at: Point) -> Point:
        return -at[0], self.length - at[1], at[2]

    def hoop(self, hoop: int) -> int:
        return self.hoops + 1 - hoop

    def _member(self, m: Member) -> Member:
        # a section is followed from the left foot, a stick from the tag end: both run the other way now
        low, high = m.s_from_in, m.s_to_in
        return replace(m, start=self.point(m.end), end=self.point(m.start), hoop=m.hoop and self.hoop(m.hoop),
                       s_from_in=None if high is None else self.around - high, s_to_in=None if low is None else self.around - low)

    def _joint(self, j: Joint) -> Joint:
        return replace(j, at=self.point(j.at), hoop=j.hoop and self.hoop(j.hoop), side=other_side(j.side))

    def _landing(self, landing: Landing) -> Landing:
        return replace(landing, hoop=self.hoop(landing.hoop), side=other_side(landing.side), hole=self.point(landing.hole))

    def _brace(self, b: Brace) -> Brace:
        return replace(b, landing_from=self._landing(b.landing_from), landing_to=self._landing(b.landing_to),
                       passes=tuple(map(self._landing, b.passes)))

    def _tie(self, t: Tie) -> Tie:
        return replace(t, hoop=self.hoop(t.hoop), landing_from=self._landing(t.landing_to), landing_to=self._landing(t.landing_from))

    def _panel(self, p: Panel) -> Panel:
        return replace(p, bay=p.bay and self.hoops - p.bay, end=p.end and 3 - p.end, side=other_side(p.side))

    def _box(self, b: Box) -> Box:
        low, high = self.point(b.low), self.point(b.high)
        return replace(b, low=(high[0], high[1], low[2]), high=(low[0], low[1], high[2]))

    def _bar(self, b: Bar) -> Bar:
        return replace(b, x=-b.x, along_x=-b.along_x, side=other_side(b.side), y0=self.length - b.y1, y1=self.length - b.y0)

    def _swing(self, s: Swing) -> Swing:
        return replace(s, x=-s.x, y=self.length - s.y, closed=-s.closed, opens=-s.opens)
