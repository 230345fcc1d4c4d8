"""How a drawing is looked at, read from an address: which view or joint, what is lit, which layers, from where.

All of it is in the address, so that a link shows the same and the page works without script. What is no view, layer or
standing place falls back to what is usual: an old link must still open.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.http import QueryDict

from structures.frame.document import Document
from structures.frame.drawing import CORNER_VIEWS, LAYERS, Standing
from structures.showing import View, part_of

LAYER_WORDS = {"marks": "Marks", "hardware": "Hardware", "places": "Places", "names": "Names of ends"}
MOST_TYPED = 60


@dataclass(frozen=True)
class Looking:
    """One look at one drawing. `lit` is a part number, the place id of a piece or joint, or "", `layers` those that are shown, `standing`
    where one stands ("" for a drawing that is seen from nowhere)."""

    view: View
    lit: str = ""
    layers: frozenset[str] = frozenset(LAYERS)
    standing: str = ""

    @classmethod
    def read(cls, query: QueryDict, document: Document, views: Sequence[View], places: Sequence[Standing]) -> Looking:
        """Read an address about this document, among these views and places to stand.

        Who says where they stand is shown what is seen from there; a view that is asked for says itself where one stands. A
        form sends both: where its view is another than it was, the view was chosen, else the place.
        """
        view = _asked_view(query, views)
        stands = next((place for place in places if place.code == query.get("standing")), None)
        turned = query.get("was", view.address) != view.address
        if stands is None or view.joint or (turned and view.code not in stands.views):
            stands = next((place for place in places if view.code in place.views), None)
        elif view.code not in stands.views:
            view = next((one for one in views if one.code in stands.views), view)
        layers = frozenset(LAYERS)
        if query.get("chosen"):
            layers &= frozenset(query.getlist("layer")[: len(LAYERS)])
        elif view.code not in CORNER_VIEWS:
            # Close up, bands and places are what one looks for; on the whole frame they are a hundred dots and names.
            layers -= {"hardware", "places"}
        return cls(view, lit_of(document, query.get("lit", "")[:MOST_TYPED]), layers, stands.code if stands else "")

    @property
    def hidden(self) -> str:
        """The classes that hide what was not ticked: "no-hardware no-places"."""
        return " ".join(f"no-{layer}" for layer in LAYERS if layer not in self.layers)

    @property
    def layer_choices(self) -> list[tuple[str, str, bool]]:
        """Each layer with its words and whether it is ticked."""
        return [(layer, LAYER_WORDS[layer], layer in self.layers) for layer in LAYERS]


def lit_of(document: Document, asked: str) -> str:
    """What was asked to be lit, where this document has it: a part of its kit, a piece of it or a joint; else ""."""
    known = any(line.part == asked for line in document.lines) or any(joint.id == asked for joint in document.joints)
    return asked if known or part_of(document, asked) else ""


def _asked_view(query: QueryDict, views: Sequence[View]) -> View:
    """The view or joint of an address; the first view where it names none that there is."""
    return next((view for view in views if view.address == query.get("view")), views[0])
