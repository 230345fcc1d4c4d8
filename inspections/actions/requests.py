"""What becomes of something wrong: asked, sent, fitted, looked at again."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from inspections.mending import ASKED, LOOKED, OPEN, TAKEN_BACK, next_steps, stand_words
from inspections.models import FaultRequest, Observation, RequestStep
from inspections.states import UNSEEN, WELL, WRONG
from structures.events import record
from structures.models import User
from structures.refusals import Refuse


@transaction.atomic
def take_step(
    request: FaultRequest, step: str, *, by: User, note: str = "", observation: Observation | None = None
) -> RequestStep:
    """Append the next step to a request. Raises `Refuse` when that step does not follow the last one."""
    request = FaultRequest.objects.select_for_update().select_related("structure").get(pk=request.pk)
    last = request.steps.order_by("-number").first()
    before = last.step if last else ""
    if step not in next_steps(before):
        would_do = " or ".join(next_steps(before))
        stands = stand_words(before) if before else "new"
        raise Refuse(f"{request.code} of {request.structure.tag} is {stands}, so “{step}” can't be next: {would_do} would do.")
    made = RequestStep.objects.create(
        request=request, number=(last.number if last else 0) + 1, step=step, note=note, observation=observation, who=by,
        server_at=observation.server_at if observation else timezone.now(),
    )
    about = f"request {request.structure.tag} {request.place}"
    record(step, about, who=by, before={"step": before}, after={"step": step, "note": note})
    return made


def after_observation(observation: Observation, *, by: User) -> None:
    """What an observation, just appended, means for the requests at its place. Called inside the action's transaction.

    Wrong: a request is made, or the open one goes on. As built: an open request was looked at again, unless somebody
    else says on the same walk that it is wrong: that is settled by a correction. A correction that takes the fault
    away takes its request back.
    """
    structure = observation.visit.structure
    there = FaultRequest.objects.filter(structure=structure, place=observation.place).open().first()
    corrected = observation.corrects
    if observation.state == WRONG:
        if there is None:
            made = FaultRequest.objects.create(structure=structure, place=observation.place, observation=observation)
            take_step(made, ASKED, by=by, observation=observation)
        return
    if there is None or observation.state not in (WELL, UNSEEN):
        return
    if corrected is not None and corrected.state == WRONG and there.observation_id == _first_of(corrected).pk:
        if TAKEN_BACK in next_steps(there.last_step):
            take_step(there, TAKEN_BACK, by=by, observation=observation)
    elif observation.state == WELL and there.last_step in OPEN and not _somebody_else_says_wrong(observation):
        take_step(there, LOOKED, by=by, observation=observation)


def _somebody_else_says_wrong(observation: Observation) -> bool:
    """Whether another person's last answer at this place, on this walk and not corrected, is that something is wrong."""
    others = Observation.objects.filter(visit=observation.visit, place=observation.place, corrected_by__isnull=True)
    last = {other.who_id: other.state for other in others.exclude(who=observation.who).order_by("server_at", "id")}
    return WRONG in last.values()


def _first_of(observation: Observation) -> Observation:
    """The wrong observation that a chain of corrections began with."""
    while observation.corrects is not None and observation.corrects.state == WRONG:
        observation = observation.corrects
    return observation
