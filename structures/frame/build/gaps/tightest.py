"""The tightest gaps of a frame, one of each kind of place."""

from __future__ import annotations

from structures.frame.build.gaps.measure import FILM, OWN, Gap
from structures.frame.build.gaps.rods import Rod
from structures.frame.document import Tight

FIVE = 5
SAME_IN = 1e-6       # mirrored corners differ by less


class Tightest:
    """Collects gaps and keeps the least of each kind of place.

    Places are alike if a piece of one role is near to one of another role, or to one kind of thing: of mirrored corners, of
    every second tie and of the two pieces of a pair the first stands for all. What a flattened end leaves to its own hoop
    comes from its fitting, and how far a tube lies under the film from its landings, alike all over the frame: of each of
    these two the least is one place. So no two lines of the list say the same.
    """

    def __init__(self) -> None:
        self._least: dict[tuple[str, ...], tuple[Rod, Gap]] = {}

    def offer(self, rod: Rod, gaps: list[Gap]) -> None:
        """Take in the gaps of one piece."""
        for gap in gaps:
            place = (gap.kind,) if gap.kind in (FILM, OWN) else tuple(sorted((rod.role, gap.role)))
            known = self._least.get(place)
            if known is None or _before(rod, gap, *known):
                self._least[place] = rod, gap

    def listed(self) -> list[Tight]:
        """The five least, the tightest first."""
        least = sorted(self._least.values(), key=lambda found: round(found[1].gap_in, 6))
        return [Tight(rod.stick_at(gap.at[1]), gap.near, gap.kind, gap.gap_in, gap.at) for rod, gap in least[:FIVE]]


def _before(rod: Rod, gap: Gap, other: Rod, known: Gap) -> bool:
    """Whether a gap is tighter than one that is known, or as tight and of a piece nearer to hoop 1 or of a lower id."""
    if abs(gap.gap_in - known.gap_in) > SAME_IN:
        return gap.gap_in < known.gap_in
    return (rod.first, rod.id) < (other.first, other.id)
