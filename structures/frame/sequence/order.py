"""Acts with their joints, sorted by need and then by the trade's order, and numbered as steps."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from structures.frame.document import Step
from structures.frame.said import Said
from structures.frame.sequence.act import NO_STOP, Act, Site

Needs = list[set[int]]


def give_joints(site: Site, acts: Sequence[Act]) -> None:
    """Give every joint that no act has claimed to the last of the acts that put in what it holds."""
    claimed = {joint.id for act in acts for joint in act.joints}
    by_piece = _by_piece(acts)
    for joint in site.frame.joints:
        if joint.id in claimed:
            continue
        among = [by_piece[piece.id] for piece in site.on(joint)]
        acts[max(among, key=lambda index: (acts[index].rank, index))].joints.append(joint)
    for act in acts:
        if act.order:
            act.joints.sort(key=act.order)


def _by_piece(acts: Sequence[Act]) -> dict[str, int]:
    return {piece.id: index for index, act in enumerate(acts) for piece in act.pieces}


def needs_of(site: Site, acts: Sequence[Act]) -> Needs:
    """For each act the acts that it can't do without: those that put in what its joints hold or sit on, and those it names."""
    by_piece = _by_piece(acts)
    hoops = _by_hoop(site, by_piece)
    needs: Needs = [_named(acts, act) for act in acts]
    for index, act in enumerate(acts):
        for joint in act.joints:
            held = {by_piece[piece.id] for piece in site.on(joint)}
            if joint.id in site.slides:
                for other in held:        # it is on before what it sits on is put in
                    needs[other].add(index)
            else:
                needs[index] |= held or hoops.get(joint.hoop or 0, set())
    for index, found in enumerate(needs):
        found.discard(index)
    return needs


def _by_hoop(site: Site, by_piece: dict[str, int]) -> dict[int, set[int]]:
    found: dict[int, set[int]] = {}
    for member in site.frame.members:
        if member.role == "section" and member.hoop is not None:
            found.setdefault(member.hoop, set()).add(by_piece[member.id])
    return found


def _named(acts: Sequence[Act], act: Act) -> set[int]:
    """The acts that it names by key, by stage ("stage:ridge") or by how their keys begin ("like:ties ")."""
    found = set()
    for index, other in enumerate(acts):
        for word in act.after:
            kind, _, rest = word.partition(":")
            if other.key == word or (kind == "stage" and other.stage == rest) or (kind == "like" and other.key.startswith(rest)):
                found.add(index)
    return found


def sort_acts(acts: Sequence[Act], needs: Needs) -> list[int]:
    """The acts in an order in which each follows all that it needs; of those that could come next, the trade's first."""
    waiting = [set(found) for found in needs]
    frees: list[list[int]] = [[] for _ in acts]
    for index, found in enumerate(needs):
        for other in found:
            frees[other].append(index)
    ready = [(acts[index].rank, index) for index, found in enumerate(waiting) if not found]
    heapq.heapify(ready)
    order = []
    while ready:
        _, index = heapq.heappop(ready)
        order.append(index)
        for other in frees[index]:
            waiting[other].discard(index)
            if not waiting[other]:
                heapq.heappush(ready, (acts[other].rank, other))
    if len(order) < len(acts):
        left = ", ".join(act.key for index, act in enumerate(acts) if index not in order)
        raise ValueError(f"These acts wait for one another: {left}.")
    return order


def number(acts: Sequence[Act], needs: Needs, order: list[int]) -> tuple[Step, ...]:
    """The acts as steps, numbered from 1, with what is not yet in where a stage ends."""
    numbers = {index: place for place, index in enumerate(order, start=1)}
    steps = []
    for place, index in enumerate(order, start=1):
        act = acts[index]
        told = act.tell(act)
        steps.append(Step(
            place, act.stage, told.does, tuple(piece.id for piece in act.pieces), tuple(joint.id for joint in act.joints), act.how,
            told.why, tuple(sorted(numbers[other] for other in needs[index])), told.cautions,
            _not_yet([acts[other] for other in order], place),
        ))
    return tuple(steps)


def _not_yet(acts: list[Act], done: int) -> Said:
    """What is not yet in after so many acts, if that is the end of a stage and nothing hangs by one end."""
    last, rest = acts[done - 1], acts[done:]
    if last.stage in NO_STOP or (rest and rest[0].stage == last.stage):
        return Said("")
    followed = {act.key for act in acts[:done]}
    if any(act.loose and f"{act.key.removesuffix(' hung')} upper" not in followed for act in acts[:done]):
        return Said("")
    missing = list(dict.fromkeys(act.puts_in for act in rest if act.puts_in))
    loose = any(act.joints for act in acts[:done]) and not any(act.stage == "tighten" for act in acts[:done])
    tight = " Nothing is tight yet." if loose else ""
    return Said("Not yet in: {missing}." + tight, {"missing": "; ".join(missing)}) if missing else Said("")
