"""The order of work, computed: what can go up when, and why, for one frame.

Each piece knows from its joints which hoop sections and neighbours it needs. Like pieces are put in by one act; acts are
sorted by need and, among those that could come next, by the way the family is built and the trade's order. Sentences are made
from the frame's own figures, so a family file says nothing of them.
"""

from __future__ import annotations

from structures.frame.build import Frame
from structures.frame.document import Step
from structures.frame.sequence.act import Act, Site
from structures.frame.sequence.braces import brace_acts
from structures.frame.sequence.ground import ground_acts
from structures.frame.sequence.hoops import hoop_acts
from structures.frame.sequence.later import later_acts
from structures.frame.sequence.order import give_joints, needs_of, number, sort_acts
from structures.frame.sequence.runs import run_acts
from structures.frame.sequence.skin import skin_acts
from structures.frame.sequence.ties import tie_acts

__all__ = ["make_sequence"]


def make_sequence(frame: Frame) -> tuple[Step, ...]:
    """Every step, numbered from 1. Each piece and joint of the frame is put in by exactly one, after all that it needs."""
    site = Site(frame)
    acts: list[Act] = []
    for build in (ground_acts, hoop_acts, run_acts, tie_acts, brace_acts, skin_acts):
        acts += build(site)
    acts += later_acts(site, {piece.id for act in acts for piece in act.pieces})
    give_joints(site, acts)
    needs = needs_of(site, acts)
    return number(acts, needs, sort_acts(acts, needs))
