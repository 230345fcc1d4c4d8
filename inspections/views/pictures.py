"""The drawings on the pages of a walk."""

from __future__ import annotations

from django.urls import reverse

from inspections.models import Visit
from inspections.queries.stretch import StretchPage
from inspections.states import NOT_LOOKED, WRONG
from structures.frame.drawing import render_bay


def bay_picture(visit: Visit, page: StretchPage) -> str:
    """The bay's side as an SVG with each place's state in it; "" for an end wall."""
    stretch = page.leg.stretch
    if stretch.bay is None or visit.structure.design is None:
        return ""
    here = reverse("inspections:walk-stretch", kwargs={"pk": visit.pk, "stretch": stretch.key})
    states = {place.id: NOT_LOOKED for place in stretch.places}
    for place_id in states.keys() & page.sheet.now.keys():
        answer = page.sheet.now[place_id]
        states[place_id] = answer.fault_class if answer.state == WRONG else answer.state
    return render_bay(
        visit.structure.design.read(), stretch.bay, stretch.side, states,
        points={place.id: place.at for place in stretch.places}, chosen=page.chosen.place.id if page.chosen else "",
        href=f"{here}?place={{code}}#in-hand",
    )
