"""The tightest gaps of a frame, one of each kind of place."""

from __future__ import annotations

from structures.frame.build.gaps.nears import FILM, OWN, Items, Near
from structures.frame.build.gaps.rods import Rod
from structures.frame.document import Tight

FIVE = 5
SAME_IN = 1e-6       # mirrored corners differ by less


class Tightest:
    """Collects gaps and keeps the least of each kind of place.

    Places are alike if a piece of one role is near to one of another role, or to one kind of thing: of mirrored corners, of
    every second tie and of the two pieces of a pair the one nearest to hoop 1, or of the lowest id, stands for all. What a
    flattened end leaves to its own hoop comes from its fitting, and how far a tube lies under the film from its landings,
    alike all over the frame: of each of these two the least is one place. So no two lines of the list say the same.
    """

    def __init__(self) -> None:
        self._least: dict[tuple[str, ...], tuple[Rod, Near, Items]] = {}

    def offer(self, rod: Rod, near: Near, items: Items) -> None:
        """Take in one gap of one piece."""
        place = (near.kind,) if near.kind in (FILM, OWN) else tuple(sorted((rod.role, near.role(items))))
        known = self._least.get(place)
        if known is None or _before(rod, near, *known[:2]):
            self._least[place] = rod, near, items

    def listed(self) -> list[Tight]:
        """The five least, the tightest first."""
        least = sorted(self._least.values(), key=lambda found: round(found[1].gap_in, 6))
        return [Tight(rod.stick_at(near.at[1]), near.place(rod, items), near.kind, near.gap_in, near.at)
                for rod, near, items in least[:FIVE]]


def _before(rod: Rod, near: Near, other: Rod, known: Near) -> bool:
    """Whether a gap is tighter than one that is known, or as tight and of a piece nearer to hoop 1 or of a lower id."""
    if abs(near.gap_in - known.gap_in) > SAME_IN:
        return near.gap_in < known.gap_in
    return (rod.first, rod.id) < (other.first, other.id)
